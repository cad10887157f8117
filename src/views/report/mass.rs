//! What a board weighs, and how it lies in the water.

use serde::Serialize;

use crate::board::Board;
use crate::board::afloat::{FloatState, Water};
use crate::board::mass::{Material, Part};
use crate::views::table::{Cell, Column, Table};

/// A board weighed.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct MassReport {
    /// Moisture the wood is weighed at, percent.
    pub moisture: f64,
    /// Mass of the whole, kg.
    pub total: f64,
    /// Centre of gravity (x, y, z), mm: from the tail, to starboard, over the base plane.
    pub centre: [f64; 3],
    /// Mass of wood, kg.
    pub wood: f64,
    /// Mass of glue, kg.
    pub glue: f64,
    /// Mass of oil, or cloth and resin, kg.
    pub finish: f64,
    /// Mass of fittings, kg.
    pub fittings: f64,
    /// Air inside, mm³.
    pub hollow: f64,
    /// Wood cut out for fittings, mm³.
    pub cut_out: f64,
    /// Every part.
    pub parts: Vec<Part>,
}

/// A board lying in one water under one load; lengths in mm.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct FloatReport {
    /// `sea` or `fresh`.
    pub water: &'static str,
    /// Density of the water, kg/m³.
    pub density: f64,
    /// Whether the rider is on it.
    pub ridden: bool,
    /// Mass afloat, kg.
    pub mass: f64,
    /// Greatest mass that floats, the board's own included, kg.
    pub carries: f64,
    /// What it could carry besides, kg; negative by what is too much.
    pub spare: f64,
    /// How it lies; nothing if it does not float.
    pub afloat: Option<AfloatReport>,
}

/// How a board lies.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct AfloatReport {
    /// Greatest depth under water, mm.
    pub draught: f64,
    /// Trim, degrees, positive nose down.
    pub trim: f64,
    /// Heights of the water over the base plane at tail and nose, mm.
    pub water_heights: [f64; 2],
    /// Volume displaced, mm³.
    pub displaced: f64,
    /// Volume left above water, mm³.
    pub reserve: f64,
    /// Centre of buoyancy (x, z), mm.
    pub centre_of_buoyancy: [f64; 2],
    /// Waterplane area, mm².
    pub waterplane: f64,
    /// Wetted surface, mm².
    pub wetted: f64,
    /// Height of the transverse metacentre over the centre of gravity, mm: negative, and it does not lie upright by itself.
    pub transverse_height: f64,
    /// The same lengthwise, mm.
    pub lengthwise_height: f64,
}

impl MassReport {
    /// Summarises the mass of `board`.
    pub(super) fn new(board: &Board) -> Self {
        let m = &board.mass;
        Self {
            moisture: board.design.shop.moisture,
            total: m.total,
            centre: [m.centre[0], 0.0, m.centre[1]],
            wood: m.of(Material::Wood),
            glue: m.of(Material::Glue),
            finish: m.of(Material::Finish),
            fittings: m.of(Material::Fitting),
            hollow: m.hollow,
            cut_out: m.cut_out,
            parts: m.parts.clone(),
        }
    }
}

/// Which water, in a word.
fn water_name(water: Water) -> &'static str {
    match water {
        Water::Sea => "sea",
        Water::Fresh => "fresh",
        Water::Density(_) => "other",
    }
}

fn water_and_load(water: &str, ridden: bool) -> String {
    let load = if ridden {
        "with its rider"
    } else {
        "by itself"
    };
    match water {
        "sea" => format!("sea, {load}"),
        water => format!("{water} water, {load}"),
    }
}

impl FloatReport {
    pub(super) fn new(board: &Board, float_states: &FloatState) -> Self {
        let nose = board.design.length;
        let afloat = float_states.afloat.as_ref().ok().map(|a| AfloatReport {
            draught: a.draught,
            trim: a.trim.to_degrees(),
            water_heights: [a.water.at(0.0), a.water.at(nose)],
            displaced: a.displaced,
            reserve: a.reserve,
            centre_of_buoyancy: a.centre_of_buoyancy,
            waterplane: a.waterplane,
            wetted: a.wetted,
            transverse_height: a.transverse_height,
            lengthwise_height: a.lengthwise_height,
        });
        Self {
            water: water_name(float_states.water),
            density: float_states.water.density(),
            ridden: float_states.ridden,
            mass: float_states.load.mass,
            carries: float_states.carries,
            spare: float_states.spare(),
            afloat,
        }
    }

    /// Which water and load, in words.
    pub fn name(&self) -> String {
        water_and_load(self.water, self.ridden)
    }
}

/// Every part with its mass.
pub(super) fn parts(board: &Board, report: &MassReport) -> Table {
    let columns = vec![
        Column::plain("part"),
        Column::plain("material"),
        Column::plain("of"),
        Column::plain("pieces"),
        Column::measured("volume", "cm³", 1),
        Column::measured("area", "m²", 4),
        Column::measured("mass", "kg", 4),
        Column::measured("centre from the tail", "mm", 1),
        Column::measured("centre's height", "mm", 1),
    ];
    let maybe = |v: Option<f64>, unit: f64| v.map_or(Cell::Empty, |v| Cell::Number(v / unit));
    let mut rows: Vec<Vec<Cell>> = report
        .parts
        .iter()
        .map(|p| {
            let material = match p.material {
                Material::Wood => "wood",
                Material::Glue => "glue",
                Material::Finish => "finish",
                Material::Fitting => "fitting",
            };
            vec![
                p.name.as_str().into(),
                material.into(),
                p.of.as_str().into(),
                Cell::Count(i64::try_from(p.count).unwrap_or(i64::MAX)),
                maybe(p.volume, 1e3),
                maybe(p.area, 1e6),
                p.mass.into(),
                p.centre[0].into(),
                p.centre[1].into(),
            ]
        })
        .collect();
    rows.push(vec![
        "whole".into(),
        Cell::Empty,
        Cell::Empty,
        Cell::Empty,
        Cell::Empty,
        Cell::Empty,
        report.total.into(),
        report.centre[0].into(),
        report.centre[2].into(),
    ]);
    Table {
        title: format!("{}: mass", board.design.name),
        columns,
        rows,
    }
}

/// How it lies in each water.
pub(super) fn afloat(board: &Board, report: &[FloatReport]) -> Table {
    let columns = vec![
        Column::plain("water"),
        Column::plain("ridden"),
        Column::measured("mass", "kg", 3),
        Column::measured("carries in all", "kg", 3),
        Column::measured("draught", "mm", 2),
        Column::measured("trim, nose down", "degrees", 3),
        Column::measured("water at the tail", "mm", 2),
        Column::measured("water at the nose", "mm", 2),
        Column::measured("wetted surface", "m²", 4),
        Column::measured("transverse metacentre over the centre of gravity", "mm", 1),
        Column::plain("floats"),
    ];
    let rows = report.iter().map(|l| {
        let of =
            |f: fn(&AfloatReport) -> f64| l.afloat.as_ref().map_or(Cell::Empty, |a| f(a).into());
        vec![
            l.water.into(),
            if l.ridden { "yes" } else { "no" }.into(),
            l.mass.into(),
            l.carries.into(),
            of(|a| a.draught),
            of(|a| a.trim),
            of(|a| a.water_heights[0]),
            of(|a| a.water_heights[1]),
            of(|a| a.wetted / 1e6),
            of(|a| a.transverse_height),
            if l.afloat.is_some() { "yes" } else { "no" }.into(),
        ]
    });
    Table {
        title: format!("{}: afloat", board.design.name),
        columns,
        rows: rows.collect(),
    }
}
