//! The one list of everything there is to be warned of or to note. Screen, index, `board.json` and the table of warnings all show this.

use serde::Serialize;

use super::shape::{ShapeFinding, shape_findings};
use super::{Advice, advice};
use crate::board::Board;
use crate::board::afloat::{AfloatError, Lying};
use crate::design::timber::twist_strain;
use crate::design::units::{self, list};
use crate::frame;
use crate::frame::pads;
use crate::rail::Strained;
use crate::views::table::{Cell, Column, Table};
use crate::wood::skin::PanelTrouble;
use crate::wood::yard;

/// How much a notice weighs.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum Severity {
    /// Something will not do as it stands; counted, and `--strict` ends with another exit code.
    Warning,
    /// Something to know that stops no board: not counted.
    Note,
}

/// What part of the work a notice comes from.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum Source {
    /// The finished shape.
    Shape,
    /// Ribs and spine.
    Frame,
    /// The rail's courses.
    Rail,
    /// Strips and the wood they are cut from.
    Strips,
    /// Bottom and deck skin.
    Skins,
    /// Fins, leash plug, vent and end blocks.
    Fittings,
    /// The board in the water.
    Float,
}

/// One warning or note.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Notice {
    /// Warning or note.
    pub severity: Severity,
    /// Where it comes from.
    pub source: Source,
    /// The part it is about.
    pub part: String,
    /// What is wrong.
    pub headline: String,
    /// Where, and how bad at worst; empty where the headline says it all.
    pub extent: String,
    /// Where it is worst, mm from the tail, if it is one place.
    pub x: Option<f64>,
    /// The worst value, if there is one.
    pub value: Option<f64>,
    /// Its limit.
    pub limit: Option<f64>,
    /// Unit of both.
    pub unit: &'static str,
    /// What to change, each enough by itself, the smallest change first.
    pub remedies: Vec<String>,
    /// Rib by rib, what the extent sums up: the rib's number and its courses.
    #[serde(skip)]
    pub lines: Vec<(usize, String)>,
}

/// Every notice of `board`, whose strips' troubles were found already: a new kind is one more link of the chain.
pub(super) fn notices(board: &Board, strips: &[yard::Trouble]) -> Vec<Notice> {
    let unit = board.design.report;
    let shape = shape_findings(board).into_iter().map(of_shape);
    let frame = board.frame_troubles.iter().map(of_frame);
    let rail = advice(&board.warnings).into_iter();
    let rail = rail.map(|group| of_rail(&group, unit));
    let strips = strips.iter().map(of_strips);
    let skins = board.panels.troubles.iter().map(of_skin);
    let clashes = board.pads.troubles.iter().map(|c| of_clash(board, c));
    let lying = board.lying.iter().filter_map(|l| of_lying(l, unit));
    let warnings = shape
        .chain(frame)
        .chain(rail)
        .chain(strips)
        .chain(skins)
        .chain(clashes);
    warnings.chain(unjudged(board)).chain(lying).collect()
}

fn of_shape(finding: ShapeFinding) -> Notice {
    Notice {
        severity: Severity::Warning,
        source: Source::Shape,
        part: "shape".to_owned(),
        headline: finding.headline,
        extent: finding.extent,
        x: Some(finding.trouble.x),
        value: Some(finding.trouble.measured),
        limit: Some(finding.trouble.entered),
        unit: "mm",
        remedies: vec![finding.remedy.to_owned()],
        lines: Vec::new(),
    }
}

fn of_frame(trouble: &frame::Trouble) -> Notice {
    Notice {
        severity: Severity::Warning,
        source: Source::Frame,
        part: trouble.part.clone(),
        headline: trouble.headline.clone(),
        extent: trouble.extent.clone(),
        x: trouble.x,
        value: trouble.value,
        limit: trouble.limit,
        unit: if trouble.value.is_some() { "mm" } else { "" },
        remedies: vec![trouble.remedy.clone()],
        lines: Vec::new(),
    }
}

