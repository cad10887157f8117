//! Both skins as panels to be made: flat image, verdict, planks, joints.

use super::findings::{not_flat, panel_findings};
use super::{Face, Panel, SkinOptions, skin};
use crate::design::Design;
use crate::design::finding::Finding;
use crate::geometry::parallel;
use crate::shape::Shell;

/// The panels of a board.
#[derive(Debug, Clone, PartialEq)]
pub struct Panels {
    /// Bottom first; one that cannot be laid flat is missing.
    pub panels: Vec<Panel>,
}

impl Panels {
    /// Develops both skins of `design`, and says what they will not do. A skin that cannot be developed is a finding.
    pub fn new(design: &Design, shell: &Shell) -> (Self, Vec<Finding>) {
        let (mut panels, mut found) = (Vec::new(), Vec::new());
        let options = SkinOptions {
            overhang: design.skins.overhang,
            ..SkinOptions::default()
        };
        let results = parallel::map(&[Face::Bottom, Face::Deck], |&face| {
            let skin = skin(shell, &design.construction, face, &options);
            (face, skin.map(|skin| Panel::new(design, skin)))
        });
        for (face, panel) in results {
            match panel {
                Ok(panel) => {
                    found.extend(panel_findings(design, &panel));
                    panels.push(panel);
                }
                Err(error) => found.push(not_flat(face, &error)),
            }
        }
        (Self { panels }, found)
    }

    /// The panel of a face.
    pub fn of(&self, face: Face) -> Option<&Panel> {
        self.panels.iter().find(|p| p.skin.face == face)
    }
}
