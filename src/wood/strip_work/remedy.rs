//! Changes that bring strips within their limits, each tried, the smallest first.

use super::StripWork;
use super::limits::limits;
use super::section::{ReSolve, Search, Size, thinnest};
use crate::design::finding::{Change, Remedy};
use crate::design::timber::{BendKind, Limits, SOFTENED, TimberError, Utilisation, find, table};
use crate::design::{Design, LaminationPlane, Starter};
use crate::rail::{Bar, CourseKind, Demand, StrainKind};

/// Species named in a remedy.
const NAMED: usize = 3;

/// The remedies for moulded strips, or starters, `over` their limit in one way of straining; never empty.
pub(super) fn remedies(
    design: &Design,
    strained: StrainKind,
    works: &[StripWork],
    over: &[(&StripWork, &Demand)],
    re_solve: ReSolve<'_>,
) -> Result<Vec<Remedy>, TimberError> {
    let starters = over.iter().any(|(s, _)| s.kind == CourseKind::Starter);
    let kind = if starters {
        CourseKind::Starter
    } else {
        CourseKind::BeadAndCove
    };
    let trial = Trial {
        kind,
        limits: limits(&design.timber, &design.timber.rail, kind)?,
        design,
        strained,
        works,
        over,
        re_solve,
    };
    let mut found = Vec::new();
    if starters {
        found.extend(trial.section(Size::Starter));
        found.extend(trial.laminations());
    } else if strained == StrainKind::HardWay {
        found.extend(trial.section(Size::Width));
    } else {
        found.extend(trial.section(Size::Thickness));
    }
    let species = trial.species();
    if found.is_empty() && species.is_none() && !starters {
        found.extend(trial.both());
    }
    found.extend(species);
    found.extend(trial.softened());
    found.extend(trial.gentler());
    found.retain(|remedy| remedy.change.serves(design));
    found.sort_by(|a, b| a.effort.total_cmp(&b.effort));
    Ok(found)
}

/// Strain at `curvature`, 1/mm, against the limit.
fn strain(
    limits: &Limits,
    strained: StrainKind,
    bar: Bar,
    curvature: f64,
) -> Result<Option<Utilisation>, TimberError> {
    Ok(match strained {
        StrainKind::EasyWay => Some(limits.bending(BendKind::EasyWay, bar.thickness, curvature)),
        StrainKind::HardWay => Some(limits.bending(BendKind::HardWay, bar.width, curvature)),
        StrainKind::Twist => limits.twisting(bar.width, bar.thickness, curvature)?,
    })
}

struct Trial<'a> {
    /// Starters, or moulded strips.
    kind: CourseKind,
    limits: Limits,
    design: &'a Design,
    strained: StrainKind,
    /// Every strip.
    works: &'a [StripWork],
    over: &'a [(&'a StripWork, &'a Demand)],
    re_solve: ReSolve<'a>,
}

