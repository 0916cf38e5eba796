//! The parts that hold the pressure: what can be asked of one, what was answered, and how it reaches the physics.
//!
//! A design has up to [`MOST_PARTS`] of them. Every fact about an input stands once, in the table of [`rows`].

mod log;
pub mod rows;
mod solid;
pub mod table;
mod usual;

pub use log::{LOG_LIMIT, LogEntry};
pub use rows::{PART_NAME_LIMIT, PART_ROWS, PartInput};
pub use table::{Asked, DomeShape, Form, PartKind, PartMaterial, PartRow, PartStage, RimEdge, Word};
pub use usual::usual_parts;

pub(crate) use log::{cleaned, joined};

use core::fmt;

use crate::check::{Problem, check_number, check_text};
use crate::text::{disturbs, quoted};

/// Most parts of a design.
pub const MOST_PARTS: usize = 24;

/// The key of an input of a part in the link; parts are numbered from 1.
#[must_use]
pub fn key_of(number: usize, input: PartInput) -> String {
    format!("p{number}.{}", input.row().key)
}

/// What was answered to an input.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Value {
    /// A number in the unit of the link; `None` where one is left out that may be.
    Number(Option<f64>),
    /// The place of a word in the list of its input.
    Word(usize),
}

/// A part that holds the pressure.
///
/// It holds answers only to what is asked of its kind and material, each within its range: whatever else is set is refused.
#[derive(Clone, Debug, PartialEq)]
pub struct VesselPart {
    name: String,
    /// What differs from the default of its kind.
    values: [Option<Value>; PartInput::COUNT],
}

impl VesselPart {
    /// A part with the defaults of its kind.
    #[must_use]
    pub fn new(kind: PartKind) -> Self {
        let mut part = Self { name: String::new(), values: [None; PartInput::COUNT] };
        part.put(PartInput::Kind, Value::Word(kind as usize));
        part
    }

    /// Its name; empty when it has none.
    #[must_use]
    pub fn name(&self) -> &str {
        &self.name
    }

    /// Names it, as [`crate::Design::set_name`] does the design; the answer tells whether the name was taken unchanged.
    pub fn set_name(&mut self, name: &str) -> bool {
        self.name = name.chars().filter(|c| !disturbs(*c)).take(PART_NAME_LIMIT).collect();
        self.name == name
    }

    /// What it is called: its name, or its kind and number.
    #[must_use]
    pub fn called(&self, number: usize) -> String {
        match self.name.trim() {
            "" => format!("{} {number}", self.kind().word().label),
            name => name.to_owned(),
        }
    }

    /// What it is.
    #[must_use]
    pub fn kind(&self) -> PartKind {
        PartKind::at(self.place(PartInput::Kind)).unwrap_or(PartKind::Shell)
    }

    /// Whose pressure it is under.
    #[must_use]
    pub fn stage(&self) -> PartStage {
        PartStage::at(self.place(PartInput::Stage)).unwrap_or(PartStage::Sustainer)
    }

    /// What it is made of.
    #[must_use]
    pub fn material(&self) -> PartMaterial {
        PartMaterial::at(self.place(PartInput::Material)).unwrap_or(PartMaterial::Pet)
    }

    /// Shape of a dome.
    #[must_use]
    pub fn shape(&self) -> DomeShape {
        DomeShape::at(self.place(PartInput::Shape)).unwrap_or(DomeShape::Hemisphere)
    }

    /// How the rim of a flat closure is held.
    #[must_use]
    pub fn edge(&self) -> RimEdge {
        RimEdge::at(self.place(PartInput::Edge)).unwrap_or(RimEdge::Supported)
    }

    /// Whether an input is asked of it.
    #[must_use]
    pub fn asks(&self, input: PartInput) -> bool {
        match input.row().asked {
            Asked::OfAll => true,
            Asked::Of(kinds) => kinds.contains(&self.kind()),
            Asked::OfOwnMaterial => self.material() == PartMaterial::Own,
        }
    }

