//! Both skins as panels to be made: flat image, verdict, planks, joints, and what will not do.

use super::keyed::{KeyedCut, keyed_cuts};
use super::planks::{Scarfed, scarf};
use super::strain::Greatest;
use super::trouble::{PanelTrouble, troubles};
use super::{Face, Plank, Skin, SkinOptions, Verdict, skin, verdict};
use crate::design::{Design, PanelJoint};
use crate::geometry::parallel;
use crate::shape::Shell;

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
    pub planks: Vec<Plank>,
    /// Cuts across it, from the tail, where it is made of pieces keyed together.
    pub cuts: Vec<KeyedCut>,
}

/// The panels of a board.
#[derive(Debug, Clone, PartialEq)]
pub struct Panels {
    /// Bottom first; one that cannot be laid flat is missing.
    pub panels: Vec<Panel>,
    /// What will not do, and what to change.
    pub troubles: Vec<PanelTrouble>,
}

impl Panels {
    /// Develops both skins of `design`. A skin that cannot be developed becomes a trouble.
    pub fn new(design: &Design, shell: &Shell) -> Self {
        let (mut panels, mut found) = (Vec::new(), Vec::new());
        let options = SkinOptions {
            overhang: design.skins.overhang,
            ..SkinOptions::default()
        };
        let made = parallel::map(&[Face::Bottom, Face::Deck], |&face| {
            let skin = skin(shell, &design.construction, face, &options);
            (face, skin.map(|skin| Panel::new(design, skin)))
        });
        for (face, panel) in made {
            match panel {
                Ok(panel) => {
                    found.extend(troubles(design, &panel));
                    panels.push(panel);
                }
                Err(error) => found.push(PanelTrouble::not_flat(face, &error)),
            }
        }
        Self {
            panels,
            troubles: found,
        }
    }

    /// The panel of a face.
    pub fn of(&self, face: Face) -> Option<&Panel> {
        self.panels.iter().find(|p| p.skin.face == face)
    }
}

impl Panel {
    fn new(design: &Design, skin: Skin) -> Self {
        let (how, shop) = (&design.skins, &design.shop);
        let mut planks = skin.planks(how.plank_width, how.centre);
        let mut cuts = Vec::new();
        if let Some(stock) = how.plank_length {
            match how.joint {
                PanelJoint::Scarf => {
                    scarf(
                        &mut planks,
                        &Scarfed {
                            stock,
                            scarf: shop.scarf_ratio * skin.thickness,
                            stagger: shop.stagger,
                            shortest: shop.shortest_piece,
                        },
                    );
                }
                PanelJoint::Keyed => cuts = keyed_cuts(&skin, stock),
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
        let along = |w: &[Plank]| {
            let from = w[0].reach[0].max(w[1].reach[0]);
            w[0].reach[1].min(w[1].reach[1]) - from
        };
        self.planks.windows(2).map(along).sum()
    }
}

/// Area between a line and the centreline, mm².
fn under(line: &[crate::geometry::curve::Vector<2>]) -> f64 {
    line.windows(2)
        .map(|w| (w[1].x - w[0].x) * (w[0].y + w[1].y) / 2.0)
        .sum()
}
