//! The skins in a few numbers.

use serde::Serialize;

use crate::board::Board;
use crate::views::table::{Cell, Column, Table};
use crate::wood::skin::{Cause, Face, Panel, Treatment, WorstCause};

/// A strain or a bend of a skin, at its worst, against what its wood takes.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct SkinStrain {
    /// What strains it.
    pub cause: Cause,
    /// Strain in percent, tension positive; for a bend the radius over the thickness.
    pub value: f64,
    /// Radius, mm, of a bend.
    pub radius: Option<f64>,
    /// What the panel takes dry, in the value's terms.
    pub dry: f64,
    /// What it takes soaked or steamed, in the value's terms.
    pub soaked: f64,
    /// Where, mm from the tail.
    pub x: f64,
    /// Where, mm off the centreline.
    pub off: f64,
    /// What follows.
    pub treatment: Treatment,
}

/// A plank of a panel.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct SkinPlank {
    /// Number from port, starting with 1.
    pub number: usize,
    /// Its edges from the centreline in the flat, mm, port negative.
    pub edges: [f64; 2],
    /// Width, mm.
    pub width: f64,
    /// Length, mm.
    pub length: f64,
    /// Middles of its scarfs from the panel's tail end, mm.
    pub scarfs: Vec<f64>,
}

/// One skin.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct SkinReport {
    /// Which.
    pub face: Face,
    /// Thickness, mm.
    pub thickness: f64,
    /// Its wood.
    pub species: String,
    /// Length of the flat panel on the centreline, mm.
    pub length: f64,
    /// Width of the flat panel, mm.
    pub width: f64,
    /// Area of the flat panel with its overhang, mm².
    pub area: f64,
    /// Overhang, mm.
    pub overhang: f64,
    /// Planks from port to starboard.
    pub planks: Vec<SkinPlank>,
    /// Pieces that the panel is keyed together of; 1 for a panel of one piece.
    pub pieces: usize,
    /// Strains and bends at their worst.
    pub strains: Vec<SkinStrain>,
    /// What the panel needs before it goes on.
    pub treatment: Treatment,
}

/// Both skins.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct SkinsReport {
    /// Bottom first; one that cannot be laid flat is missing.
    pub skins: Vec<SkinReport>,
}

impl SkinsReport {
    /// Summarises the skins of `board`.
    pub(super) fn new(board: &Board) -> Self {
        let of = |panel: &Panel| skin(board, panel);
        Self {
            skins: board.panels.panels.iter().map(of).collect(),
        }
    }
}

fn skin(board: &Board, panel: &Panel) -> SkinReport {
    let skin = &panel.skin;
    let [start, _] = skin.centre_line();
    let planks = panel.planks.iter().enumerate();
    SkinReport {
        face: skin.face,
        thickness: skin.thickness,
        species: board.design.timber.skins.name.clone(),
        length: panel.length(),
        width: 2.0 * skin.contour().iter().map(|p| p.y).fold(0.0, f64::max),
        area: panel.area(),
        overhang: skin.options.overhang,
        planks: planks
            .map(|(i, plank)| SkinPlank {
                number: i + 1,
                edges: plank.edges,
                width: plank.width(),
                length: plank.length(),
                scarfs: plank.scarfs.iter().map(|x| x - start).collect(),
            })
            .collect(),
        pieces: panel.cuts.len() + 1,
        strains: panel
            .verdict
            .causes
            .iter()
            .map(|c| strain(board, panel, c))
            .collect(),
        treatment: panel.verdict.treatment,
    }
}

fn strain(board: &Board, panel: &Panel, found: &WorstCause) -> SkinStrain {
    let limits = &board.design.skins.limits;
    let [dry, soaked] = match found.cause {
        Cause::StrainAlong => limits.strain_along,
        Cause::StrainAcross => limits.strain_across,
        Cause::BendAlong => limits.bend_along,
        Cause::BendAcross => limits.bend_across,
    };
    let bend = found.cause.is_bend();
    // A flat skin has no radius.
    let figure = |v: f64| if bend { 1.0 / v.max(1e-9) } else { 100.0 * v };
    SkinStrain {
        cause: found.cause,
        value: figure(found.value),
        radius: bend.then(|| panel.skin.thickness / found.value.max(1e-9)),
        dry: figure(dry),
        soaked: figure(soaked),
        x: found.place[0],
        off: found.place[1].abs(),
        treatment: found.treatment,
    }
}

/// The planks of both skins.
pub(super) fn planks(board: &Board, report: &SkinsReport) -> Table {
    let mm = |name: &str| Column::measured(name, "mm", 1);
    let columns = vec![
        Column::plain("skin"),
        Column::plain("plank from port"),
        mm("width"),
        mm("length"),
        mm("thickness"),
        mm("port edge"),
        mm("starboard edge"),
        Column::plain("scarfs from the tail end, mm"),
    ];
    let rows = report.skins.iter().flat_map(|skin| {
        skin.planks.iter().map(|p| {
            let scarfs: Vec<String> = p.scarfs.iter().map(|x| format!("{x:.0}")).collect();
            vec![
                skin.face.name().into(),
                Cell::Count(i64::try_from(p.number).unwrap_or(i64::MAX)),
                p.width.into(),
                p.length.into(),
                skin.thickness.into(),
                p.edges[0].into(),
                p.edges[1].into(),
                scarfs.join(" ").as_str().into(),
            ]
        })
    });
    Table {
        title: format!("{}: planks of the skins", board.design.name),
        columns,
        rows: rows.collect(),
    }
}

/// Strains and bends of both skins at their worst.
pub(super) fn strains(board: &Board, report: &SkinsReport) -> Table {
    let columns = vec![
        Column::plain("skin"),
        Column::plain("what"),
        Column::measured("value", "", 4),
        Column::plain("unit"),
        Column::measured("limit dry", "", 4),
        Column::measured("limit soaked", "", 4),
        Column::measured("from the tail", "mm", 1),
        Column::measured("off the centreline", "mm", 1),
        Column::plain("what to do"),
    ];
    let rows = report.skins.iter().flat_map(|skin| {
        skin.strains.iter().map(|f| {
            let unit = if f.cause.is_bend() {
                "radius over thickness"
            } else {
                "percent"
            };
            vec![
                skin.face.name().into(),
                f.cause.name().into(),
                f.value.into(),
                unit.into(),
                f.dry.into(),
                f.soaked.into(),
                f.x.into(),
                f.off.into(),
                f.treatment.name().into(),
            ]
        })
    });
    Table {
        title: format!("{}: strain and bend of the skins", board.design.name),
        columns,
        rows: rows.collect(),
    }
}
