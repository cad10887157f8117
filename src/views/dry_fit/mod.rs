//! The dry fit: every part as a solid in its place, and how neighbours meet.
//!
//! Parts are measured as the meshes they are cut or bent to, not by the formulas that made them: each pair's greatest overlap, and the
//! greatest gap along what they must bear on.

mod contact;
mod error;
mod heights;
mod limits;
mod pairs;
mod solid;

pub use contact::{Bearing, Contact, ContactKind, Found, Spot, measure};
pub use error::FitError;
pub use limits::{GAP, OVERLAP};
pub use solid::Solid;

use std::sync::Arc;

use solid::Place;

use crate::board::Board;
use crate::geometry::mesh::Mesh;
use crate::geometry::parallel;
use crate::views::solids::{
    lofted_solid, planed_strips, rib_solid, skin_bodies, spine_solid, within_board,
};

/// Chord tolerance of the plates measured, mm.
const TOLERANCE: f64 = 0.004;

/// A board put together dry.
#[derive(Debug, Clone)]
pub struct DryFit {
    /// The parts in place: ribs, spine, skins, the starboard rail's strips (port's mirror them), blocks, pads.
    pub parts: Vec<Mesh>,
    /// Every pair of neighbours.
    pub contacts: Vec<Contact>,
}

/// Puts the parts of `board` together and measures every pair of neighbours.
pub fn dry_fit(board: &Board) -> Result<DryFit, FitError> {
    let named = |part: &str| {
        let part = part.to_owned();
        |error| FitError::Part { part, error }
    };
    let mut parts = parallel::try_map(&board.ribs, |rib| {
        rib_solid(rib, TOLERANCE).map_err(named(&format!("rib {}", rib.number)))
    })?;
    parts.push(spine_solid(&board.spine, TOLERANCE).map_err(named("the spine"))?);
    parts.extend(parallel::try_map(&skin_bodies(board)?, |skin| {
        lofted_solid(skin).map_err(named(&skin.name))
    })?);
    let strips = planed_strips(board)?;
    // Where each of the board's strips is among the parts.
    let mut places = pairs::Places::default();
    for strip in strips {
        places.strips.push(strip.as_ref().map(|_| parts.len()));
        parts.extend(strip);
    }
    for (i, block) in board.blocks.iter().enumerate() {
        for (horn, body) in block.bodies.iter().enumerate() {
            // A swallow tail's horns stand clear of all but the skins, which do not reach across there.
            if horn == 0 {
                places.blocks.push((i, parts.len()));
            }
            parts.push(lofted_solid(body).map_err(named(&body.name))?);
        }
    }
    for fitting in &board.pads.fittings {
        for piece in fitting.pad.iter().flat_map(|p| &p.pieces) {
            places.pads.push((fitting.through, parts.len()));
            parts.push(lofted_solid(&piece.body).map_err(named(&piece.body.name))?);
        }
    }
    // Samples are as many as lengths ask, so these are bounded first.
    let parts = within_board(board, parts)?;
    let pairs = pairs::pairs(board, &places, &parts);
    let solids = in_place(&parts, &pairs)?;
    let contacts = parallel::map(&pairs, |pair| Contact {
        parts: pair.parts.map(|i| parts[i].name.clone()),
        kind: pair.kind,
        found: contact::measure(
            &solids[pair.parts[0]],
            &solids[pair.parts[1]],
            &pair.bearing,
        ),
    });
    Ok(DryFit { parts, contacts })
}

/// The parts made ready to be measured against their neighbours.
fn in_place(parts: &[Mesh], pairs: &[pairs::Pair]) -> Result<Vec<Solid>, FitError> {
    let places = parallel::map(parts, Place::new);
    let places: Vec<Arc<Place>> = places
        .into_iter()
        .map(|p| p.map(Arc::new))
        .collect::<Result<_, _>>()?;
    let mut neighbours: Vec<Vec<usize>> = vec![Vec::new(); parts.len()];
    for pair in pairs {
        let [a, b] = pair.parts;
        neighbours[a].push(b);
        neighbours[b].push(a);
    }
    let all: Vec<usize> = (0..parts.len()).collect();
    let solids = parallel::map(&all, |&i| {
        let of = |&n: &usize| places[n].clone();
        let beside: Vec<Arc<Place>> = neighbours[i].iter().map(of).collect();
        Solid::among(&parts[i], places[i].clone(), &beside)
    });
    solids.into_iter().collect()
}
