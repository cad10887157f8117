//! The solid blocks at nose and tail: the finished bodies, and the layers they are glued up from.

mod body;
mod half;
mod layers;
mod section;

pub use crate::design::finding::BoardEnd;
pub use layers::BlockLayer;

use crate::design::{Design, Tail};
use crate::geometry::lofted::Lofted;
use crate::shape::Shell;

/// A solid end block.
///
/// It fills the board from its face to the tip, between the skins' inner faces; beside them it runs out to the finished surface,
/// for the rail's strips butt against its face. Beyond the place where the skins' inner faces meet, a few millimetres short of a
/// tip that closes, the finished body ends; its layers reach to the tip.
#[derive(Debug, Clone, PartialEq)]
pub struct Block {
    /// Which end it fills.
    pub which: BoardEnd,
    /// The plane of its face against spine and strips, mm from the tail.
    pub face: f64,
    /// The finished bodies: one, and ahead of it the two horns of a swallow tail.
    pub bodies: Vec<Lofted>,
    /// The layers from the bottom up, which is the order of glueing.
    pub layers: Vec<BlockLayer>,
}

impl Block {
    /// Volume of the finished block, mm³.
    pub fn volume(&self) -> f64 {
        self.bodies.iter().map(Lofted::volume).sum()
    }

    /// Volume of the layers before anything is shaped, mm³.
    pub fn rough_volume(&self) -> f64 {
        self.layers.iter().map(BlockLayer::volume).sum()
    }

    /// Greatest and least height of the wood, mm.
    pub fn heights(&self) -> [f64; 2] {
        let z = self.bodies.iter().flat_map(|b| &b.slices);
        let z = z.flat_map(|s| &s.ring).map(|p| p.y);
        z.fold([f64::INFINITY, f64::NEG_INFINITY], |[low, high], z| {
            [low.min(z), high.max(z)]
        })
    }
}

/// The blocks of `design`, tail first; one is left out where the skins leave no room for it.
pub fn blocks(shell: &Shell, design: &Design) -> Vec<Block> {
    let c = &design.construction;
    let (tail, nose) = shell.x_range();
    let cleft = match design.outline.tail {
        Tail::Swallow { depth, .. } => Some(depth),
        _ => None,
    };
    let ends = [
        (BoardEnd::Tail, c.tail_block, tail, cleft),
        (BoardEnd::Nose, design.length - c.nose_block, nose, None),
    ];
    ends.into_iter()
        .filter_map(|(which, face, tip, cleft)| body::block(shell, design, which, face, tip, cleft))
        .collect()
}
