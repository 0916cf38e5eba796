//! What was typed: the ground state from which everything on the page follows.
//!
//! The text of every field and the name are the only things stored. [`Page::apply`] is the one door through
//! which they change, whoever asks: a field, the slider, a finger on the chart, a link, an example. Whatever has
//! to know about every change (the link, the way back, what the device keeps) stands at that door.

use std::cell::Cell;
use std::time::Duration;

use holdwater_design::link::{self, Opened};
use holdwater_design::measure::{self, Complaint, System, check, field_text};
use holdwater_design::parts::{LogEntry, VesselPart};
use holdwater_design::shelf::History;
use holdwater_design::{Design, Input, Part};
use holdwater_pictures::chart::Frame;

use crate::aside::Aside;
use crate::browser::{WhenQuiet, focus_on, milliseconds, replace_fragment, scrolled};
use crate::canvas::Colours;
use crate::choices::Way;
use crate::compare::Compare;
use crate::flown::Flown;
use crate::keeping::Keeping;
use crate::react::{Memo, RwSignal, StoredValue};

/// How long the design has to rest before it is written into the address bar.
const LINK_PAUSE: Duration = Duration::from_millis(250);

/// A change of the design.
#[derive(Clone, Debug, PartialEq)]
pub enum Change {
    /// The text of a field, as it is being typed.
    Text(Input, String),
    /// A value from elsewhere than typing; `None` leaves an optional input out.
    Value(Input, Option<f64>),
    /// Back to the default.
    Reset(Input),
    /// The name.
    Name(String),
    /// The parts that hold the pressure, all of them, and the key of what was typed; the key is empty where a tap changed them, which
    /// is a step of its own.
    Parts(Vec<VesselPart>, &'static str),
    /// The log of like parts.
    Log(Vec<LogEntry>),
}

/// Everything the page holds and everything that follows from it. There is one, and it lives as long as the page.
pub struct Page {
    /// The name of the design as typed.
    pub name: RwSignal<String>,
    texts: Vec<RwSignal<String>>,
    /// The parts that hold the pressure, with their last good values.
    pub parts: RwSignal<Vec<VesselPart>>,
    /// The log of like parts.
    pub log: RwSignal<Vec<LogEntry>>,
    /// The units of everything shown and typed; links do not know them.
    pub units: RwSignal<System>,
    /// The design of the last good values: a field with something wrong in it keeps its value from before.
    pub design: Memo<Design>,
    /// The design flown.
    pub flown: Flown,
    /// The link that was opened, with what had to be said about it, until the reader has put it away.
    pub notice: RwSignal<Option<Opened>>,
    /// The part of the stack whose inputs are open.
    pub open_part: RwSignal<Option<Part>>,
    /// How far the page was scrolled when the inputs were opened, CSS px.
    pub scroll_place: StoredValue<f64>,
    /// How many links were opened so far.
    opened: RwSignal<u32>,
    /// The fragment that was opened, for as long as nothing was changed since.
    unchanged: RwSignal<Option<String>>,
    writer: StoredValue<WhenQuiet>,
    history: RwSignal<History>,
    /// What the device keeps.
    pub keeping: Keeping,
    /// The design pinned to be compared with.
    pub compare: Compare,
    /// The colours of everything shown.
    pub colours: Colours,
    /// Where the plot of height against delay lies, for whatever has to lie exactly over or under it.
    pub delay_frame: RwSignal<Option<Frame>>,
    /// The one way to stage whose line is shown alone, if one was picked.
    pub shown_way: RwSignal<Option<Way>>,
}

thread_local! {
    static PAGE: Cell<Option<&'static Page>> = const { Cell::new(None) };
}

/// The page, from within any component.
#[must_use]
pub fn page() -> &'static Page {
    PAGE.get().unwrap_or_else(|| unreachable!("components are made after the page"))
}