fn of_rail(group: &Advice, unit: units::Unit) -> Notice {
    let worst = group.worst();
    Notice {
        severity: Severity::Warning,
        source: Source::Rail,
        part: worst.map_or_else(|| "rail".to_owned(), |w| format!("course {}", w.course)),
        headline: group.headline(),
        extent: group.extent(unit),
        x: worst.map(|w| w.x),
        value: worst.map(|w| w.value),
        limit: Some(group.limit),
        unit: group.unit,
        remedies: vec![group.remedy.clone()],
        lines: group.lines(unit),
    }
}

fn of_strips(trouble: &yard::Trouble) -> Notice {
    let part = match trouble.strips.as_slice() {
        [] => "planks".to_owned(),
        [one] => format!("strip {one}"),
        many => format!("strips {}", list(many)),
    };
    Notice {
        severity: Severity::Warning,
        source: Source::Strips,
        part,
        headline: trouble.headline.clone(),
        extent: trouble.extent.clone(),
        x: trouble.x,
        value: trouble.value,
        limit: trouble.limit,
        unit: if trouble.value.is_some() { "%" } else { "" },
        remedies: trouble.remedies.iter().map(yard::Remedy::words).collect(),
        lines: Vec::new(),
    }
}

fn of_skin(trouble: &PanelTrouble) -> Notice {
    Notice {
        severity: Severity::Warning,
        source: Source::Skins,
        part: format!("{} skin", trouble.face.name()),
        headline: trouble.headline.clone(),
        extent: trouble.extent.clone(),
        x: trouble.x,
        value: trouble.value,
        limit: trouble.limit,
        unit: trouble.unit,
        remedies: vec![trouble.remedy.clone()],
        lines: Vec::new(),
    }
}

fn of_clash(board: &Board, clash: &pads::Trouble) -> Notice {
    let fitting = board.pads.fittings.iter().find(|f| f.name == clash.part);
    Notice {
        severity: Severity::Warning,
        source: Source::Fittings,
        part: clash.part.clone(),
        headline: clash.headline.clone(),
        extent: String::new(),
        x: fitting.map(|f| f.from_tail),
        // How far it reaches into the other, which it should not at all; nothing where it is no length.
        value: (clash.value > 0.0).then_some(clash.value),
        limit: (clash.value > 0.0).then_some(0.0),
        unit: if clash.value > 0.0 { "mm" } else { "" },
        remedies: vec![clash.remedy.clone()],
        lines: Vec::new(),
    }
}

/// Most shortboards sink under a rider who sits still, so this is to be known and no warning.
fn of_lying(lying: &Lying, unit: units::Unit) -> Option<Notice> {
    let error = lying.afloat.as_ref().err()?;
    let load = super::mass::lying_name(lying);
    let mass = |kg: f64| units::mass(kg, unit);
    let (headline, extent, remedy, value, limit) = match error {
        AfloatError::Sinks {
            mass: afloat,
            carries,
            litres,
        } => (
            "the board does not float".to_owned(),
            format!(
                "{load}: {} in all, it carries {}",
                mass(*afloat),
                mass(*carries)
            ),
            format!(
                "take off {}; or add {litres:.2} L of volume",
                mass(afloat - carries)
            ),
            Some(*afloat),
            Some(*carries),
        ),
        other => {
            let text = other.to_string();
            let (what, remedy) = text.split_once("; ").unwrap_or((&text, ""));
            let headline = "no waterline can be found".to_owned();
            (
                headline,
                format!("{load}: {what}"),
                remedy.to_owned(),
                None,
                None,
            )
        }
    };
    Some(Notice {
        severity: Severity::Note,
        source: Source::Float,
        part: "board".into(),
        headline,
        extent,
        x: None,
        value,
        limit,
        unit: if value.is_some() { "kg" } else { "" },
        remedies: (!remedy.is_empty()).then_some(remedy).into_iter().collect(),
        lines: Vec::new(),
    })
}

