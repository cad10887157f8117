//! The rail's strips in a few numbers: how many, how long, how hard they are bent.

use serde::Serialize;

use crate::board::Board;
use crate::rail::{CourseKind, StrainKind};
use crate::views::findings::between_ribs;
use crate::wood::strip_work::StripWork;

/// Strips of one kind.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct KindReport {
    /// What they are.
    pub kind: CourseKind,
    /// How many a side.
    pub count: usize,
    /// Finished thickness and width, mm; of a laminated strip those of one lamination.
    pub section: [f64; 2],
    /// How many laminations each is bent as; 1 where it is solid.
    pub laminations: usize,
    /// Whether they are soaked or steamed before they are bent.
    pub softened: bool,
    /// Finished length of the longest, mm.
    pub longest: f64,
    /// Finished length of all on both rails, mm.
    pub both_rails: f64,
}

/// The strip strained most in one way.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct StrainReport {
    /// Which way.
    pub strained: StrainKind,
    /// Strain, percent.
    pub value: f64,
    /// What the wood is held to, percent.
    pub limit: f64,
    /// Share of the limit used.
    pub ratio: f64,
    /// Number of the strip.
    pub strip: usize,
    /// What it is.
    pub kind: CourseKind,
    /// Where, mm from the tail.
    pub x: f64,
    /// Between which ribs.
    pub place: String,
}

/// Radius over thickness where it is least, against the rule for glued beams.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct GlulamReport {
    /// Number of the strip.
    pub strip: usize,
    /// Radius over thickness.
    pub value: f64,
    /// Least the rule allows.
    pub limit: f64,
    /// `limit / value`; builders go well past 1 with thin clear strips.
    pub ratio: f64,
}

/// Where a strip springs back hardest.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct SpringReport {
    /// Number of the strip.
    pub strip: usize,
    /// Number of the rib.
    pub rib: usize,
    /// The rib's place, mm from the tail.
    pub x: f64,
    /// Force, N.
    pub force: f64,
}

/// The strips' summary.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct StripsReport {
    /// Strips by kind, from the bottom skin up.
    pub kinds: Vec<KindReport>,
    /// The worst of every way of straining, over all strips.
    pub worst: Vec<StrainReport>,
    /// Radius over thickness, reported beside the strains; nothing where all strips are straight.
    pub glulam: Option<GlulamReport>,
    /// The strip that springs back hardest.
    pub spring: Option<SpringReport>,
}

impl StripsReport {
    /// Summarises the strips of `board`.
    pub(super) fn new(board: &Board) -> Self {
        let rail_wood = &board.rail_wood;
        let kinds = CourseKind::ALL.into_iter().filter_map(|kind| {
            let of: Vec<&StripWork> = rail_wood.strips.iter().filter(|s| s.kind == kind).collect();
            Some(KindReport {
                kind,
                count: of.len(),
                section: of.first()?.section,
                laminations: of.first()?.laminations,
                softened: board.design.timber.softening.takes(kind),
                longest: of.iter().map(|s| s.finished).fold(0.0, f64::max),
                both_rails: of.iter().map(|s| 2.0 * s.finished).sum(),
            })
        });
        let worst = StrainKind::ALL.into_iter().filter_map(|strained| {
            let (work, d) = rail_wood.worst(strained)?;
            Some(StrainReport {
                strained,
                value: 100.0 * d.utilisation.value,
                limit: 100.0 * d.utilisation.limit,
                ratio: d.utilisation.ratio,
                strip: work.number,
                kind: work.kind,
                x: d.x,
                place: between_ribs(d.between_ribs(board.ribs.len())),
            })
        });
        let glulam = rail_wood.strips.iter().filter_map(|s| {
            let u = s.demand.as_ref()?.glulam;
            (u.value > 0.0).then(|| GlulamReport {
                strip: s.number,
                value: 1.0 / u.value,
                limit: 1.0 / u.limit,
                ratio: u.ratio,
            })
        });
        let spring = rail_wood.strips.iter().filter_map(|s| {
            let clamp = s.hardest_clamp()?;
            Some(SpringReport {
                strip: s.number,
                rib: clamp.rib,
                x: clamp.x,
                force: clamp.force,
            })
        });
        Self {
            kinds: kinds.collect(),
            worst: worst.collect(),
            glulam: glulam.reduce(|a, b| if b.ratio > a.ratio { b } else { a }),
            spring: spring.reduce(|a, b| if b.force > a.force { b } else { a }),
        }
    }

    /// Number of strips a side.
    pub fn count(&self) -> usize {
        self.kinds.iter().map(|k| k.count).sum()
    }
}
