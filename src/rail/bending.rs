//! Whether the strips of a species go round, and the smallest change that makes them.

use serde::Serialize;

use super::strips::{Strip, StripPlace};
use crate::timber::{BendKind, Limits, Species, TimberError, Utilisation, table};

/// Ways a strip can be overstrained.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum Strained {
    /// Bend through the thickness.
    EasyWay,
    /// Edge-set.
    HardWay,
    /// Twist.
    Twist,
}

/// The worst of one kind of strain along a strip.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct Demand {
    /// Which.
    pub strained: Strained,
    /// Strain, its limit and their ratio.
    pub utilisation: Utilisation,
    /// Curvature (or twist rate) there, 1/mm.
    pub curvature: f64,
    /// Where, mm from the tail.
    pub x: f64,
    /// The ribs it lies between, by number from the tail; 0 is the tail block, one more than the last rib the nose block.
    pub between: [usize; 2],
}

/// A change that would bring a strip within its limits, computed from its curvatures.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum Change {
    /// Greatest thickness that bends the easy way, mm.
    Thinner(f64),
    /// Greatest width that takes the edge-set, mm.
    Narrower(f64),
    /// A species of the table that takes all three as it is.
    Species(String),
}

/// A strip's demands, and what to change if one passes its limit.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct StripDemand {
    /// Index of the course.
    pub course: usize,
    /// Worst easy-way bend, hard-way bend and twist.
    pub demands: Vec<Demand>,
    /// Thickness over radius against the glulam design limit, for information: builders go well past it.
    pub glulam: Utilisation,
    /// Changes that would serve, smallest first; empty when all is well.
    pub changes: Vec<Change>,
}

/// A strip's cross-section for bending, mm.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Bar {
    /// Across the rail.
    pub thickness: f64,
    /// Up the rail.
    pub width: f64,
}

/// The demands on `strip`, of section `bar` and a wood with `limits`; `ribs` are the ribs' places from the tail.
pub fn demand(
    strip: &Strip,
    bar: Bar,
    wood: &Species,
    working: f64,
    ribs: &[f64],
) -> Result<StripDemand, TimberError> {
    let limits = Limits::of(wood, working)?;
    let between = |x: f64| {
        let next = ribs.partition_point(|r| *r < x);
        [next, next + 1]
    };
    let worst = |measure: fn(&StripPlace) -> f64| {
        strip
            .worst(|p| measure(p).abs())
            .map_or((0.0, strip.ends[0]), |(value, p)| (value, p.x))
    };
    let mut demands = Vec::new();
    let mut add = |strained, (curvature, x): (f64, f64), utilisation| {
        demands.push(Demand {
            strained,
            utilisation,
            curvature,
            x,
            between: between(x),
        });
    };
    let (easy, hard, twist) = (
        worst(|p| p.bend.easy),
        worst(|p| p.bend.hard),
        worst(|p| p.bend.twist),
    );
    add(
        Strained::EasyWay,
        easy,
        limits.bending(BendKind::EasyWay, bar.thickness, easy.0),
    );
    add(
        Strained::HardWay,
        hard,
        limits.bending(BendKind::HardWay, bar.width, hard.0),
    );
    if let Some(utilisation) = limits.twisting(bar.width, bar.thickness, twist.0)? {
        add(Strained::Twist, twist, utilisation);
    }
    let glulam = limits.glulam(bar.thickness, easy.0);
    let changes = changes(&demands, bar, working);
    Ok(StripDemand {
        course: strip.course,
        demands,
        glulam,
        changes,
    })
}

fn changes(demands: &[Demand], bar: Bar, working: f64) -> Vec<Change> {
    let over = |kind| {
        demands
            .iter()
            .find(|d| d.strained == kind && !d.utilisation.passes())
    };
    let mut changes = Vec::new();
    // Strain is in proportion to depth, so the depth that passes is the depth over the utilisation; rounded down to 0.1 mm.
    let reduced = |depth: f64, d: &Demand| (10.0 * depth / d.utilisation.ratio).floor() / 10.0;
    if let Some(d) = over(Strained::EasyWay).or(over(Strained::Twist)) {
        changes.push(Change::Thinner(reduced(bar.thickness, d)));
    }
    if let Some(d) = over(Strained::HardWay) {
        changes.push(Change::Narrower(reduced(bar.width, d)));
    }
    if changes.is_empty() {
        return changes;
    }
    let passes = |wood: &Species| -> bool {
        let Ok(limits) = Limits::of(wood, working) else {
            return false;
        };
        demands.iter().all(|d| match d.strained {
            Strained::EasyWay => limits.bending(BendKind::EasyWay, bar.thickness, d.curvature).passes(),
            Strained::HardWay => limits.bending(BendKind::HardWay, bar.width, d.curvature).passes(),
            Strained::Twist => matches!(limits.twisting(bar.width, bar.thickness, d.curvature), Ok(Some(u)) if u.passes()),
        })
    };
    changes.extend(
        table()
            .iter()
            .filter(|w| passes(w))
            .map(|w| Change::Species(w.name.clone())),
    );
    changes
}
