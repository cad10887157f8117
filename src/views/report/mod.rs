//! What a board comes to, in words and numbers for a reader: measures, frame, rail, and advice where a course cannot hold.

mod advice;
mod bed;
mod cells;
mod fittings;
mod mass;
mod measure;
mod notice;
mod rail;
mod schedule;
mod shape;
mod skins;
mod stock_tables;
mod strip_chart;
mod strips;
mod tables;
mod wood;

pub use advice::{Advice, Instance, advice};
pub use mass::{AfloatReport, LyingReport, MassReport};
pub use measure::{Measure, measure_list};
pub use notice::{Notice, Severity, Source};
pub use rail::{RailReport, Worst, Worsts};
pub use skins::{SkinFinding, SkinPlank, SkinReport, SkinsReport};
pub use stock_tables::{cut_table, milling_table};
pub use strip_chart::{NamedChart, strip_charts};
pub use strips::{GlulamReport, KindReport, SpringReport, StrainReport, StripsReport};
pub use tables::{NamedTable, tables};
pub use wood::{BEACH_AIR, MovementReport, PlanReport, PlankReport, SHOP_AIR, WoodReport};

use serde::Serialize;
use serde_json::Value;

use crate::board::Board;
use crate::design::units::Unit;
use crate::frame::{Bevels, Facet, Lands, Rib, Trouble};
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

/// Everything there is to say about a board.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Report {
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
    /// Parts of the frame left out or shortened, slots left square, air shut in.
    pub frame_troubles: Vec<Trouble>,
    /// The rail.
    pub rail: RailReport,
    /// The skins.
    pub skins: SkinsReport,
    /// What it weighs.
    pub mass: MassReport,
    /// How it lies in sea and fresh water.
    pub afloat: Vec<LyingReport>,
    /// Its strips as work.
    pub strips: StripsReport,
    /// The wood they take.
    pub wood: WoodReport,
    /// Everything there is to be warned of or to note: the one list that every page shows.
    pub warnings: Vec<Notice>,
    /// Fins, leash plug and vent that clash with something.
    pub clashes: Vec<crate::frame::pads::Trouble>,
}

/// Reports on `board`.
pub fn report(board: &Board) -> Report {
    let strips = StripsReport::new(board);
    Report {
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
        frame_troubles: board.frame_troubles.clone(),
        rail: RailReport::new(board),
        skins: SkinsReport::new(board),
        mass: MassReport::new(board),
        afloat: board
            .lying
            .iter()
            .map(|l| LyingReport::new(board, l))
            .collect(),
        wood: WoodReport::new(board),
        warnings: notice::notices(board, &strips.troubles),
        strips,
        clashes: board.pads.troubles.clone(),
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
    /// How many warnings there are; notes are not counted.
    pub fn warned(&self) -> usize {
        self.warnings.iter().filter(|n| n.is_warning()).count()
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