/// Strips whose twist is compared with nothing, since their wood has no shear strength with a source; and strips that nothing judges.
fn unjudged(board: &Board) -> Vec<Notice> {
    let wood = &board.design.timber.rail.name;
    let works = board.yard.strips.iter().zip(&board.strips);
    let note = |part: String, headline: &str, extent: String, remedy: String| Notice {
        severity: Severity::Note,
        source: Source::Strips,
        part,
        headline: headline.to_owned(),
        extent,
        x: None,
        value: None,
        limit: None,
        unit: "",
        remedies: vec![remedy],
        lines: Vec::new(),
    };
    let mut found = Vec::new();
    let silent: Vec<usize> = works
        .clone()
        .filter(|(w, _)| w.demand.is_none())
        .map(|(w, _)| w.number)
        .collect();
    if !silent.is_empty() {
        found.push(note(
            format!("strips {}", list(&silent)),
            "bend and twist of strips are not judged",
            format!("strips {}: the figures of {wood} do not say what it takes", list(&silent)),
            "try an offcut round the tightest place; or give the wood's figures in [[timber.species]]".into(),
        ));
    }
    let strains = works
        .filter(|(w, _)| w.demand.is_some() && w.demand_of(Strained::Twist).is_none())
        .filter_map(|(w, strip)| {
            let (rate, place) = strip.worst(|p| p.bend.twist.abs())?;
            let [thickness, width] = w.section;
            let strain = twist_strain(width, thickness, rate).ok()?;
            Some((w.number, 100.0 * strain, place.x))
        });
    let strains: Vec<(usize, f64, f64)> = strains.collect();
    if let Some(&(strip, strain, x)) = strains.iter().max_by(|a, b| a.1.total_cmp(&b.1)) {
        let place = units::size(x, board.design.report);
        found.push(Notice {
            x: Some(x),
            value: Some(strain),
            unit: "%",
            ..note(
                format!("strip {strip}"),
                "twist of the strips is not judged",
                format!(
                    "{wood} has no shear strength with a source; at worst {strain:.2} % shear strain on strip {strip}, {place} from the tail"
                ),
                "twist an offcut as far before you mill; or give a shear strength (`shear`) in a [[timber.species]] of your own".into(),
            )
        });
    }
    found
}

impl Notice {
    /// What is wrong and where, in one line.
    pub fn sentence(&self) -> String {
        if self.extent.is_empty() {
            self.headline.clone()
        } else {
            format!("{}: {}", self.headline, self.extent)
        }
    }

    /// Whether it is counted.
    pub fn is_warning(&self) -> bool {
        self.severity == Severity::Warning
    }
}

impl Severity {
    /// The word for it.
    pub fn name(self) -> &'static str {
        match self {
            Self::Warning => "warning",
            Self::Note => "note",
        }
    }
}

impl Source {
    /// The word for it.
    pub fn name(self) -> &'static str {
        match self {
            Self::Shape => "shape",
            Self::Frame => "frame",
            Self::Rail => "rail",
            Self::Strips => "strips",
            Self::Skins => "skins",
            Self::Fittings => "fittings",
            Self::Float => "float",
        }
    }
}

/// One row a notice.
pub(super) fn table(name: &str, notices: &[Notice]) -> Table {
    let columns = vec![
        Column::plain("severity"),
        Column::plain("source"),
        Column::plain("part"),
        Column::plain("what is wrong"),
        Column::plain("where"),
        super::cells::mm("from the tail"),
        Column::measured("value", "", 3),
        Column::measured("limit", "", 3),
        Column::plain("unit"),
        Column::plain("what to change"),
    ];
    let number = |n: Option<f64>| n.map_or(Cell::Empty, Cell::Number);
    let row = |n: &Notice| {
        vec![
            n.severity.name().into(),
            n.source.name().into(),
            n.part.as_str().into(),
            n.headline.as_str().into(),
            n.extent.as_str().into(),
            number(n.x),
            number(n.value),
            number(n.limit),
            n.unit.into(),
            n.remedies.join("; or ").as_str().into(),
        ]
    };
    Table {
        title: format!("{name}: warnings and notes"),
        columns,
        rows: notices.iter().map(row).collect(),
    }
}