impl Trial<'_> {
    /// Share of the limit used at worst by strips of section `bar`.
    fn worst(&self, bar: Bar) -> Option<f64> {
        let share = |d: &Demand| strain(&self.limits, self.strained, bar, d.curvature);
        let mut most: f64 = 0.0;
        for (_, d) in self.over {
            most = most.max(share(d).ok()??.ratio);
        }
        Some(most)
    }

    /// The greatest size below `now`, in steps of 0.1 mm, whose section passes, and the share it uses.
    fn greatest(&self, now: f64, bar: impl Fn(f64) -> Bar) -> Option<(f64, f64)> {
        let tenths = (10.0 * now - 1e-9).ceil() as i64 - 1;
        (1..=tenths).rev().find_map(|tenths| {
            let size = tenths as f64 / 10.0;
            let share = self.worst(bar(size))?;
            (share <= 1.0).then_some((size, share))
        })
    }

    /// The greatest smaller section that passes with the rail solved again.
    fn section(&self, which: Size) -> Option<Remedy> {
        let c = &self.design.construction;
        let strip = c.strip;
        let bar = |size: f64| match which {
            Size::Thickness => Bar {
                thickness: size,
                width: strip.width,
            },
            Size::Width => Bar {
                thickness: strip.thickness,
                width: size,
            },
            Size::Starter => Bar::of(Starter { size, ..c.starter }.bent()),
        };
        let now = match which {
            Size::Thickness => strip.thickness,
            Size::Width => strip.width,
            Size::Starter => c.starter.size,
        };
        let share = self.worst(bar(now))?;
        let guess = self.greatest(now, bar).map_or(0.0, |g| g.0);
        let search = Search {
            design: self.design,
            size: which,
            wood: None,
            strained: &[self.strained],
            re_solve: self.re_solve,
        };
        search.remedy(share, guess)
    }

    /// Starters of laminations that are bent one by one and glued together on the frame.
    fn laminations(&self) -> Option<Remedy> {
        let now = self.design.construction.starter;
        let plane = if self.strained == StrainKind::HardWay {
            LaminationPlane::Horizontal
        } else {
            LaminationPlane::Vertical
        };
        let of = |count: usize| Starter {
            laminations: count,
            lamination_plane: plane,
            ..now
        };
        let least = if plane == now.lamination_plane {
            now.laminations + 1
        } else {
            2
        };
        (least..)
            .map(of)
            .map_while(|starter| {
                let (count, plane) = (starter.laminations, starter.lamination_plane);
                Change::Laminations { count, plane, now }
                    .apply(self.design)
                    .map(|_| starter)
            })
            .find_map(|starter| {
                let (count, bar) = (starter.laminations, Bar::of(starter.bent()));
                let share = self.worst(bar)?;
                (share <= 1.0 && self.harmless(bar)).then(|| Remedy {
                    change: Change::Laminations { count, plane, now },
                    ratio: Some(share),
                    effort: 0.15 * count.saturating_sub(now.laminations).max(1) as f64,
                })
            })
    }

    /// Whether no starter of section `bar` passes a limit that it does not pass now by as much.
    fn harmless(&self, bar: Bar) -> bool {
        let of = self.works.iter().filter(|s| s.kind == CourseKind::Starter);
        of.flat_map(|s| &s.demand)
            .flat_map(|d| &d.demands)
            .all(|d| {
                let share = strain(&self.limits, d.strained, bar, d.curvature);
                share.is_ok_and(|share| {
                    share.is_none_or(|u| u.ratio <= d.utilisation.ratio.max(1.0))
                })
            })
    }

    /// Share of their limits that the strips use at worst in any way, in a wood with `limits` and with the depths that `bar` makes of
    /// theirs; `None` where that is not known.
    fn worst_in(&self, limits: &Limits, bar: impl Fn(Bar) -> Bar) -> Option<f64> {
        let mut most: f64 = 0.0;
        for (s, _) in self.over {
            let bar = bar(Bar::of(s.section));
            for d in s.demand.iter().flat_map(|d| &d.demands) {
                most = most.max(strain(limits, d.strained, bar, d.curvature).ok()??.ratio);
            }
        }
        Some(most)
    }

    /// Every species of the table with its limits.
    fn woods(&self) -> impl Iterator<Item = (&'static str, Limits)> {
        let (timber, kind) = (&self.design.timber, self.kind);
        table()
            .iter()
            .filter_map(move |w| Some((w.name.as_str(), limits(timber, w, kind).ok()?)))
    }

    /// Species of the table that take the strips as they are in every way, those nearest to their limit first.
    fn species(&self) -> Option<Remedy> {
        let mut able: Vec<(f64, &str)> = self
            .woods()
            .filter_map(|(name, limits)| Some((self.worst_in(&limits, |bar| bar)?, name)))
            .filter(|(share, _)| *share <= 1.0)
            .collect();
        able.sort_by(|a, b| b.0.total_cmp(&a.0).then(a.1.cmp(b.1)));
        able.truncate(NAMED);
        let share = able.first()?.0;
        let names = able.iter().map(|a| a.1.to_owned()).collect();
        Some(Remedy {
            change: Change::Species(names),
            ratio: Some(share),
            effort: 0.25,
        })
    }

    /// The species that takes the thickest strips in every way, and that thickness.
    fn both(&self) -> Option<Remedy> {
        let strip = self.design.construction.strip;
        let tenths = (10.0 * strip.thickness - 1e-9).ceil() as i64 - 1;
        let sizes = (1..=tenths).rev().map(|t| t as f64 / 10.0);
        let (thickness, _, name) = sizes.take_while(|t| *t >= thinnest()).find_map(|t| {
            self.woods()
                .filter_map(|(name, limits)| {
                    let share = self.worst_in(&limits, |bar| Bar {
                        thickness: t,
                        ..bar
                    })?;
                    (share <= 1.0).then_some((t, share, name))
                })
                .reduce(|a, b| if b.1 < a.1 { b } else { a })
        })?;
        let limits = limits(&self.design.timber, find(name).ok()?, self.kind).ok()?;
        let search = Search {
            design: self.design,
            size: Size::Thickness,
            wood: Some(name),
            strained: &StrainKind::ALL,
            re_solve: self.re_solve,
        };
        search.remedy(self.worst_in(&limits, |bar| bar)?, thickness)
    }

    /// Soaking and steaming, which help bending but are not known to help twist.
    fn softened(&self) -> Option<Remedy> {
        if self.strained == StrainKind::Twist || self.design.timber.softening.takes(self.kind) {
            return None;
        }
        let most = self.over.iter().map(|(_, d)| d.utilisation.value);
        let share = most.fold(0.0, f64::max) / SOFTENED;
        (share <= 1.0).then(|| Remedy {
            change: Change::Soften(self.design.timber.softening.and(self.kind)),
            ratio: Some(share),
            effort: 0.1,
        })
    }

    /// The bend that these strips would pass at.
    fn gentler(&self) -> Option<Remedy> {
        let (_, worst) = self.over.iter().copied().reduce(|a, b| {
            if b.1.utilisation.ratio > a.1.utilisation.ratio {
                b
            } else {
                a
            }
        })?;
        // Every strain is in proportion to its curvature.
        let now = 1000.0 * worst.curvature;
        let to = now / worst.utilisation.ratio;
        Some(Remedy {
            change: match self.strained {
                StrainKind::Twist => Change::GentlerTwist { to, now },
                _ => Change::GentlerBend { to, now },
            },
            ratio: Some(1.0),
            effort: 1.0,
        })
    }
}
