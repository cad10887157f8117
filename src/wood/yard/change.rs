//! What may be changed, and what a change leaves of a limit.

use serde::Serialize;

use crate::design::{Laid, Starter, Strip};
use crate::rail::Kind;

/// What is changed.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[serde(rename_all = "kebab-case")]
#[non_exhaustive]
pub enum Change {
    /// Another section of the moulded strips.
    Strip(Strip),
    /// Other starters.
    Starter(Starter),
    /// Every starter bent as so many laminations, glued together on the frame.
    Laminations {
        /// How many.
        count: usize,
        /// How they lie: level against bends the hard way.
        laid: Laid,
    },
    /// Another species, of the program's.
    Species(String),
    /// Another species and another section, where neither serves alone.
    Both(String, Strip),
    /// The starters, or all moulded strips, whichever this kind is of, soaked or steamed before they are bent.
    Softened(Kind),
    /// A gentler rail: the curvature or twist, per metre, that would pass.
    Gentler(f64),
    /// A greater share of the limits at which scarfs may lie.
    ScarfStrain(f64),
    /// A smaller distance, mm, between the scarfs of neighbouring courses.
    Stagger(f64),
    /// Another length, mm, of the shop's planks of this index.
    PlankLength(usize, f64),
    /// Another number of the shop's planks of this index.
    PlankCount(usize, u32),
    /// Planks or machines, as the words say.
    Shop,
}

/// A change that serves by itself.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Remedy {
    /// What is changed.
    pub change: Change,
    /// What to do, in words.
    pub text: String,
    /// Share of the limit used at worst after the change: where a section changes, with the rail solved again, else with the strips'
    /// bends, which stay as they are.
    pub ratio: Option<f64>,
    /// How much is asked of the maker, to put the smallest first. Our judgement: for a section the share it loses; steam
    /// 0.1; a further lamination 0.15; another wood 0.25; another shape of board 1.
    pub effort: f64,
}

impl Remedy {
    /// What to do and what it leaves of the limit: `make the strips 5.4 mm thick (0.98 of the limit)`.
    pub fn words(&self) -> String {
        match (self.ratio, &self.change) {
            (None, _) | (_, Change::Gentler(_)) => self.text.clone(),
            (Some(share), _) => {
                format!("{} ({:.2} of the limit)", self.text, share)
            }
        }
    }
}
