//! One shape for everything that is wrong with a board or worth knowing about it.
//!
//! A [`Finding`] holds a stable [`Code`], a [`Severity`], the [`Part`], the [`Place`]s with their values, the limit, and [`Remedy`]s: numbers in
//! millimetres, radians, kilograms and fractions, no sentences. Every wing makes findings; `views::findings` alone puts them into words, in the maker's
//! unit. The table of codes is in `code.rs`.

mod apply;
mod change;
mod code;
mod fact;
mod group;
mod part;
mod place;
mod remedy;

pub use change::Change;
pub use code::{Code, Dimension, Severity, Topic};
pub use fact::{Fact, RibFault, SkinFault};
pub use group::{by_severity, group};
pub use part::{BoardEnd, Face, Half, Part};
pub use place::{Place, Spot};
pub use remedy::Remedy;

/// One thing that is wrong, or worth knowing.
#[derive(Debug, Clone, PartialEq)]
pub struct Finding {
    /// What it is.
    pub code: Code,
    /// How much it weighs: the code's, raised to an error where [`Code::error_if`] says so.
    pub severity: Severity,
    /// The part it is about.
    pub part: Part,
    /// The other part, where two meet.
    pub against: Option<Part>,
    /// Where it is, or where it is worst; nothing where it is no place of the board.
    pub place: Option<Place>,
    /// The value found, at worst, in [`Finding::unit`].
    pub value: Option<f64>,
    /// Its limit, or what was entered, in the same unit.
    pub limit: Option<f64>,
    /// Every place with its value, from the tail, where there is more than one to name.
    pub places: Vec<Spot>,
    /// What else was measured.
    pub facts: Vec<Fact>,
    /// What to change, each enough by itself, the easiest first.
    pub remedies: Vec<Remedy>,
}

impl Finding {
    /// A finding of `code` about `part`, with the code's severity and nothing else yet.
    pub fn new(code: Code, part: Part) -> Self {
        Self {
            code,
            severity: code.severity(),
            part,
            against: None,
            place: None,
            value: None,
            limit: None,
            places: Vec::new(),
            facts: Vec::new(),
            remedies: Vec::new(),
        }
    }

    /// The same, at a place.
    pub fn at(mut self, place: Place) -> Self {
        self.place = Some(place);
        self
    }

    /// The same, with the value found and its limit.
    pub fn measured(mut self, value: f64, limit: f64) -> Self {
        (self.value, self.limit) = (Some(value), Some(limit));
        self
    }

    /// The same, against another part.
    pub fn against(mut self, part: Part) -> Self {
        self.against = Some(part);
        self
    }

    /// The same, with one more fact.
    pub fn fact(mut self, fact: Fact) -> Self {
        self.facts.push(fact);
        self
    }

    /// The same, with these changes to choose from, the easiest first.
    pub fn remedies(mut self, changes: impl IntoIterator<Item = Change>) -> Self {
        self.remedies
            .extend(changes.into_iter().map(Remedy::untried));
        self
    }

    /// The same, an error if `grave`.
    pub fn error_if(mut self, grave: bool) -> Self {
        if grave {
            self.severity = Severity::Error;
        }
        self
    }

    /// What value and limit are numbers of.
    pub fn unit(&self) -> Dimension {
        self.code.dimension()
    }

    /// Whether it is counted and heeded by `--strict`: an error or a warning.
    pub fn counts(&self) -> bool {
        self.severity != Severity::Note
    }

    /// Whether its value is worse than another of the same code.
    pub fn worse_than(&self, value: f64) -> bool {
        self.value.is_some_and(|v| {
            if self.code.less_is_worse() {
                v < value
            } else {
                v > value
            }
        })
    }
}
