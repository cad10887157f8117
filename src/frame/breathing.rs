//! Whether every bay of the hollow has a way for its air to the vent.

use super::{Rib, Spine};
use crate::design::finding::{Change, Code, Finding, Half, Part, Place, Spot};

/// A space between two neighbouring ribs, or between a rib and an end block, on one side of the spine.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, serde::Serialize)]
pub struct Bay {
    /// Its number from the tail, starting with 1; bay n lies aft of rib n.
    pub number: usize,
    /// Its side.
    pub half: Half,
}

/// Bays and the openings between them.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) struct Airways {
    /// The bay that each bay's air reaches by way of openings, twice as many as there are bays along one side.
    root: Vec<usize>,
}

impl Airways {
    /// Bays parted by so many ribs and the spine, all of them shut.
    pub fn shut(ribs: usize) -> Self {
        Self {
            root: (0..2 * (ribs + 1)).collect(),
        }
    }

    /// Those of a frame: a rib's hole opens two bays on its side, a hole of the spine the bay's two sides.
    pub fn of(ribs: &[Rib], spine: &Spine) -> Self {
        let mut airways = Self::shut(ribs.len());
        for (i, rib) in ribs.iter().enumerate() {
            for hole in &rib.holes {
                let bounds = hole.bounds();
                let half = usize::from(bounds.min.x + bounds.max.x > 0.0);
                airways.open([2 * i + half, 2 * (i + 1) + half]);
            }
        }
        for hole in &spine.holes {
            let bounds = hole.bounds();
            let x = (bounds.min.x + bounds.max.x) / 2.0;
            let bay = ribs.iter().filter(|r| r.x < x).count();
            airways.open([2 * bay, 2 * bay + 1]);
        }
        airways
    }

    /// Opens a way between two bays.
    pub fn open(&mut self, [a, b]: [usize; 2]) {
        let (Some(&from), Some(&to)) = (self.root.get(b), self.root.get(a)) else {
            return;
        };
        for root in &mut self.root {
            if *root == from {
                *root = to;
            }
        }
    }

    /// Whether air goes from one bay to the other.
    pub fn joined(&self, a: usize, b: usize) -> bool {
        self.root.get(a) == self.root.get(b)
    }

    /// Bays whose air does not reach the bay of this index.
    fn shut_from(&self, vent: usize) -> Vec<Bay> {
        (0..self.root.len())
            .filter(|&bay| !self.joined(bay, vent))
            .map(|bay| Bay {
                number: bay / 2 + 1,
                half: [Half::Port, Half::Starboard][bay % 2],
            })
            .collect()
    }
}

/// The bays whose air does not reach the vent at `vent`, mm from the tail and to starboard; without one, the bay that most others
/// are open to is taken for the vent's. A vent on the spine is taken to open both sides.
pub fn sealed_bays(ribs: &[Rib], spine: &Spine, vent: Option<[f64; 2]>) -> Vec<Bay> {
    let mut airways = Airways::of(ribs, spine);
    let bays = 2 * (ribs.len() + 1);
    let best = match vent {
        Some([x, y]) => {
            let bay = 2 * ribs.iter().filter(|r| r.x < x).count();
            if y.abs() <= spine.thickness / 2.0 {
                airways.open([bay, bay + 1]);
            }
            bay + usize::from(y > 0.0)
        }
        None => (0..bays)
            .min_by_key(|&bay| airways.shut_from(bay).len())
            .unwrap_or(0),
    };
    airways.shut_from(best)
}

/// The finding that sealed bays are, if there are any.
pub(super) fn sealed_finding(bays: &[Bay], breather: f64) -> Option<Finding> {
    let spot = |bay: &Bay| Spot {
        place: Place {
            bay: Some(bay.number),
            side: Some(bay.half),
            ..Place::default()
        },
        value: None,
    };
    (!bays.is_empty()).then(|| Finding {
        places: bays.iter().map(spot).collect(),
        ..Finding::new(Code::BaySealed, Part::Bays).remedies([
            Change::FileGroove,
            Change::SmallerBreather(breather),
            Change::RibToThickerPlace,
        ])
    })
}