    /// The inputs that are asked of it, in the order of the table.
    pub fn asked(&self) -> impl Iterator<Item = PartInput> + '_ {
        PartInput::ALL.into_iter().filter(|input| self.asks(*input))
    }

    /// A number in the unit of the link; `None` for one left out, not asked, or no number at all.
    #[must_use]
    pub fn number(&self, input: PartInput) -> Option<f64> {
        match self.values[input as usize] {
            Some(Value::Number(number)) => number,
            _ => input.facts(self.kind()).filter(|_| self.asks(input)).and_then(|facts| facts.default()),
        }
    }

    /// A number in SI units.
    pub(crate) fn si(&self, input: PartInput) -> Option<f64> {
        let facts = input.facts(self.kind())?;
        self.number(input).map(|value| facts.unit.to_si(value))
    }

    /// The place of the chosen word in the list of its input; nought for an input without words.
    #[must_use]
    pub fn place(&self, input: PartInput) -> usize {
        match self.values[input as usize] {
            Some(Value::Word(place)) => place,
            // The kind itself has no default that would depend on the kind.
            _ if input == PartInput::Kind => PartKind::Shell as usize,
            _ => input.default_word(self.kind()).unwrap_or(0),
        }
    }

    /// Whether an input has the default of the part's kind.
    #[must_use]
    pub fn is_default(&self, input: PartInput) -> bool {
        if input == PartInput::Name { self.name.is_empty() } else { self.values[input as usize].is_none() }
    }

    /// An answer as the link holds it: a name, a word, or a number in the unit of the link; empty for one left out.
    #[must_use]
    pub fn text(&self, input: PartInput) -> String {
        match input.row().form {
            Form::Text(_) => self.name.clone(),
            Form::Words(words, ..) => words.get(self.place(input)).map(|word| word.word).unwrap_or_default().to_owned(),
            Form::Number(..) => self.number(input).map(|number| number.to_string()).unwrap_or_default(),
        }
    }

    /// An answer in words, for a sentence or a list.
    #[must_use]
    pub fn show(&self, input: PartInput) -> String {
        match (input.row().form, input.facts(self.kind())) {
            (Form::Words(words, ..), _) => {
                words.get(self.place(input)).map(|word| word.label).unwrap_or_default().to_owned()
            }
            (_, Some(facts)) => facts.show(self.number(input)),
            _ => format!("\"{}\"", self.name),
        }
    }

    /// Sets a number or chooses a word. With another kind or material, answers that are no longer asked are dropped.
    ///
    /// # Errors
    ///
    /// What is wrong; the part then stays as it was.
    pub fn set(&mut self, input: PartInput, value: Value) -> Result<(), PartProblem> {
        if !self.asks(input) {
            return Err(PartProblem::NotAsked);
        }
        let value = match (value, input.facts(self.kind())) {
            (Value::Number(number), Some(facts)) => {
                Value::Number(check_number(&facts, number).map_err(PartProblem::Number)?)
            }
            (Value::Word(place), None) if place < input.words().len() => value,
            (_, facts) => {
                return Err(facts.map_or(PartProblem::NoSuchWord, |_| PartProblem::Number(Problem::NotANumber)));
            }
        };
        self.put(input, value);
        Ok(())
    }

    /// Sets an input from a text of the link; a name is cut to what is allowed and taken.
    ///
    /// # Errors
    ///
    /// What is wrong with the text.
    pub fn set_text(&mut self, input: PartInput, text: &str) -> Result<(), PartProblem> {
        match (input.row().form, input.facts(self.kind())) {
            _ if !self.asks(input) => Err(PartProblem::NotAsked),
            (Form::Text(_), _) => self.set_name(text).then_some(()).ok_or(PartProblem::Name),
            (Form::Words(words, ..), _) => {
                let given = text.trim();
                let place = words.iter().position(|word| word.word.eq_ignore_ascii_case(given));
                self.set(input, Value::Word(place.ok_or(PartProblem::NoSuchWord)?))
            }
            (_, Some(facts)) => {
                let number = check_text(&facts, text).map_err(PartProblem::Number)?;
                self.set(input, Value::Number(number))
            }
            _ => Err(PartProblem::NotAsked),
        }
    }

    /// Sets an input back to the default of the part's kind.
    pub fn reset(&mut self, input: PartInput) {
        if input == PartInput::Name {
            self.name.clear();
        } else {
            self.values[input as usize] = None;
            self.drop_what_is_not_asked();
        }
    }

    /// Keeps a checked value, and only if it is not the default, so that equal parts are equal and links are short.
    fn put(&mut self, input: PartInput, value: Value) {
        let is_default = match value {
            Value::Number(number) => input.facts(self.kind()).is_some_and(|facts| facts.default() == number),
            Value::Word(place) if input == PartInput::Kind => place == PartKind::Shell as usize,
            Value::Word(place) => input.default_word(self.kind()) == Some(place),
        };
        self.values[input as usize] = (!is_default).then_some(value);
        self.drop_what_is_not_asked();
    }

    fn drop_what_is_not_asked(&mut self) {
        for input in PartInput::ALL {
            // Of another kind the same value may be the default.
            let same = match (self.values[input as usize], input.facts(self.kind())) {
                (Some(Value::Number(number)), Some(facts)) => facts.default() == number,
                (Some(Value::Word(place)), _) if input != PartInput::Kind => {
                    input.default_word(self.kind()) == Some(place)
                }
                _ => false,
            };
            if same || !self.asks(input) {
                self.values[input as usize] = None;
            }
        }
    }
}

