//! Strips that are wanted.

use crate::wood::stock::error::positive;
use crate::wood::stock::{CourseKind, Shop, StockError};
use serde::Serialize;

/// Strips of one course, or one lamination of them, alike on both rails.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct StripNeed {
    /// The strip's number, to be written on its pieces.
    pub strip: usize,
    /// Which of its laminations, starting with 1; nothing where it is solid.
    pub lamination: Option<usize>,
    /// CourseKind.
    pub kind: CourseKind,
    /// Length of the blank, mm, end allowances included.
    pub length: f64,
    /// Length left in the board, mm, for mass.
    pub finished: f64,
    /// How many: 2 for a course on both rails.
    pub count: u32,
    /// Course, counted up from the bottom skin; scarfs of courses next to each other are staggered, as are those of one course.
    pub course: usize,
    /// Where the blank's tail end lies along the rail, mm from an origin common to all courses; needed only to stagger scarfs.
    pub start: f64,
    /// Stretches of the blank, mm from its tail end, where no part of a scarf may lie.
    pub no_scarf_zones: Vec<(f64, f64)>,
}

impl StripNeed {
    /// A need of `count` solid blanks of `length` mm, finished at that length, from the common origin, with scarfs allowed anywhere.
    pub fn new(strip: usize, kind: CourseKind, length: f64, count: u32, course: usize) -> Self {
        Self {
            strip,
            lamination: None,
            kind,
            length,
            finished: length,
            count,
            course,
            start: 0.0,
            no_scarf_zones: Vec::new(),
        }
    }

    /// What is written on its pieces: the strip's number and, after a point, the lamination's.
    pub fn mark(&self) -> String {
        match self.lamination {
            Some(lamination) => format!("{}.{lamination}", self.strip),
            None => self.strip.to_string(),
        }
    }

    pub(super) fn check(&self) -> Result<(), StockError> {
        positive("strip length, mm", self.length, 1.0, 30_000.0)?;
        positive("finished strip length, mm", self.finished, 0.0, self.length)?;
        positive("number of strips", f64::from(self.count), 0.0, 10_000.0)?;
        positive("start of a strip, mm", self.start, -1e5, 1e5)?;
        for &(from, to) in &self.no_scarf_zones {
            positive("start of a stretch without scarfs, mm", from, -1e5, 1e5)?;
            positive("end of a stretch without scarfs, mm", to, from, 1e5)?;
        }
        Ok(())
    }
}

/// One blank to be cut.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Serialize)]
pub struct Blank {
    /// Index of its need.
    pub need: usize,
    /// Which of the need's strips; spares follow the wanted ones.
    pub copy: u32,
    /// Whether it is a spare.
    pub spare: bool,
}

/// Every blank, spares included: of each profile the shop's share of its number, rounded up, each as long as the profile's longest so
/// that it can stand in for any.
pub(super) fn blanks(needs: &[StripNeed], shop: &Shop) -> Vec<Blank> {
    let mut all: Vec<Blank> = Vec::new();
    for (need, n) in needs.iter().enumerate() {
        all.extend((0..n.count).map(|copy| Blank {
            need,
            copy,
            spare: false,
        }));
    }
    for kind in CourseKind::ALL {
        let of = || {
            needs
                .iter()
                .enumerate()
                .filter(|(_, n)| n.kind == kind && n.count > 0)
        };
        let total: u32 = of().map(|(_, n)| n.count).sum();
        // The first of the longest.
        let longest = of().max_by(|(i, a), (j, b)| a.length.total_cmp(&b.length).then(j.cmp(i)));
        let spares = (f64::from(total) * shop.spare - 1e-9).ceil().max(0.0) as u32;
        if let Some((need, n)) = longest {
            all.extend((n.count..n.count + spares).map(|copy| Blank {
                need,
                copy,
                spare: true,
            }));
        }
    }
    all
}
