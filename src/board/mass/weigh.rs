//! Weighing a board.

use super::cut_outs::removed;
use super::glue::glued;
use super::parts::{BoardParts, polygon};
use super::{Material, Part, Region, Shares, shares};
use crate::design::FinishKind;
use crate::design::timber::{Species, board_density};
use crate::frame::Rib;
use crate::frame::pads::Pad;
use crate::rail::CourseKind;
use crate::shape::ShellError;

/// A board weighed.
#[derive(Debug, Clone, PartialEq)]
pub struct Mass {
    /// Every part.
    pub parts: Vec<Part>,
    /// Mass of the whole, kg.
    pub total: f64,
    /// Its centre of gravity (x, z), mm from the tail and over the base plane; on the centre plane.
    pub centre: [f64; 2],
    /// The finished board shared out.
    pub shares: Shares,
    /// Air inside, mm³: what parts and cut-outs leave of the finished board.
    pub hollow: f64,
    /// Wood cut out for fittings, mm³.
    pub cut_out: f64,
}

/// Cubic millimetres in a cubic metre, and square ones in a square metre.
const CUBIC_METRE: f64 = 1e9;
const SQUARE_METRE: f64 = 1e6;

impl Mass {
    /// Weighs a board at the moisture its design names.
    ///
    /// # Errors
    ///
    /// [`ShellError`] where a section cannot be taken.
    pub fn new(board: &BoardParts<'_>) -> Result<Self, ShellError> {
        let (design, c) = (board.design, &board.design.construction);
        let timber = &design.timber;
        let shares = shares(board.shell, c, board.rail)?;
        let scale = Scale {
            moisture: design.shop.moisture,
        };
        let mut parts = Vec::new();
        let removed = removed(board);
        let [bottom, deck] = removed.skins;
        for (name, region) in [
            ("bottom skin", shares.bottom.less(bottom)),
            ("deck skin", shares.deck.less(deck)),
        ] {
            parts.extend(scale.wood(name, &timber.skins, 1, region));
        }
        for (kind, name) in [
            (CourseKind::Starter, "starters, both rails"),
            (CourseKind::BeadOnly, "bead-only strips, both rails"),
            (CourseKind::BeadAndCove, "bead-and-cove strips, both rails"),
        ] {
            let count = 2 * board.strips.iter().filter(|s| s.kind == kind).count();
            let region = shares.rail[super::sections::slot(kind)];
            parts.extend(scale.wood(name, &timber.rail, count, region));
        }
        for rib in board.ribs {
            let region = rib_region(rib);
            parts.extend(scale.wood(&format!("rib {}", rib.number), &timber.frame, 1, region));
        }
        let mut spine = Region::of_side(&polygon(&board.spine.outline));
        for hole in &board.spine.holes {
            spine = spine.less(Region::of_side(&polygon(hole)));
        }
        let spine = spine.times(board.spine.thickness).less(removed.spine);
        parts.extend(scale.wood("spine", &timber.frame, 1, spine));
        for (name, region) in [
            ("tail block", shares.ends[0].less(removed.blocks[0])),
            ("nose block", shares.ends[1].less(removed.blocks[1])),
        ] {
            parts.extend(scale.wood(name, &timber.blocks, 1, region));
        }
        for (fitting, cut_out) in board.pads.fittings.iter().zip(&removed.pads) {
            if let Some(pad) = &fitting.pad {
                let name = format!("pad of {}", fitting.name);
                let pieces = pad.pieces.len();
                let region = pad_region(pad).less(*cut_out);
                parts.extend(scale.wood(&name, &timber.blocks, pieces, region));
            }
        }
        let wood: f64 = parts.iter().filter_map(|p| p.volume).sum();
        parts.extend(glued(board).into_iter().map(|g| Part {
            name: g.name.to_owned(),
            material: Material::Glue,
            of: "glue".to_owned(),
            count: 1,
            volume: None,
            area: Some(g.area),
            mass: g.area / SQUARE_METRE * design.finish.glue,
            centre: g.centre,
        }));
        parts.extend(finish(board)?);
        parts.extend(design.fittings.iter().map(|f| Part {
            name: f.name.clone(),
            material: Material::Fitting,
            of: "as given".to_owned(),
            count: 1,
            volume: None,
            area: None,
            mass: f.mass,
            centre: [f.x, board.shell.centre_heights(f.x)[usize::from(f.on_deck)]],
        }));
        let total: f64 = parts.iter().map(|p| p.mass).sum();
        let moment = |k: usize| parts.iter().map(|p| p.mass * p.centre[k]).sum::<f64>() / total;
        Ok(Self {
            total,
            centre: [moment(0), moment(1)],
            cut_out: removed.volume(),
            hollow: shares.whole.size - wood - removed.volume(),
            shares,
            parts,
        })
    }

    /// Mass of one sort of material, kg.
    pub fn of(&self, material: Material) -> f64 {
        let parts = self.parts.iter().filter(|p| p.material == material);
        parts.map(|p| p.mass).sum()
    }
}

/// Weighs wood.
struct Scale {
    moisture: f64,
}

impl Scale {
    fn wood(&self, name: &str, species: &Species, count: usize, region: Region) -> Option<Part> {
        let centre = region.centre()?;
        // A design's moisture is within what the formula takes; beyond it the plain product serves.
        let density = species.density(self.moisture);
        let density =
            density.unwrap_or_else(|_| board_density(species.specific_gravity, self.moisture));
        Some(Part {
            name: name.to_owned(),
            material: Material::Wood,
            of: species.name.clone(),
            count,
            volume: Some(region.size),
            area: None,
            mass: region.size / CUBIC_METRE * density,
            centre,
        })
    }
}

/// A rib's volume, holes out.
fn rib_region(rib: &Rib) -> Region {
    let mut area = Region::of_polygon(&polygon(&rib.outline));
    for hole in &rib.holes {
        area = area.less(Region::of_polygon(&polygon(hole)));
    }
    area.slice(rib.x, rib.thickness)
}

/// A pad's pieces before anything is cut out of them.
fn pad_region(pad: &Pad) -> Region {
    let mut sum = Region::default();
    for piece in &pad.pieces {
        let volume = piece.body.volume();
        let [x, _, z] = piece.body.centroid().unwrap_or_default();
        sum += Region {
            size: volume,
            along: volume * x,
            high: volume * z,
        };
    }
    sum
}

fn finish(board: &BoardParts<'_>) -> Result<Option<Part>, ShellError> {
    let finish = board.design.finish;
    let half = board.shell.half_integrals()?;
    if finish.kind == FinishKind::None && finish.mass == 0.0 {
        return Ok(None);
    }
    let area = 2.0 * half.area;
    let at = half.area_moment / half.area;
    Ok(Some(Part {
        name: "finish".to_owned(),
        material: Material::Finish,
        of: finish.kind.name().to_owned(),
        count: 1,
        volume: None,
        area: Some(area),
        mass: area / SQUARE_METRE * finish.mass,
        centre: [at.x, at.z],
    }))
}
