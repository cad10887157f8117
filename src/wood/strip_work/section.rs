//! Sections tried against a limit, the rail solved again with each: a thinner or narrower strip lies, and bends, a little differently.

use super::StripWork;
use crate::design::finding::{Change, Remedy};
use crate::design::{Design, Starter, Strip, key_range};
use crate::rail::{self, CourseKind, StrainKind};

/// The rail's strips for a design that differs from the board's in its strips, starters or wood alone; nothing where it cannot be laid.
pub type ReSolve<'a> = &'a dyn Fn(&Design) -> Option<Vec<rail::Strip>>;

/// Most solutions a search takes.
const SOLUTIONS: usize = 7;
/// How far, as a ratio, the size sought may lie from the one that would pass with the bends as they are.
const FAR: f64 = 1.25;

/// Thinnest strip that a design takes, mm.
pub(super) fn thinnest() -> f64 {
    key_range("construction.strip", "thickness").map_or(f64::INFINITY, |[least, _]| least)
}

/// A size that is made less.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Size {
    /// Thickness of the moulded strips.
    Thickness,
    /// Their width.
    Width,
    /// The starters' side.
    Starter,
}

/// A search for the greatest size that passes.
pub(super) struct Search<'a> {
    pub design: &'a Design,
    /// Which size.
    pub size: Size,
    /// A species that is changed to besides.
    pub wood: Option<&'a str>,
    /// The ways of straining that must pass.
    pub strained: &'a [StrainKind],
    pub re_solve: ReSolve<'a>,
}

impl Search<'_> {
    fn now(&self) -> f64 {
        let c = &self.design.construction;
        match self.size {
            Size::Thickness => c.strip.thickness,
            Size::Width => c.strip.width,
            Size::Starter => c.starter.size,
        }
    }

    /// The least size that the design file takes.
    fn least(&self) -> f64 {
        let c = &self.design.construction;
        match self.size {
            Size::Thickness => thinnest(),
            Size::Width => c.strip.least_width(),
            // They must carry the strips, and their laminations be sawn.
            Size::Starter => f64::max(
                c.strip.thickness,
                Starter::THINNEST * c.starter.laminations as f64,
            ),
        }
    }

    /// The remedy with the greatest size, in steps of 0.1 mm, that passes; `share` is what is used of the limit at worst now, `guess`
    /// the size that would pass with the bends as they are, from which to search.
    ///
    /// The share rises with the size, so two sizes close in on where it is 1; with too few solutions to close in by a single step, the
    /// greatest that was seen to pass is given.
    pub fn remedy(&self, share: f64, guess: f64) -> Option<Remedy> {
        let least = (10.0 * self.least() - 1e-6).ceil() as i64;
        let now = (10.0 * self.now() - 1e-6).ceil() as i64;
        // Bends change by a tenth or two at most: what is further off is not tried.
        if 10.0 * guess * FAR < least as f64 {
            return None;
        }
        let (mut high, mut low) = ((now, share), None::<(i64, f64)>);
        let mut next = ((10.0 * guess).floor() as i64).clamp(least, (now - 1).max(least));
        for _ in 0..SOLUTIONS {
            if next < least || next >= high.0 {
                break;
            }
            let found = self.share(next as f64 / 10.0)?;
            if found <= 1.0 {
                low = Some((next, found));
            } else {
                high = (next, found);
            }
            next = match low {
                None if high.0 <= least => break,
                // Strains are about in proportion to the size.
                None => ((high.0 as f64 / high.1).floor() as i64).clamp(least, high.0 - 1),
                Some(low) if high.0 - low.0 <= 1 => break,
                Some(low) => {
                    let part = (1.0 - low.1) / (high.1 - low.1);
                    let at = low.0 as f64 + part * (high.0 - low.0) as f64;
                    (at.floor() as i64).clamp(low.0 + 1, high.0 - 1)
                }
            };
        }
        let (tenths, share) = low?;
        let size = tenths as f64 / 10.0;
        let change = self.change(size)?;
        let effort = 1.0 - size / self.now();
        Some(Remedy {
            change,
            ratio: Some(share),
            effort: effort + if self.wood.is_some() { 0.25 } else { 0.0 },
        })
    }

    /// Share of the limits used at worst with this size; `None` where the rail cannot be laid so, or the wood's figures do not say.
    fn share(&self, size: f64) -> Option<f64> {
        let design = self.change(size)?.apply(self.design)?;
        let strips = (self.re_solve)(&design)?;
        let mut most: f64 = 0.0;
        for (i, strip) in strips.iter().enumerate() {
            if (strip.kind == CourseKind::Starter) == (self.size == Size::Starter) {
                let work = StripWork::new(&design, strip, i + 1);
                for strained in self.strained {
                    most = most.max(work.demand_of(*strained)?.utilisation.ratio);
                }
            }
        }
        Some(most)
    }

    /// What is changed.
    fn change(&self, size: f64) -> Option<Change> {
        let c = &self.design.construction;
        let to = match self.size {
            Size::Thickness => thinned(&c.strip, size),
            Size::Width => Strip {
                width: size,
                ..c.strip
            },
            Size::Starter => {
                let wood = c.starter.size * c.starter.count as f64;
                let count = (wood / size - 1e-9).ceil() as usize;
                return Some(Change::Starter(Starter {
                    size,
                    count,
                    ..c.starter
                }));
            }
        };
        let now = c.strip;
        Some(match self.wood {
            Some(wood) => Change::SpeciesAndStrip {
                wood: wood.to_owned(),
                to,
                now,
            },
            None => Change::Strip { to, now },
        })
    }
}

/// `strip` at another thickness: its arcs keep their proportion to it.
pub(super) fn thinned(strip: &Strip, thickness: f64) -> Strip {
    let scale = thickness / strip.thickness;
    Strip {
        thickness,
        width: strip.width,
        bead_radius: strip.bead_radius * scale,
        cove_radius: strip.cove_radius * scale,
        cove_depth: strip.cove_depth * scale,
    }
}