impl Page {
    /// Makes the page with the default design and hands it to every component below.
    pub fn provide() -> &'static Self {
        let name = RwSignal::new(String::new());
        let keeping = Keeping::start();
        let aside = Aside::start();
        let compare = Compare::start(aside.clone());
        let units = RwSignal::new(keeping.units());
        let text = |input: &Input| RwSignal::new(text_of(*input, units.get_untracked(), input.row().default()));
        let texts: Vec<_> = Input::ALL.iter().map(text).collect();
        let (parts, log) = (RwSignal::default(), RwSignal::default());
        let design = last_good_design(name, units, texts.clone(), parts, log);
        let unchanged = RwSignal::new(None);
        let opened = RwSignal::new(0);
        let write = move || {
            if unchanged.with_untracked(Option::is_none) {
                replace_fragment(&link::join(&link::write(&design.read_untracked()), compare.link().as_deref()));
                keeping.keep(&design.read_untracked());
            }
        };
        // The page is needed until the window closes, so it is never given back.
        let page: &'static Self = Box::leak(Box::new(Self {
            name,
            texts,
            parts,
            log,
            units,
            design,
            flown: Flown::follow(design, opened, &aside),
            opened,
            notice: RwSignal::new(None),
            open_part: RwSignal::new(None),
            scroll_place: StoredValue::new(0.0),
            unchanged,
            writer: StoredValue::new(WhenQuiet::new(LINK_PAUSE, write)),
            history: RwSignal::new(History::new(&link::write(&Design::default()))),
            keeping,
            compare,
            colours: Colours::follow(),
            delay_frame: RwSignal::new(None),
            shown_way: RwSignal::new(None),
        }));
        PAGE.set(Some(page));
        page
    }

    /// The text in the field of an input.
    #[must_use]
    pub fn text(&self, input: Input) -> RwSignal<String> {
        self.texts[input as usize]
    }

    /// What is wrong with the text in the field of an input.
    #[must_use]
    pub fn complaint(&self, input: Input) -> Option<Complaint> {
        let kept = self.design.with(|design| design.get(input));
        self.text(input).with(|text| check(input, text, self.units.get(), kept).err())
    }

    /// Whether the answers shown are those of earlier values, because something typed cannot be used.
    #[must_use]
    pub fn is_stale(&self) -> bool {
        let units = self.units.get();
        let cannot_be_read = |input: &Input| self.text(*input).with(|text| check(*input, text, units, None).is_err());
        Input::ALL.iter().any(cannot_be_read) || self.flown.is_refused()
    }

    /// The one door for changes of the design.
    pub fn apply(&self, change: Change) {
        let what = match change {
            Change::Text(input, text) => {
                self.text(input).set(text);
                input.row().key
            }
            Change::Value(input, value) => self.show(input, value),
            Change::Reset(input) => self.show(input, input.row().default()),
            Change::Name(name) => {
                self.name.set(name);
                "name"
            }
            Change::Parts(parts, what) => {
                self.parts.set(parts);
                what
            }
            Change::Log(log) => {
                self.log.set(log);
                "log"
            }
        };
        self.changed(what);
    }

    /// Puts a value into a field, in the units of the page.
    fn show(&self, input: Input, value: Option<f64>) -> &'static str {
        self.text(input).set(text_of(input, self.units.get_untracked(), value));
        input.row().key
    }

    /// Everybody who has to know of a change is told.
    fn changed(&self, what: &str) {
        self.unchanged.set(None);
        let link = link::write(&self.design.read_untracked());
        self.history.update(|history| history.note(&link, what, milliseconds() as u64));
        self.writer.with_value(WhenQuiet::ask);
    }

    /// Takes the last change back, or takes it again.
    pub fn step_back(&self, again: bool) {
        let step = |history: &mut History| if again { history.redo() } else { history.undo() }.map(str::to_owned);
        if let Some(link) = self.history.try_update(step).flatten() {
            batch_set(self, &link::open(&link).design);
            self.unchanged.set(None);
            self.writer.with_value(WhenQuiet::ask);
        }
    }

    /// Whether there is a change to take back, or to take again.
    #[must_use]
    pub fn can_step_back(&self, again: bool) -> bool {
        self.history.with(|history| if again { history.can_redo() } else { history.can_undo() })
    }

    /// Shows everything in other units; the design stays what it is.
    pub fn use_units(&self, units: System) {
        let design = self.design.get_untracked();
        self.units.set(units);
        batch_set(self, &design);
        self.keeping.remember_units(units);
    }

    /// Moves an input by presses of plus or minus, from its last good value.
    pub fn press(&self, input: Input, presses: i32) {
        let value = self.design.with_untracked(|design| design.number(input));
        let stepped = measure::stepped(input.row(), self.units.get_untracked(), value, presses);
        self.apply(Change::Value(input, Some(stepped)));
    }

    /// Moves the delay to where a finger or a slider is.
    pub fn drag_delay(&self, delay_s: f64) {
        let value = self.flown.delay_within(delay_s);
        if self.design.with_untracked(|design| design.get(Input::Delay)) != Some(value) {
            self.apply(Change::Value(Input::Delay, Some(value)));
        }
    }

    /// Tidies the field of an input when it is left: the plain form of the number that was understood.
    pub fn tidy(&self, input: Input) {
        let (text, units) = (self.text(input), self.units.get_untracked());
        if let Ok(value) = text.with_untracked(|text| check(input, text, units, None)) {
            let plain = text_of(input, units, value);
            if text.with_untracked(|text| *text != plain) {
                text.set(plain);
            }
        }
    }

    /// Replaces the whole design by what a link holds. The address bar keeps the link as it was opened.
    pub fn open(&self, fragment: String) {
        self.writer.with_value(WhenQuiet::forget);
        let (own, pinned) = link::split(&fragment);
        let opened = link::open(own);
        self.compare.pin(pinned);
        batch_set(self, &opened.design);
        let link = link::write(&opened.design);
        if self.opened.get_untracked() == 0 {
            // The way back ends at what the page was called with.
            self.history.set(History::new(&link));
        } else {
            self.history.update(|history| history.note(&link, "", milliseconds() as u64));
        }
        self.opened.update(|count| *count += 1);
        self.keeping.begin(own);
        self.unchanged.set(Some(fragment));
        let worth_saying = !opened.complaints.is_empty() || !opened.remarks.is_empty();
        self.notice.set(worth_saying.then_some(opened));
    }

    /// Opens the inputs of a part, or closes them when they are open.
    pub fn toggle_part(&self, part: Part) {
        if self.open_part.with_untracked(Option::is_none) {
            self.scroll_place.set_value(scrolled());
        }
        self.open_part.update(|open| *open = if *open == Some(part) { None } else { Some(part) });
    }

    /// Closes the open inputs and gives the keyboard back to the part they belong to.
    pub fn close_part(&self) {
        if let Some(part) = self.open_part.get_untracked() {
            self.open_part.set(None);
            focus_on(&format!("[data-part=\"{part:?}\"]"));
        }
    }

    /// The fragment of the link to this design; an opened link that was not changed stays what it was.
    #[must_use]
    pub fn fragment(&self) -> String {
        let opened = self.unchanged.get_untracked();
        opened
            .unwrap_or_else(|| link::join(&link::write(&self.design.read_untracked()), self.compare.link().as_deref()))
    }

    /// Pins the design as it is, or lets the pinned one go.
    pub fn pin(&self, on: bool) {
        let own = if on { link::write(&self.design.read_untracked()) } else { String::new() };
        self.compare.pin(&own);
        self.unchanged.set(None);
        self.writer.with_value(WhenQuiet::ask);
    }

    /// The pinned design becomes the one at hand, and the other way round.
    pub fn swap_pinned(&self) {
        let Some(pinned) = self.compare.link() else { return };
        let own = link::write(&self.design.read_untracked());
        batch_set(self, &link::open(&pinned).design);
        self.compare.pin(&own);
        self.changed("");
    }

    /// Brings the address bar up to date at once.
    pub fn flush_link(&self) {
        self.writer.with_value(WhenQuiet::flush);
    }
}

