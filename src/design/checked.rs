//! The checked design, and the ways into it.

use std::ops::Deref;

use serde::Serialize;

use super::model::{Draft, Foil, Rocker};
use super::place::KeyPlace;
use super::ranges;
use super::rule_break::{BrokenRules, RuleBreak};
use super::rules::{self, ROUNDED};

/// A checked design: every value within its key's range, and every rule between keys kept.
///
/// Its values are read as those of a [`Draft`]. The ways in are the parser ([`parse`](super::parse)), [`Draft::check`], and
/// [`Design::with`], which changes one; so no later stage meets a value that makes no sense.
///
/// ```
/// use boardwright::design::{Draft, Rocker};
///
/// // Name, length, width and thickness; all else has its default.
/// let mut draft = Draft::new("Tern", 1930.0, 514.0, 66.0);
/// draft.rocker = Rocker::Measures { nose: 110.0, tail: 50.0, flat: [700.0, 1080.0] };
/// let design = draft.check()?;
///
/// let thicker = design.with(|draft| draft.construction.strip.thickness = 40.0).unwrap_err();
/// assert_eq!(thicker.list()[0].places[0].to_string(), "construction.strip.thickness");
/// # Ok::<(), boardwright::design::BrokenRules>(())
/// ```
#[derive(Debug, Clone, PartialEq, Serialize)]
#[serde(transparent)]
pub struct Design(Draft);

impl Deref for Design {
    type Target = Draft;

    fn deref(&self) -> &Draft {
        &self.0
    }
}

impl From<Design> for Draft {
    fn from(design: Design) -> Self {
        design.0
    }
}

impl Design {
    /// The design with a change made, checked again.
    ///
    /// # Errors
    ///
    /// Every rule that the changed design breaks.
    pub fn with(&self, change: impl FnOnce(&mut Draft)) -> Result<Self, BrokenRules> {
        let mut draft = self.0.clone();
        change(&mut draft);
        draft.check()
    }
}

impl Draft {
    /// Checks every value against its key and every rule between keys.
    ///
    /// What only rounding keeps from its bound is set on it, and sections are put in order from the tail.
    ///
    /// # Errors
    ///
    /// Every rule that is broken, with its keys, value, limit and remedy; a rule whose keys are themselves out of range is not
    /// looked at.
    pub fn check(mut self) -> Result<Design, BrokenRules> {
        self.settle();
        let mut breaks = ranges::breaks(&mut self);
        let mut between: Vec<RuleBreak> = Vec::new();
        let too_long = |name: &&'static str| {
            let place = KeyPlace::of(name);
            breaks.iter().any(|b| b.code == "list" && b.concerns(place))
        };
        for rule in rules::rules().filter(|rule| !rule.keys.iter().any(too_long)) {
            let found = rule.breaks_in(&self).into_iter();
            between.extend(found.filter(|broken| {
                let faulty = |place| breaks.iter().any(|b: &RuleBreak| b.concerns(place));
                !rule.places(broken).any(faulty)
            }));
        }
        breaks.extend(between);
        match BrokenRules::new(breaks) {
            Some(broken) => Err(broken),
            None => {
                // Corners are never tighter than the cutter.
                let frame = &mut self.construction.frame;
                frame.holes.corner = frame.holes.corner.max(frame.cutter / 2.0);
                self.sections.sort_by(|a, b| a.x.total_cmp(&b.x));
                Ok(Design(self))
            }
        }
    }

    /// Sets on its bound what only rounding keeps from it.
    fn settle(&mut self) {
        self.name = self.name.trim().to_owned();
        let length = self.length;
        for points in [foil_points(&mut self.foil), rocker_points(&mut self.rocker)]
            .into_iter()
            .flatten()
        {
            if let [[tail, _], .., [nose, _]] = points {
                onto(tail, 0.0, rules::END);
                onto(nose, length, rules::END);
            }
        }
        let strip = &mut self.construction.strip;
        let half = strip.thickness / 2.0;
        if strip.bead_radius < half {
            onto(&mut strip.bead_radius, half, ROUNDED);
        }
        if strip.cove_radius < strip.bead_radius {
            onto(&mut strip.cove_radius, strip.bead_radius, ROUNDED);
        }
        let deepest = strip.deepest_cove();
        if strip.cove_depth > deepest {
            onto(&mut strip.cove_depth, deepest, ROUNDED);
        }
        self.shop.species.clone_from(&self.timber.rail.name);
    }
}

/// Sets a value that is nearly at a bound on it.
fn onto(value: &mut f64, bound: f64, near: f64) {
    if (*value - bound).abs() <= near {
        *value = bound;
    }
}

fn foil_points(foil: &mut Foil) -> Option<&mut [[f64; 2]]> {
    match foil {
        Foil::Points(points) => Some(points),
        Foil::Measures { .. } => None,
    }
}

fn rocker_points(rocker: &mut Rocker) -> Option<&mut [[f64; 2]]> {
    match rocker {
        Rocker::Points(points) => Some(points),
        Rocker::Measures { .. } => None,
    }
}
