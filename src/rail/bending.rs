//! Whether the strips of a species go round.

use serde::Serialize;

use super::strips::{Strip, StripPlace};
use crate::design::timber::{BendKind, Limits, TimberError, Utilisation};

/// Ways a strip can be overstrained.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum StrainKind {
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
    pub strained: StrainKind,
    /// Strain, its limit and their ratio.
    pub utilisation: Utilisation,
    /// Curvature (or twist rate) there, 1/mm.
    pub curvature: f64,
    /// Where, mm from the tail.
    pub x: f64,
    /// The ribs it lies between, by number from the tail; 0 is the tail block, one more than the last rib the nose block.
    pub between: [usize; 2],
}

/// A strip's demands.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct StripDemand {
    /// Index of the course.
    pub course: usize,
    /// Worst easy-way bend, hard-way bend and twist.
    pub demands: Vec<Demand>,
    /// Thickness over radius against the glulam design limit, for information: builders go well past it.
    pub glulam: Utilisation,
}

/// A strip's cross-section for bending, mm.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Bar {
    /// Across the rail.
    pub thickness: f64,
    /// Up the rail.
    pub width: f64,
}

impl Bar {
    /// From thickness and width, mm.
    pub fn of([thickness, width]: [f64; 2]) -> Self {
        Self { thickness, width }
    }
}

/// The demands on `strip`, of section `bar` and a wood with `limits`; `ribs` are the ribs' places from the tail.
pub fn demand(
    strip: &Strip,
    bar: Bar,
    limits: &Limits,
    ribs: &[f64],
) -> Result<StripDemand, TimberError> {
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
        StrainKind::EasyWay,
        easy,
        limits.bending(BendKind::EasyWay, bar.thickness, easy.0),
    );
    add(
        StrainKind::HardWay,
        hard,
        limits.bending(BendKind::HardWay, bar.width, hard.0),
    );
    if let Some(utilisation) = limits.twisting(bar.width, bar.thickness, twist.0)? {
        add(StrainKind::Twist, twist, utilisation);
    }
    let glulam = limits.glulam(bar.thickness, easy.0);
    Ok(StripDemand {
        course: strip.course,
        demands,
        glulam,
    })
}
