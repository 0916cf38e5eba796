//! What a row of the table of vessel parts is made of.

use holdwater_physics::vessel::materials::MaterialName;

use super::rows::{PART_ROWS, PartInput};
use crate::table::{Facts, Start};

/// A word that can be chosen: as the link holds it, and as people read it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Word {
    /// In the link.
    pub word: &'static str,
    /// On the page.
    pub label: &'static str,
}

pub(super) const fn word(word: &'static str, label: &'static str) -> Word {
    Word { word, label }
}

/// Makes an enum whose variants are words of the link, with the list of those words.
macro_rules! words {
    ($(#[$doc:meta])* $name:ident, $list:ident: $( $(#[$of:meta])* $variant:ident $word:literal $label:literal, )+) => {
        $(#[$doc])*
        #[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
        pub enum $name { $( $(#[$of])* $variant, )+ }

        /// Their words, in their order.
        pub static $list: [Word; [$($word,)+].len()] = [ $( word($word, $label), )+ ];

        impl $name {
            /// All of them, in the order in which they are offered.
            pub const ALL: [Self; [$($word,)+].len()] = [ $( Self::$variant, )+ ];

            /// Its word in the link and on the page.
            #[must_use]
            pub fn word(self) -> Word {
                $list[self as usize]
            }

            pub(super) fn at(place: usize) -> Option<Self> {
                Self::ALL.get(place).copied()
            }
        }
    };
}

words! {
    /// What a part is, and so which stresses it sees.
    PartKind, KINDS:
    /// A cylinder.
    Shell "shell" "Shell",
    /// A domed end.
    Dome "dome" "Dome",
    /// A bonded splice or sleeve.
    Splice "splice" "Splice",
    /// A screwed coupling or cap, known by its maker's rating.
    Screwed "screwed" "Screwed coupling",
    /// A flat closure.
    Flat "flat" "Flat end closure",
    /// A closure held by radial pins or bolts.
    Pinned "pinned" "Pinned end closure",
    /// A closed tube with the pressure outside.
    External "external" "Tube under outside pressure",
    /// Anything of which only a test is known.
    Tested "tested" "Known by test only",
}

words! {
    /// Whose pressure a part is under.
    PartStage, STAGES:
    /// The booster's.
    Booster "booster" "Booster",
    /// The sustainer's.
    Sustainer "sustainer" "Sustainer",
}

words! {
    /// Shape of a dome.
    DomeShape, SHAPES:
    /// Half a sphere.
    Hemisphere "hemisphere" "Hemisphere",
    /// Half as deep as its radius.
    Ellipsoid "ellipsoid" "Ellipsoid, half as deep",
}

words! {
    /// How the rim of a flat closure is held.
    RimEdge, EDGES:
    /// It can turn.
    Supported "supported" "Rim can turn",
    /// It cannot.
    Clamped "clamped" "Rim held stiff",
}

words! {
    /// What a part is made of: the rows of the physics' table of materials, and one's own numbers.
    PartMaterial, MATERIAL_WORDS:
    /// The wall of a blown bottle.
    Pet "pet" "Stretch-blown PET",
    /// Polycarbonate.
    Polycarbonate "pc" "Polycarbonate",
    /// Hard PVC.
    Upvc "upvc" "Hard PVC (uPVC)",
    /// ABS.
    Abs "abs" "ABS",
    /// Acrylic.
    Acrylic "acrylic" "Acrylic",
    /// Aluminium 6061-T6.
    Aluminium "al" "Aluminium 6061-T6",
    /// Glass/epoxy.
    Glass "glass" "Glass/epoxy",
    /// Carbon/epoxy.
    Carbon "carbon" "Carbon/epoxy",
    /// One's own numbers.
    Own "own" "Own numbers",
}

impl PartMaterial {
    /// The row of the physics' table; `None` for one's own.
    #[must_use]
    pub const fn name(self) -> Option<MaterialName> {
        Some(match self {
            Self::Pet => MaterialName::Pet,
            Self::Polycarbonate => MaterialName::Polycarbonate,
            Self::Upvc => MaterialName::Upvc,
            Self::Abs => MaterialName::Abs,
            Self::Acrylic => MaterialName::Acrylic,
            Self::Aluminium => MaterialName::Aluminium6061T6,
            Self::Glass => MaterialName::GlassEpoxy,
            Self::Carbon => MaterialName::CarbonEpoxy,
            Self::Own => return None,
        })
    }
}

/// Which parts have an input.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Asked {
    /// All.
    OfAll,
    /// Those of these kinds.
    Of(&'static [PartKind]),
    /// Those made of one's own material.
    OfOwnMaterial,
}

/// What is given for an input.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Form {
    /// A text of so many characters.
    Text(usize),
    /// One of some words: their list, the place of the default, and of the default of some kinds.
    Words(&'static [Word], usize, &'static [(PartKind, usize)]),
    /// A number, and the default of some kinds.
    Number(Facts, &'static [(PartKind, f64)]),
}

/// Everything there is to know about one input of a vessel part.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct PartRow {
    /// The input this row is about.
    pub input: PartInput,
    /// Its key in the link, behind the number of the part.
    pub key: &'static str,
    /// Its label.
    pub label: &'static str,
    /// Which parts have it.
    pub asked: Asked,
    /// What is given for it.
    pub form: Form,
    /// One or two plain sentences.
    pub help: &'static str,
}

/// The form of a row from its declaration.
macro_rules! form {
    ($key:literal, $label:literal, $help:literal, text $most:expr) => { Form::Text($most) };
    ($key:literal, $label:literal, $help:literal, words $list:ident, $start:expr $(, $kind:ident $other:expr)*) => {
        Form::Words(&$list, $start as usize, &[ $( (PartKind::$kind, $other as usize), )* ])
    };
    ($key:literal, $label:literal, $help:literal,
     number $unit:ident, $min:literal to $max:literal, $start:expr, step $step:literal $(, $kind:ident $other:literal)*) => {
        Form::Number(
            Facts {
                key: $key, label: $label, unit: Unit::$unit, min: $min, max: $max, start: $start, step: $step, help: $help,
            },
            &[ $( (PartKind::$kind, $other), )* ],
        )
    };
}
pub(super) use form;

/// Makes the enum [`PartInput`], its list and the rows from one declaration.
macro_rules! part_inputs {
    ($( $name:ident { key: $key:literal, label: $label:literal, asked: $asked:expr, form: ($($form:tt)+), help: $help:literal, } )+) => {
        /// An input of a vessel part. The order is the order of keys in a link.
        #[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
        pub enum PartInput { $( #[doc = concat!("`", $key, "`: ", $help)] $name, )+ }

        impl PartInput {
            /// Every input, in the order of the table.
            pub const ALL: [Self; Self::COUNT] = [ $( Self::$name, )+ ];
            /// Number of inputs.
            pub const COUNT: usize = [ $( $key, )+ ].len();
        }

        /// The table: one row per input of a part, in the order of keys in a link.
        pub static PART_ROWS: [PartRow; PartInput::COUNT] = [ $( PartRow {
            input: PartInput::$name,
            key: $key,
            label: $label,
            asked: $asked,
            form: form!($key, $label, $help, $($form)+),
            help: $help,
        }, )+ ];
    };
}
pub(super) use part_inputs;

impl PartInput {
    /// The row that holds everything known about this input.
    #[must_use]
    pub fn row(self) -> &'static PartRow {
        &PART_ROWS[self as usize]
    }

    /// The input with the given key.
    #[must_use]
    pub fn from_key(key: &str) -> Option<Self> {
        PART_ROWS.iter().find(|row| row.key == key).map(|row| row.input)
    }

    /// What is known of a number of a part of the given kind; `None` for texts and words.
    #[must_use]
    pub fn facts(self, kind: PartKind) -> Option<Facts> {
        let Form::Number(facts, others) = self.row().form else { return None };
        let other = others.iter().find(|(of, _)| *of == kind).map(|(_, value)| Start::Value(*value));
        Some(Facts { start: other.unwrap_or(facts.start), ..facts })
    }

    /// The words to choose from; none for texts and numbers.
    #[must_use]
    pub fn words(self) -> &'static [Word] {
        if let Form::Words(words, ..) = self.row().form { words } else { &[] }
    }

    /// The place of the default in the list of words, for a part of the given kind.
    #[must_use]
    pub(super) fn default_word(self, kind: PartKind) -> Option<usize> {
        let Form::Words(_, start, others) = self.row().form else { return None };
        Some(others.iter().find(|(of, _)| *of == kind).map_or(start, |(_, place)| *place))
    }

    /// What is allowed, in words.
    #[must_use]
    pub fn allowed(self) -> String {
        match self.row().form {
            Form::Text(most) => format!("{most} characters without line breaks"),
            Form::Words(words, ..) => listed(words.iter().map(|word| word.word)),
            Form::Number(facts, _) => facts.allowed(),
        }
    }
}

/// Words in a sentence: `a, b, c`.
pub(super) fn listed<'a>(words: impl Iterator<Item = &'a str>) -> String {
    words.collect::<Vec<_>>().join(", ")
}
