//! Every value of a draft with the key it is written by.

use super::model::{Draft, Foil, Nose, OutlineBody, Rocker, Tail};
use super::place::KeyPlace;
use super::{FinOffset, FinSet, Hole};
use crate::design::timber::{Provenance, Species};

/// How a value in the library's units is written in a file.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) enum Scale {
    /// As it is.
    Plain,
    /// Radians, written as degrees.
    Degrees,
    /// So many times the value, such as 100 for a share written as a percentage.
    Times(f64),
    /// One over the value.
    Inverse,
}

impl Scale {
    /// The value as a file has it.
    pub(super) fn written(self, value: f64) -> f64 {
        match self {
            Self::Plain => value,
            Self::Degrees => value.to_degrees(),
            Self::Times(factor) => value * factor,
            Self::Inverse => 1.0 / value,
        }
    }
}

/// A value of a draft.
pub(super) enum Field<'d> {
    Number(&'d mut f64, Scale),
    Count(usize),
    Text(&'d str),
    Pairs(&'d mut [[f64; 2]]),
    Places(&'d mut [f64]),
    /// How many tables of this name there are.
    Tables(usize),
}

/// Collects the fields of one table.
struct Fields<'d> {
    found: Vec<(KeyPlace, Field<'d>)>,
    table: &'static str,
    row: usize,
}

impl<'d> Fields<'d> {
    fn table(&mut self, table: &'static str, row: usize) -> &mut Self {
        (self.table, self.row) = (table, row);
        self
    }

    fn add(&mut self, key: &'static str, field: Field<'d>) -> &mut Self {
        let place = KeyPlace {
            table: self.table,
            row: self.row,
            key,
            index: None,
        };
        self.found.push((place, field));
        self
    }

    fn number(&mut self, key: &'static str, value: &'d mut f64) -> &mut Self {
        self.add(key, Field::Number(value, Scale::Plain))
    }

    fn scaled(&mut self, key: &'static str, value: &'d mut f64, scale: Scale) -> &mut Self {
        self.add(key, Field::Number(value, scale))
    }

    fn degrees(&mut self, key: &'static str, value: &'d mut f64) -> &mut Self {
        self.scaled(key, value, Scale::Degrees)
    }

    fn maybe(&mut self, key: &'static str, value: &'d mut Option<f64>) -> &mut Self {
        match value {
            Some(value) => self.number(key, value),
            None => self,
        }
    }

    fn count(&mut self, key: &'static str, value: usize) -> &mut Self {
        self.add(key, Field::Count(value))
    }

    fn text(&mut self, key: &'static str, value: &'d str) -> &mut Self {
        self.add(key, Field::Text(value))
    }
}

/// Percent to a share.
const PERCENT: Scale = Scale::Times(100.0);
/// Grams to a kilogram.
const GRAMS: Scale = Scale::Times(1000.0);
/// How much farther in the inner pair of five fins stands than the outer.
pub(super) const INNER_PAIR: f64 = 1.5;

/// All values of a draft that a key's own range, length or number of elements binds.
pub(super) fn fields(draft: &mut Draft) -> Vec<(KeyPlace, Field<'_>)> {
    let mut f = Fields {
        found: Vec::new(),
        table: "",
        row: 0,
    };
    f.text("name", &draft.name).text("notes", &draft.notes);
    f.table("outline", 0).number("length", &mut draft.length);
    match &mut draft.outline.body {
        OutlineBody::Points(points) => f.add("points", Field::Pairs(points)),
        OutlineBody::Measures {
            width,
            wide_point,
            nose_width,
            tail_width,
        } => f
            .number("width", width)
            .number("wide_point", wide_point)
            .number("nose_width", nose_width)
            .number("tail_width", tail_width),
    };
    if let Nose::Pointed { angle } = &mut draft.outline.nose {
        f.degrees("nose_angle", angle);
    }
    match &mut draft.outline.tail {
        Tail::Round => &mut f,
        Tail::Pin { angle } => f.degrees("tail_angle", angle),
        Tail::Square { width } => f.number("tail_end_width", width),
        Tail::Squash { width, radius } => f
            .number("tail_end_width", width)
            .number("tail_corner", radius),
        Tail::Swallow { width, depth } => f
            .number("tail_end_width", width)
            .number("tail_cleft", depth),
    };
    f.table("rocker", 0);
    match &mut draft.rocker {
        Rocker::Points(points) => f.add("points", Field::Pairs(points)),
        Rocker::Measures { nose, tail, flat } => f
            .number("nose", nose)
            .number("tail", tail)
            .add("flat", Field::Places(flat)),
    };
    f.table("foil", 0);
    match &mut draft.foil {
        Foil::Points(points) => f.add("points", Field::Pairs(points)),
        Foil::Measures {
            centre,
            nose,
            tail,
            nose_tip,
            tail_tip,
        } => f
            .number("centre", centre)
            .number("nose", nose)
            .number("tail", tail)
            .number("nose_tip", nose_tip)
            .number("tail_tip", tail_tip),
    };
    let sections = draft.sections.len();
    f.table("section", 0).add("at", Field::Tables(sections));
    for (row, section) in draft.sections.iter_mut().enumerate() {
        f.table("section", row)
            .number("at", &mut section.x)
            .number("contour_depth", &mut section.contour_depth)
            .number("edge_radius", &mut section.edge_radius)
            .number("tuck", &mut section.tuck)
            .degrees("tuck_angle", &mut section.tuck_angle)
            .number("apex", &mut section.apex)
            .number("fullness", &mut section.fullness)
            .maybe("crown", &mut section.crown);
    }
    let c = &mut draft.construction;
    f.table("construction", 0)
        .number("bottom_skin", &mut c.bottom_skin)
        .number("deck_skin", &mut c.deck_skin)
        .number("rib", &mut c.rib)
        .add("rib_stations", Field::Places(&mut c.rib_stations))
        .number("spine", &mut c.spine)
        .number("slot_clearance", &mut c.slot_clearance)
        .number("tail_block", &mut c.tail_block)
        .number("nose_block", &mut c.nose_block)
        .number("cover", &mut c.cover)
        .number("proud", &mut c.proud)
        .degrees("skin_turn", &mut c.skin_turn)
        .number("skin_bend_radius", &mut c.skin_bend_radius);
    f.table("construction.strip", 0)
        .number("thickness", &mut c.strip.thickness)
        .number("width", &mut c.strip.width)
        .number("bead_radius", &mut c.strip.bead_radius)
        .number("cove_radius", &mut c.strip.cove_radius)
        .number("cove_depth", &mut c.strip.cove_depth);
    f.table("construction.starter", 0)
        .number("size", &mut c.starter.size)
        .count("count", c.starter.count)
        .count("laminations", c.starter.laminations);
    let holes = &mut c.frame.holes;
    f.table("construction.holes", 0)
        .number("web", &mut holes.web)
        .number("rail_web", &mut holes.rail_web)
        .number("lap_web", &mut holes.lap_web)
        .number("bridge", &mut holes.bridge)
        .number("corner", &mut holes.corner)
        .maybe("span", &mut holes.span)
        .number("breather", &mut holes.breather);
    if let Some(count) = holes.count {
        f.count("count", count);
    }
    f.table("construction.cutter", 0)
        .number("diameter", &mut c.frame.cutter);
    f.table("construction.sheet", 0)
        .number("length", &mut c.frame.sheet.length)
        .number("width", &mut c.frame.sheet.width);
    let skins = &mut draft.skins;
    f.table("skins", 0)
        .number("plank_width", &mut skins.plank_width)
        .maybe("plank_length", &mut skins.plank_length)
        .number("overhang", &mut skins.overhang);
    let limits = &mut skins.limits;
    let pairs = [
        ("strain_along", &mut limits.strain_along, PERCENT),
        ("strain_across", &mut limits.strain_across, PERCENT),
        ("bend", &mut limits.bend_along, Scale::Inverse),
        ("bend", &mut limits.bend_across, Scale::Inverse),
    ];
    for (what, [dry, soaked], scale) in pairs {
        let [dry_key, soaked_key] = match what {
            "strain_along" => ["dry_strain_along", "soaked_strain_along"],
            "strain_across" => ["dry_strain_across", "soaked_strain_across"],
            _ => ["dry_bend", "soaked_bend"],
        };
        f.scaled(dry_key, dry, scale)
            .scaled(soaked_key, soaked, scale);
    }
    f.table("blocks", 0)
        .number("layer", &mut draft.blocks.layer)
        .number("oversize", &mut draft.blocks.oversize);
    f.fins(&mut draft.fins);
    f.hole("plug", &mut draft.plug)
        .hole("vent", &mut draft.vent);
    let bed = &mut draft.bed;
    f.table("bed", 0);
    if let Some(stations) = &mut bed.stations {
        f.add("stations", Field::Places(stations));
    }
    f.number("thickness", &mut bed.thickness)
        .number("base_height", &mut bed.base_height)
        .maybe("width", &mut bed.width)
        .number("sight_hole", &mut bed.sight_hole);
    if let Some([width, height]) = &mut bed.beam {
        f.number("beam_width", width).number("beam_height", height);
    }
    let timber = &mut draft.timber;
    f.table("timber", 0)
        .number("working_strain", &mut timber.working_strain);
    let woods = [
        &mut timber.rail,
        &mut timber.frame,
        &mut timber.skins,
        &mut timber.blocks,
    ];
    for (row, wood) in woods.into_iter().enumerate() {
        f.species(row, wood);
    }
    let shop = &mut draft.shop;
    f.table("timber", 0).number("moisture", &mut shop.moisture);
    f.table("shop", 0)
        .number("spare", &mut shop.spare)
        .number("end_allowance", &mut timber.end_allowance)
        .number("shortest_offcut", &mut shop.shortest_offcut)
        .number("scarf_ratio", &mut shop.scarf_ratio)
        .number("scarf_strain", &mut timber.scarf_strain)
        .number("stagger", &mut shop.stagger)
        .number("shortest_piece", &mut shop.shortest_piece);
    f.table("shop.kerf", 0)
        .number("resaw", &mut shop.kerfs.resaw)
        .number("rip", &mut shop.kerfs.rip)
        .number("crosscut", &mut shop.kerfs.crosscut);
    f.table("shop.allowance", 0)
        .number("dress_face", &mut shop.allowances.dress_face)
        .number("dress_edge", &mut shop.allowances.dress_edge)
        .number("sand_leaf", &mut shop.allowances.sand_leaf)
        .number("sand_square", &mut shop.allowances.sand_square)
        .number("mould", &mut shop.allowances.mould)
        .number("ends", &mut shop.allowances.ends);
    let planks = shop.planks.len();
    f.table("shop.plank", 0)
        .add("length", Field::Tables(planks));
    for (row, plank) in shop.planks.iter_mut().enumerate() {
        f.table("shop.plank", row)
            .text("name", &plank.name)
            .number("length", &mut plank.length)
            .number("width", &mut plank.width)
            .number("thickness", &mut plank.thickness)
            .number("price", &mut plank.price);
        if let Some(count) = plank.count {
            f.count("count", count as usize);
        }
        if let Some([thickness, width]) = &mut plank.nominal {
            // Inches.
            f.scaled("nominal_thickness", thickness, Scale::Times(25.4))
                .scaled("nominal_width", width, Scale::Times(25.4));
        }
    }
    f.table("finish", 0)
        .scaled("mass", &mut draft.finish.mass, GRAMS)
        .scaled("glue", &mut draft.finish.glue, GRAMS);
    let fittings = draft.fittings.len();
    f.table("fitting", 0).add("at", Field::Tables(fittings));
    for (row, fitting) in draft.fittings.iter_mut().enumerate() {
        f.table("fitting", row)
            .text("name", &fitting.name)
            .number("mass", &mut fitting.mass)
            .number("at", &mut fitting.x);
    }
    if let Some(rider) = &mut draft.rider {
        f.table("rider", 0)
            .number("mass", &mut rider.mass)
            .maybe("at", &mut rider.x)
            .number("height", &mut rider.height);
    }
    f.found
}

impl<'d> Fields<'d> {
    fn fins(&mut self, fins: &'d mut super::Fins) {
        self.table("fins", 0)
            .number("margin", &mut fins.margin)
            .number("floor", &mut fins.floor);
        let of_set = fins.set.count();
        let own = fins.fins.len().saturating_sub(of_set);
        self.table("fins.fin", 0)
            .add("from_tail", Field::Tables(own));
        for (i, fin) in fins.fins.iter_mut().enumerate() {
            // The set's own places and angles are written by its name.
            let row = i.saturating_sub(of_set);
            self.table("fins.fin", row)
                .number("from_tail", &mut fin.from_tail)
                .degrees("toe", &mut fin.toe)
                .degrees("cant", &mut fin.cant);
            match &mut fin.offset {
                FinOffset::Centre(y) => self.number("from_centre", y),
                FinOffset::Rail(y) => {
                    let inner = fins.set == FinSet::Five && i == 1;
                    let scale = if inner { 1.0 / INNER_PAIR } else { 1.0 };
                    self.table("fins", 0)
                        .scaled("from_rail", y, Scale::Times(scale))
                }
            };
            let own = i >= of_set;
            self.table(
                if own { "fins.fin" } else { "fins" },
                if own { row } else { 0 },
            )
            .number("base", &mut fin.base)
            .number("cut_length", &mut fin.cut.length)
            .number("cut_width", &mut fin.cut.width)
            .number("cut_depth", &mut fin.cut.depth);
            if fin.cut.count != 1 {
                self.table("fins", 0)
                    .count("tabs", fin.cut.count)
                    .number("tab_spacing", &mut fin.cut.spacing);
            }
        }
    }

    fn hole(&mut self, table: &'static str, hole: &'d mut Option<Hole>) -> &mut Self {
        let Some(hole) = hole else {
            return self;
        };
        self.table(table, 0)
            .maybe("from_tail", &mut hole.from_tail)
            .maybe("from_centre", &mut hole.from_centre)
            .number("diameter", &mut hole.diameter)
            .number("depth", &mut hole.depth)
            .number("margin", &mut hole.margin);
        if table == "plug" {
            self.number("floor", &mut hole.floor);
        }
        self
    }

    /// A species of the maker's own; those of the program's table have published figures.
    fn species(&mut self, row: usize, wood: &'d mut Species) {
        self.table("timber.species", row)
            .text("name", &wood.name)
            .number("specific_gravity", &mut wood.specific_gravity)
            .number("modulus", &mut wood.modulus)
            .number("rupture", &mut wood.rupture)
            .maybe("shear", &mut wood.shear)
            .maybe("shear_ratio", &mut wood.shear_ratio);
        if wood.provenance == Provenance::Maker {
            self.text("source", &wood.source);
        }
    }
}