/// Sets every field from a design.
fn batch_set(page: &Page, design: &Design) {
    page.name.set(design.name().to_owned());
    page.parts.set(design.parts().to_vec());
    page.log.set(design.log().to_vec());
    for input in Input::ALL {
        page.show(input, design.get(input));
    }
}

/// The text of a value in a field.
fn text_of(input: Input, units: System, value: Option<f64>) -> String {
    value.map(|number| field_text(input.row().unit, units, number)).unwrap_or_default()
}

/// Reads all fields; one that cannot be read keeps its value of before.
fn last_good_design(
    name: RwSignal<String>,
    units: RwSignal<System>,
    texts: Vec<RwSignal<String>>,
    parts: RwSignal<Vec<VesselPart>>,
    log: RwSignal<Vec<LogEntry>>,
) -> Memo<Design> {
    Memo::new(move |before: Option<&Design>| {
        let mut design = before.cloned().unwrap_or_default();
        name.with(|name| design.set_name(name));
        design.set_parts(parts.get());
        log.with(|log| design.set_log(log));
        let units = units.get();
        for input in Input::ALL {
            if let Ok(value) = texts[input as usize].with(|text| check(input, text, units, None)) {
                // A checked value is within the range, so this cannot be refused.
                let _ = design.set(input, value);
            }
        }
        design
    })
}
