//! A skin as a panel to be made: planks, joints, what strain and bending ask for.

use super::keyed::{KeyedCut, keyed_cuts};
use super::planks::{PlankScarfs, scarf};
use super::{FlatPlank, Greatest, Skin, Verdict, verdict};
use crate::design::{Design, PanelJoint};
use crate::geometry::curve::Vector;

/// A skin as a panel to be made.
#[derive(Debug, Clone, PartialEq)]
pub struct Panel {
    /// The skin, in place and flat.
    pub skin: Skin,
    /// The greatest strains in the sheet.
    pub greatest: Option<Greatest>,
    /// What strain and bending ask for.
    pub verdict: Verdict,
    /// Planks from port to starboard.
    pub planks: Vec<FlatPlank>,
    /// Cuts across it, from the tail, where it is made of pieces keyed together.
    pub cuts: Vec<KeyedCut>,
}

impl Panel {
    pub(super) fn new(design: &Design, skin: Skin) -> Self {
        let (how, shop) = (&design.skins, &design.shop);
        let mut planks = skin.planks(how.plank_width, how.centre);
        let mut cuts = Vec::new();
        if let Some(stock) = how.plank_length {
            match how.joint {
                PanelJoint::Scarf => {
                    scarf(
                        &mut planks,
                        &PlankScarfs {
                            stock,
                            scarf: shop.scarf_ratio * skin.thickness,
                            stagger: shop.stagger,
                            shortest: shop.shortest_piece,
                        },
                    );
                }
                PanelJoint::Key => cuts = keyed_cuts(&skin, stock),
            }
        }
        Self {
            greatest: skin.greatest(),
            verdict: verdict(&skin, &how.limits),
            planks,
            cuts,
            skin,
        }
    }

    /// Area of the flat panel, overhang included, mm².
    pub fn area(&self) -> f64 {
        2.0 * under(&self.skin.contour())
    }

    /// Area of the flat panel once trimmed to the finished outline, mm².
    pub fn trimmed_area(&self) -> f64 {
        2.0 * (under(&self.skin.trim_line()) - under(&self.skin.cleft_line()))
    }

    /// Length of the flat panel on the centreline, mm.
    pub fn length(&self) -> f64 {
        let [tail, nose] = self.skin.centre_line();
        nose - tail
    }

    /// Length of all seams between planks, mm.
    pub fn seams(&self) -> f64 {
        let along = |w: &[FlatPlank]| {
            let from = w[0].reach[0].max(w[1].reach[0]);
            w[0].reach[1].min(w[1].reach[1]) - from
        };
        self.planks.windows(2).map(along).sum()
    }
}

impl Panel {
    /// The outlines of the panel's pieces from the tail, each a closed ring of points, counter-clockwise; one if it is not cut.
    pub fn pieces(&self) -> Vec<Vec<Vector<2>>> {
        let contour = self.skin.contour();
        let mut out = Vec::new();
        let mut aft: Option<&KeyedCut> = None;
        for fore in self.cuts.iter().map(Some).chain([None]) {
            let from = aft.map_or(f64::NEG_INFINITY, |c| c.x);
            let to = fore.map_or(f64::INFINITY, |c| c.x);
            let side: Vec<Vector<2>> = contour
                .iter()
                .filter(|p| p.x > from + 1e-6 && p.x < to - 1e-6)
                .copied()
                .collect();
            let points = |cut: Option<&KeyedCut>| -> Vec<Vector<2>> {
                let line = cut.map_or(&[][..], |c| &c.line);
                line.iter().map(|&p| Vector::from(p)).collect()
            };
            // Up the fore cut to starboard, back along starboard, over the aft cut to port, and forward along port.
            let mut ring = points(fore);
            ring.extend(side.iter().rev());
            ring.extend(points(aft).into_iter().rev());
            ring.extend(side.iter().map(|p| Vector::<2>::new(p.x, -p.y)));
            ring.dedup_by(|a, b| (*a - *b).norm() < 1e-6);
            if ring.len() > 1 && (ring[0] - ring[ring.len() - 1]).norm() < 1e-6 {
                ring.pop();
            }
            out.push(ring);
            aft = fore;
        }
        out
    }
}

/// Area between a line and the centreline, mm².
fn under(line: &[Vector<2>]) -> f64 {
    line.windows(2)
        .map(|w| (w[1].x - w[0].x) * (w[0].y + w[1].y) / 2.0)
        .sum()
}
