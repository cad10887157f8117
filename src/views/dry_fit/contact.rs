//! How two parts meet.

use nalgebra::Point3;
use serde::Serialize;

use super::limits::{GAP, OVERLAP, REACH};
use super::solid::Solid;

/// What sort of neighbours two parts are.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Serialize)]
#[serde(rename_all = "kebab-case")]
#[non_exhaustive]
pub enum ContactKind {
    /// A rib on the bottom skin.
    RibOnBottom,
    /// The deck skin on a rib.
    RibUnderDeck,
    /// A strip round a rib's end.
    StripOnRib,
    /// A rib over the spine.
    RibOnSpine,
    /// The spine on the bottom skin.
    SpineOnBottom,
    /// The deck skin on the spine.
    SpineUnderDeck,
    /// A starter on the bottom skin.
    StarterOnBottom,
    /// Two starters.
    Starters,
    /// A flat base on a starter.
    FlatBase,
    /// A cove on a bead.
    CoveOnBead,
    /// The deck skin on a strip.
    StripUnderDeck,
    /// A block between the skins, on the bottom.
    BlockOnBottom,
    /// The deck skin on a block.
    BlockUnderDeck,
    /// The spine's end against a block.
    SpineToBlock,
    /// A strip's end against a block.
    StripToBlock,
    /// A pad on its skin.
    PadOnSkin,
    /// A pad beside a rib.
    PadByRib,
    /// A pad beside the spine.
    PadBySpine,
}

impl ContactKind {
    /// The greatest overlap, mm: where a cove rolls on a bead its lip is crushed or eased by as much as is fair to the eye.
    pub fn overlap_limit(self) -> f64 {
        match self {
            Self::CoveOnBead => crate::rail::RailLimits::default().dig_in,
            _ => OVERLAP,
        }
    }

    /// Widest gap, mm, that still passes for a glue line.
    pub fn gap_limit(self) -> f64 {
        GAP
    }

    /// In words.
    pub fn name(self) -> &'static str {
        match self {
            Self::RibOnBottom => "rib on bottom skin",
            Self::RibUnderDeck => "deck skin on rib",
            Self::StripOnRib => "strip on rib",
            Self::RibOnSpine => "rib on spine",
            Self::SpineOnBottom => "spine on bottom skin",
            Self::SpineUnderDeck => "deck skin on spine",
            Self::StarterOnBottom => "starter on bottom skin",
            Self::Starters => "starter on starter",
            Self::FlatBase => "flat base on starter",
            Self::CoveOnBead => "cove on bead",
            Self::StripUnderDeck => "deck skin on strip",
            Self::BlockOnBottom => "block on bottom skin",
            Self::BlockUnderDeck => "deck skin on block",
            Self::SpineToBlock => "spine to block",
            Self::StripToBlock => "strip to block",
            Self::PadOnSkin => "pad on skin",
            Self::PadByRib => "pad by rib",
            Self::PadBySpine => "pad by spine",
        }
    }
}

/// Where parts must bear on each other: they are followed along an axis in steps, and within each step some place must bear.
#[derive(Debug, Clone, PartialEq)]
pub struct Bearing {
    /// 0 for x, 1 for y.
    pub axis: usize,
    /// Stretches along the axis, mm.
    pub stretches: Vec<[f64; 2]>,
    /// Length of a step, mm; a stretch is at least one.
    pub step: f64,
}

/// A value and where it is.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct Spot {
    /// mm.
    pub value: f64,
    /// (x, y, z), mm.
    pub at: [f64; 3],
}

/// What was measured of a pair.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct Found {
    /// Greatest depth to which one enters the other, if any.
    pub overlap: Option<Spot>,
    /// Greatest gap along what they bear on, if there is anything to bear on.
    pub gap: Option<Spot>,
}

/// A pair of neighbours.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Contact {
    /// The parts' names.
    pub parts: [String; 2],
    /// What they are to each other.
    pub kind: ContactKind,
    /// How they meet.
    #[serde(flatten)]
    pub found: Found,
}

impl Contact {
    /// Whether overlap and gap hold their limits.
    pub fn holds(&self) -> bool {
        let over = self.found.overlap.map_or(0.0, |s| s.value) > self.kind.overlap_limit();
        let apart = self.found.gap.map_or(0.0, |s| s.value) > self.kind.gap_limit();
        !over && !apart
    }
}

/// What rounding may move a part's edge by, mm.
const ROUNDING: f64 = 1e-6;

/// Measures a pair. Overlap is sought from both sides; bearing is followed along `a`.
pub fn measure(a: &Solid, b: &Solid, bearing: &Bearing) -> Found {
    Found {
        overlap: deepest(a, b),
        gap: gap(a, b, bearing),
    }
}

/// The place of either that lies deepest in the other.
fn deepest(a: &Solid, b: &Solid) -> Option<Spot> {
    let mut found: Vec<(Spot, &Solid)> = Vec::new();
    for (from, to) in [(a, b), (b, a)] {
        let [low, high] = to.bounds();
        let within = |p: &&Point3<f64>| (0..3).all(|i| p[i] > low[i] && p[i] < high[i]);
        // Depths up to the limit are not proved by the winding number, so that places just outside stay candidates.
        let near = |p: &&Point3<f64>| to.may_hold(p, OVERLAP);
        let depths = from
            .samples()
            .iter()
            .filter(within)
            .filter(near)
            .filter_map(|p| {
                let value = -to.distance(p, REACH)?;
                let at = [p.x, p.y, p.z];
                (value > 0.0).then_some((Spot { value, at }, to))
            });
        found.extend(depths);
    }
    found.sort_by(|a, b| b.0.value.total_cmp(&a.0.value));
    // Near the edges of shavings a mesh is too thin for normals to tell its sides apart.
    let holds =
        |(spot, to): &&(Spot, &Solid)| spot.value <= OVERLAP || to.encloses(&spot.at.into());
    found.iter().find(holds).map(|f| f.0)
}

fn gap(a: &Solid, b: &Solid, bearing: &Bearing) -> Option<Spot> {
    let mut widest: Option<Spot> = None;
    for &[from, to] in &bearing.stretches {
        // A part that is planed away to nothing bears no further.
        let [low, high] = a.bounds();
        let (from, to) = (from.max(low[bearing.axis]), to.min(high[bearing.axis]));
        let steps = ((to - from) / bearing.step).floor().max(1.0) as usize;
        let width = (to - from) / steps as f64;
        if width <= 0.0 {
            continue;
        }
        let mut least = vec![
            Spot {
                value: REACH,
                at: [f64::NAN; 3],
            };
            steps
        ];
        for p in a.samples() {
            let along = p[bearing.axis] - from;
            // Its ends are the parts' own edges, where they bear first.
            if along < -ROUNDING || along > to - from + ROUNDING {
                continue;
            }
            let bin = ((along / width) as usize).min(steps - 1);
            if least[bin].value <= 0.0 || !b.may_reach(p, least[bin].value) {
                continue;
            }
            if let Some(d) = b.distance(p, least[bin].value)
                && d.max(0.0) < least[bin].value
            {
                least[bin] = Spot {
                    value: d.max(0.0),
                    at: [p.x, p.y, p.z],
                };
            }
        }
        for (bin, mut spot) in least.into_iter().enumerate() {
            if spot.at[0].is_nan() {
                spot.at = [0.0; 3];
                spot.at[bearing.axis] = from + width * (bin as f64 + 0.5);
            }
            if widest.is_none_or(|w| spot.value > w.value) {
                widest = Some(spot);
            }
        }
    }
    widest
}
