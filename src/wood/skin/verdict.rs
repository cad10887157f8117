//! What a skin's strain and bending ask of its maker.

use super::Skin;
use super::strain::{SPREAD, Strain};
use crate::design::SkinLimits;
use crate::geometry::curve::Vector;

/// What to do with a panel before it goes on, mildest first.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, serde::Serialize)]
#[serde(rename_all = "lowercase")]
pub enum Treatment {
    /// Goes on dry.
    Dry,
    /// Wet or steam it where named, and let it dry in the bed.
    Soak,
    /// Saw or plane relief into the inner face where named, or glue it up of thinner laminations.
    Relieve,
    /// Divide it into strakes along the grain, each with its own edge tapered to fit.
    Split,
}

/// Why.
#[derive(Debug, Clone, Copy, PartialEq, Eq, serde::Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum Cause {
    /// Stretch or compression in the sheet, lengthwise.
    StrainAlong,
    /// Stretch or compression in the sheet, crosswise.
    StrainAcross,
    /// Bending along the board.
    BendAlong,
    /// Bending across the board.
    BendAcross,
}

/// One cause at its worst.
#[derive(Debug, Clone, Copy, PartialEq, serde::Serialize)]
pub struct WorstCause {
    /// What is at its limit.
    pub cause: Cause,
    /// Strain in the sheet, or thickness over radius.
    pub value: f64,
    /// Where, (x, y) mm.
    pub place: [f64; 2],
    /// What follows.
    pub treatment: Treatment,
}

impl Cause {
    /// What strains the panel, in words.
    pub fn name(self) -> &'static str {
        match self {
            Self::StrainAlong => "strain in the sheet, along",
            Self::StrainAcross => "strain in the sheet, across",
            Self::BendAlong => "bend, along",
            Self::BendAcross => "bend, across",
        }
    }

    /// Whether it is bending.
    pub fn is_bend(self) -> bool {
        matches!(self, Self::BendAlong | Self::BendAcross)
    }
}

impl Treatment {
    /// What to do, in a few words.
    pub fn name(self) -> &'static str {
        match self {
            Self::Dry => "goes on dry",
            Self::Soak => "soak or steam",
            Self::Relieve => "relieve",
            Self::Split => "split",
        }
    }

    /// What to do, in a sentence.
    pub fn sentence(self) -> &'static str {
        match self {
            Self::Dry => "It should go on dry.",
            Self::Soak => {
                "Soak or steam it where it bends or strains most, and let it dry in the bed."
            }
            Self::Relieve => {
                "Relieve its inner face where it bends most, or glue it up of thinner laminations."
            }
            Self::Split => {
                "Split it into strakes with tapered edges: the sheet cannot take this shape in one."
            }
        }
    }
}

/// The verdict on a skin.
#[derive(Debug, Clone, PartialEq, serde::Serialize)]
pub struct Verdict {
    /// The severest treatment any cause calls for.
    pub treatment: Treatment,
    /// Every cause at its worst place.
    pub causes: Vec<WorstCause>,
}

/// Judges `skin` within the finished outline: strains from its flat image, bending from its mid-surface.
pub fn verdict(skin: &Skin, limits: &SkinLimits) -> Verdict {
    let mut causes = Vec::new();
    if let Some(greatest) = skin.greatest() {
        let strain = |cause, strain: &Strain, value: f64, limits: [f64; 2]| WorstCause {
            cause,
            value,
            place: strain.place,
            treatment: grade(value.abs(), limits, Treatment::Split),
        };
        let (a, b) = (greatest.along, greatest.across);
        causes.push(strain(Cause::StrainAlong, &a, a.along, limits.strain_along));
        causes.push(strain(
            Cause::StrainAcross,
            &b,
            b.across,
            limits.strain_across,
        ));
    }
    let [along, across] = bends(skin);
    for (cause, worst, limits) in [
        (Cause::BendAlong, along, limits.bend_along),
        (Cause::BendAcross, across, limits.bend_across),
    ] {
        causes.push(WorstCause {
            cause,
            value: worst.0,
            place: worst.1,
            treatment: grade(worst.0, limits, Treatment::Relieve),
        });
    }
    let severest = causes.iter().map(|f| f.treatment).max();
    Verdict {
        treatment: severest.unwrap_or(Treatment::Dry),
        causes,
    }
}

fn grade(value: f64, limits: [f64; 2], beyond: Treatment) -> Treatment {
    if value <= limits[0] {
        Treatment::Dry
    } else if value <= limits[1] {
        Treatment::Soak
    } else {
        beyond
    }
}

/// Greatest thickness over radius along and across with its place, from the grid of the mid-surface within the finished outline.
///
/// The normal curvature of a grid line at three points [`SPREAD`] or more apart is that of their parabola against the surface's normal
/// (Meusnier); places nearer than that to the grid's border are not judged.
fn bends(skin: &Skin) -> [(f64, [f64; 2]); 2] {
    let mut worst = [(0.0_f64, [0.0, 0.0]); 2];
    let (n, p) = (skin.columns, &skin.points);
    for i in 1..skin.rows.len() - 1 {
        for j in 1..n - 1 {
            let k = i * n + j;
            if !skin.plan.covers(p[k].x, p[k].y) {
                continue;
            }
            let normal = (p[k + n] - p[k - n])
                .cross(&(p[k + 1] - p[k - 1]))
                .normalize();
            let rooms = [i.min(skin.rows.len() - 1 - i), j.min(n - 1 - j)];
            for ((worst, step), room) in worst.iter_mut().zip([n, 1]).zip(rooms) {
                let chords = |m: usize| (p[k] - p[k - m * step], p[k + m * step] - p[k]);
                let wide =
                    |(a, b): &(Vector<3>, Vector<3>)| a.norm() >= SPREAD && b.norm() >= SPREAD;
                let Some((before, after)) = (1..=room).map(chords).find(wide) else {
                    continue;
                };
                let (a, b) = (before.norm(), after.norm());
                let turn = (after / b - before / a) * (2.0 / (a + b));
                let ratio = turn.dot(&normal).abs() * skin.thickness;
                if ratio > worst.0 {
                    *worst = (ratio, [p[k].x, p[k].y]);
                }
            }
        }
    }
    worst
}
