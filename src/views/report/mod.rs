//! What a board comes to, in words and numbers for a reader: measures, frame, rail, strips, skins, mass, and what is wrong with it.

mod bed;
mod cells;
mod findings;
mod fittings;
mod mass;
mod measure;
mod rail;
mod schedule;
mod skins;
mod stock_tables;
mod strip_chart;
mod strips;
mod tables;
mod wood;

pub use findings::{FindingReport, RemedyReport, SpotReport};
pub use mass::{AfloatReport, FloatReport, MassReport};
pub use measure::{Measure, measure_list};
pub use rail::{RailReport, Worst, Worsts};
pub use skins::{SkinPlank, SkinReport, SkinStrain, SkinsReport};
pub use stock_tables::{cut_table, milling_table};
pub use strip_chart::{NamedChart, strip_charts};
pub use strips::{GlulamReport, KindReport, SpringReport, StrainReport, StripsReport};
pub use tables::{NamedTable, tables};
pub use wood::{BEACH_AIR, MovementReport, PlanReport, PlankReport, SHOP_AIR, WoodReport};

use serde::Serialize;
use serde_json::Value;

use crate::board::Board;
use crate::design::finding::Severity;
use crate::design::units::Unit;
use crate::frame::{Bevels, Facet, Lands, Rib};
use crate::shape::Measures;

/// The units of every number in a report.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
pub struct Units {
    /// Of lengths.
    pub length: &'static str,
    /// Of areas.
    pub area: &'static str,
    /// Of volumes.
    pub volume: &'static str,
    /// Of angles.
    pub angle: &'static str,
    /// Of masses.
    pub mass: &'static str,
}

/// A rib's place and size.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct RibReport {
    /// Number from the tail, starting with 1.
    pub number: usize,
    /// Centre plane, mm from the tail.
    pub x: f64,
    /// Width of its contour, mm.
    pub width: f64,
    /// Height of its contour, mm.
    pub height: f64,
    /// Thickness, mm.
    pub thickness: f64,
    /// Lightening and air holes in it.
    pub holes: usize,
    /// Area of a face without them, mm².
    pub area: f64,
    /// Glued areas, mm².
    pub lands: Lands,
    /// How far its edges lean, degrees.
    pub bevels: Bevels,
    /// How far its ends lean, degrees.
    pub facets: Vec<Facet>,
    /// Courses of the rail at it.
    pub courses: usize,
    /// Angle at which the rail's top is planed for the deck, degrees.
    pub top_bevel: Option<f64>,
}

/// The spine's place and size.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct SpineReport {
    /// Where it begins and ends, mm from the tail.
    pub ends: [f64; 2],
    /// Height of its contour, mm.
    pub height: f64,
    /// Thickness, mm.
    pub thickness: f64,
    /// Pieces it is cut as, more than one where it is longer than the sheet.
    pub pieces: usize,
    /// Lightening and air holes in it.
    pub holes: usize,
    /// Area of a face without them, mm².
    pub area: f64,
    /// Glued areas, mm².
    pub lands: Lands,
}

/// Version of the form of [`Report`] as JSON.
pub const FORMAT: u32 = 1;

/// Everything there is to say about a board.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Report {
    /// Version of this form, [`FORMAT`]: it rises when a name goes or means something else.
    pub format: u32,
    /// The board's name.
    pub name: String,
    /// The maker's notes.
    pub notes: String,
    /// The unit the maker reads.
    pub report: Unit,
    /// The units of the numbers here.
    pub units: Units,
    /// The shape's measures.
    pub measures: Measures,
    /// The ribs from the tail.
    pub ribs: Vec<RibReport>,
    /// The spine.
    pub spine: SpineReport,
    /// The rail.
    pub rail: RailReport,
    /// The skins.
    pub skins: SkinsReport,
    /// What it weighs.
    pub mass: MassReport,
    /// How it lies in sea and fresh water.
    pub afloat: Vec<FloatReport>,
    /// Its strips as work.
    pub strips: StripsReport,
    /// The wood they take.
    pub wood: WoodReport,
    /// Everything that is wrong or worth knowing: the one list that every page shows. Errors first, then warnings, then notes.
    pub findings: Vec<FindingReport>,
}

/// Reports on `board`.
pub fn report(board: &Board) -> Report {
    Report {
        format: FORMAT,
        name: board.design.name.clone(),
        notes: board.design.notes.clone(),
        report: board.design.report,
        units: Units {
            length: "mm",
            area: "mm²",
            volume: "mm³",
            angle: "degrees",
            mass: "kg",
        },
        measures: board.measures.clone(),
        ribs: board.ribs.iter().map(rib).collect(),
        spine: SpineReport {
            ends: board.spine.ends,
            height: board.spine.height(),
            thickness: board.spine.thickness,
            pieces: board.spine.pieces.len(),
            holes: board.spine.holes.len(),
            area: board.spine.area(),
            lands: board.spine.lands,
        },
        rail: RailReport::new(board),
        skins: SkinsReport::new(board),
        mass: MassReport::new(board),
        afloat: board
            .float_states
            .iter()
            .map(|l| FloatReport::new(board, l))
            .collect(),
        wood: WoodReport::new(board),
        strips: StripsReport::new(board),
        findings: findings::findings(board),
    }
}

fn rib(rib: &Rib) -> RibReport {
    let bounds = rib.outline.bounds();
    let b = rib.bevels;
    RibReport {
        number: rib.number,
        x: rib.x,
        width: bounds.width(),
        height: bounds.height(),
        thickness: rib.thickness,
        holes: rib.holes.len(),
        area: rib.area(),
        lands: rib.lands,
        facets: rib
            .facets
            .iter()
            .map(|f| Facet {
                bevel: f.bevel.to_degrees(),
                ..*f
            })
            .collect(),
        bevels: Bevels {
            bottom_centre: b.bottom_centre.to_degrees(),
            bottom_rail: b.bottom_rail.to_degrees(),
            deck_centre: b.deck_centre.to_degrees(),
            deck_rail: b.deck_rail.to_degrees(),
            rail: b.rail.to_degrees(),
        },
        courses: rib.stack.courses.len(),
        top_bevel: rib.stack.top_bevel.map(f64::to_degrees),
    }
}

impl Report {
    /// How many errors and warnings there are; notes are not counted.
    pub fn warned(&self) -> usize {
        self.findings.iter().filter(|f| f.text.counts()).count()
    }

    /// How many findings of this severity there are.
    pub fn count(&self, severity: Severity) -> usize {
        self.findings
            .iter()
            .filter(|f| f.severity == severity)
            .count()
    }

    /// The report as JSON, every number rounded to four decimals.
    pub fn json(&self) -> Result<Value, serde_json::Error> {
        serde_json::to_value(self).map(rounded)
    }
}

/// Every number that is no count, rounded to four decimals: finer than any tool, coarser than a change of compiler.
fn rounded(value: Value) -> Value {
    match value {
        Value::Number(n) if n.is_f64() => {
            let number = n.as_f64().map(|x| (x * 1e4).round() / 1e4 + 0.0);
            number.map_or(Value::Null, Value::from)
        }
        Value::Array(list) => list.into_iter().map(rounded).collect(),
        Value::Object(map) => map.into_iter().map(|(k, v)| (k, rounded(v))).collect(),
        other => other,
    }
}