/// What is wrong with an answer to an input of a part.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum PartProblem {
    /// The number.
    Number(Problem),
    /// The word is none of those that can be chosen.
    NoSuchWord,
    /// The name was too long or held characters that break a line; it was taken without them.
    Name,
    /// Parts of this kind and material have no such input.
    NotAsked,
}

/// An answer to an input of a part that was not used as given. Displays as one line.
#[derive(Clone, Debug, PartialEq)]
pub struct PartComplaint {
    /// Number of the part, from 1.
    pub number: usize,
    /// The input.
    pub input: PartInput,
    /// What was given.
    pub given: String,
    /// What is wrong with it.
    pub problem: PartProblem,
    /// What is used instead, in words.
    pub used: String,
    /// The kind of the part.
    pub kind: PartKind,
    /// Keys of what is asked of the part, where the input is not.
    asked: String,
}

impl PartComplaint {
    /// The complaint about what was given to a part as it is now.
    pub(crate) fn new(number: usize, part: &VesselPart, input: PartInput, given: &str, problem: PartProblem) -> Self {
        let asked = match problem {
            PartProblem::NotAsked => table::listed(part.asked().map(|input| input.row().key)),
            _ => String::new(),
        };
        Self { number, input, given: given.to_owned(), problem, used: part.show(input), kind: part.kind(), asked }
    }

    /// The key in the link.
    #[must_use]
    pub fn key(&self) -> String {
        key_of(self.number, self.input)
    }
}

impl fmt::Display for PartComplaint {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let Self { input, used, .. } = self;
        let given = quoted(self.given.trim());
        write!(f, "{} ({}): ", input.row().label, self.key())?;
        match self.problem {
            PartProblem::NotAsked => {
                let kind = self.kind.word();
                return write!(
                    f,
                    "{given} was not used, since this is not asked of part {} ({}). Allowed for it: {}.",
                    self.number,
                    kind.label.to_ascii_lowercase(),
                    self.asked
                );
            }
            PartProblem::Number(problem) => f.write_str(&problem.words(&self.given))?,
            PartProblem::NoSuchWord if self.given.trim().is_empty() => f.write_str("you gave no word")?,
            PartProblem::NoSuchWord => write!(f, "{given} is not a word that is known here")?,
            PartProblem::Name => write!(f, "{given} cannot be used as it is")?,
        }
        write!(f, ". Allowed: {}. Using {used} meanwhile.", input.allowed())
    }
}

impl core::error::Error for PartComplaint {}
