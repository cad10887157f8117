//! What a panel will not do, and the smallest change that would serve.

use serde::Serialize;

use super::verdict::{Cause, Finding, Treatment};
use super::{Face, Panel, SkinError, Strain};
use crate::design::units;
use crate::design::{Design, PanelJoint};

/// Something a panel's maker must change or work round.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct PanelTrouble {
    /// Which skin.
    pub face: Face,
    /// Where it is worst, mm from the tail, if it is one place.
    pub x: Option<f64>,
    /// What was found, in [`unit`](Self::unit).
    pub value: Option<f64>,
    /// Its limit.
    pub limit: Option<f64>,
    /// Unit of both: `%` of strain, `× thickness` of a bend's radius, `mm` of a length.
    pub unit: &'static str,
    /// What is wrong, with its limit.
    pub headline: String,
    /// Where, and how bad at worst.
    pub extent: String,
    /// What to change.
    pub remedy: String,
}

impl PanelTrouble {
    pub(super) fn not_flat(face: Face, error: &SkinError) -> Self {
        let text = error.to_string();
        let (extent, remedy) = text
            .rsplit_once("; ")
            .unwrap_or((&text, "build it of narrow planks laid one by one"));
        Self {
            face,
            x: None,
            value: None,
            limit: None,
            unit: "",
            headline: format!("the {} skin cannot be laid flat", face.name()),
            extent: extent.to_owned(),
            remedy: remedy.to_owned(),
        }
    }
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

/// A share of a panel, percent, that a maker may pull down by hand (common practice, no published source).
const SMALL: f64 = 1.0;

/// What is over the limits of a soaked panel, and planks that cannot be had.
pub(super) fn troubles(design: &Design, panel: &Panel) -> Vec<PanelTrouble> {
    let over = panel
        .verdict
        .findings
        .iter()
        .filter(|f| f.treatment > Treatment::Soak);
    let mut found: Vec<PanelTrouble> = over.map(|f| strained(design, panel, f)).collect();
    found.extend(short(design, panel));
    found
}

fn strained(design: &Design, panel: &Panel, finding: &Finding) -> PanelTrouble {
    let (face, limits) = (panel.skin.face, &design.skins.limits);
    let [x, y] = finding.place;
    let c = &design.construction;
    let over = if x < c.tail_block {
        ", over the tail block"
    } else if x > design.length - c.nose_block {
        ", over the nose block"
    } else {
        ""
    };
    let told = |mm: f64| units::place(mm, design.report);
    let place = if y.abs() < 1.0 {
        format!("{} from the tail on the centreline{over}", told(x))
    } else {
        format!(
            "{} from the tail, {} off the centreline{over}",
            told(x),
            told(y.abs())
        )
    };
    let (value, limit, unit, headline, extent, remedy) = match finding.cause {
        Cause::StrainAlong | Cause::StrainAcross => {
            let (way, limit, value): (_, _, fn(&Strain) -> f64);
            if finding.cause == Cause::StrainAlong {
                (way, limit, value) = ("along", limits.strain_along[1], |s: &Strain| s.along);
            } else {
                (way, limit, value) = ("across", limits.strain_across[1], |s: &Strain| s.across);
            }
            let share = 100.0 * panel.skin.share_over(value, limit);
            (
                100.0 * finding.value,
                100.0 * limit,
                "%",
                format!(
                    "the {} skin must stretch more than {:.2} % {way} the grain",
                    face.name(),
                    100.0 * limit
                ),
                format!(
                    "{:+.2} %, {place}; over the limit on {} of the panel",
                    100.0 * finding.value,
                    if share < 0.05 {
                        "less than 0.1 %".to_owned()
                    } else {
                        format!("{share:.1} %")
                    }
                ),
                format!(
                    "split the panel there into strakes with tapered edges; or draw less curvature both ways at once: a flatter contour, or a gentler rocker{}",
                    if share < SMALL {
                        "; so small a patch may also yield to clamps and plane, so try the panel dry first"
                    } else {
                        ""
                    }
                ),
            )
        }
        Cause::BendAlong | Cause::BendAcross => {
            let (way, limit) = match finding.cause {
                Cause::BendAlong => ("along", limits.bend_along[1]),
                _ => ("across", limits.bend_across[1]),
            };
            let radius = panel.skin.thickness / finding.value;
            let thin = (10.0 * radius * limit).floor() / 10.0;
            let laminations = (panel.skin.thickness / (radius * limit)).ceil();
            let laminations = if laminations <= 4.0 {
                format!(
                    "glue it up of {laminations:.0} laminations of {:.1} mm there, ",
                    panel.skin.thickness / laminations
                )
            } else {
                String::new()
            };
            let thinner = if thin >= 3.0 {
                format!("make the skin {thin:.1} mm thick, ")
            } else {
                String::new()
            };
            (
                1.0 / finding.value,
                1.0 / limit,
                "× thickness",
                format!(
                    "the {} skin bends {way} the board tighter than {:.0} times its thickness",
                    face.name(),
                    1.0 / limit
                ),
                format!(
                    "a radius of {}, {:.0} times its thickness, {place}",
                    told(radius),
                    1.0 / finding.value
                ),
                format!(
                    "saw or plane relief into its inner face there, {laminations}{thinner}or draw the surface gentler there"
                ),
            )
        }
    };
    PanelTrouble {
        face,
        x: Some(x),
        value: Some(value),
        limit: Some(limit),
        unit,
        headline,
        extent,
        remedy,
    }
}

fn short(design: &Design, panel: &Panel) -> Option<PanelTrouble> {
    let stock = design.skins.plank_length?;
    let face = panel.skin.face;
    let shop = &design.shop;
    let scarf = shop.scarf_ratio * panel.skin.thickness;
    let keyed = design.skins.joint == PanelJoint::Key && !panel.cuts.is_empty();
    // Planks short by themselves are no fault of the scarfs.
    let long = panel.planks.iter().filter(|p| p.length() > stock);
    let pieces = long.flat_map(|p| p.pieces(&p.scarfs, scarf));
    let wrong = |piece: &f64| *piece > stock + 1e-6 || *piece < shop.shortest_piece - 1e-6;
    let worst = pieces.filter(wrong).fold(f64::NAN, f64::max);
    let longest = panel.planks.iter().map(|p| p.length()).fold(0.0, f64::max);
    if keyed || longest <= stock || worst.is_nan() {
        return None;
    }
    Some(PanelTrouble {
        face,
        x: None,
        value: Some(worst),
        limit: Some(if worst > stock { stock } else { shop.shortest_piece }),
        unit: "mm",
        headline: format!("the {} skin's planks do not come out of the stock", face.name()),
        extent: {
            let [longest, stock, worst] = [longest, stock, worst].map(|mm| units::place(mm, design.report));
            format!("planks up to {longest} long of stock of {stock} need a piece of {worst}")
        },
        remedy: "find longer planks for `plank_length`, or make `stagger` or `shortest_piece` of [shop] smaller".to_owned(),
    })
}
