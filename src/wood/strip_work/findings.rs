//! What passes a limit or cannot be had, with the smallest change that would serve.

use super::StripWork;
use super::remedy::remedies;
use super::section::ReSolve;
use super::shortage::Shortage;
use crate::design::Design;
use crate::design::finding::{Change, Code, Fact, Finding, Part, Place};
use crate::design::timber::{Utilisation, twist_strain};
use crate::rail::{CourseKind, Demand, StrainKind, Strip};
use crate::wood::stock::StockError;

/// Strips past their limits, starters and moulded strips apart, and wood that cannot be had.
pub(super) fn strip_findings(
    shortage: &Shortage<'_>,
    faults: &[StockError],
    re_solve: ReSolve<'_>,
) -> Vec<Finding> {
    let (design, strips) = (shortage.design, shortage.works);
    let mut found = Vec::new();
    for starters in [true, false] {
        for strained in StrainKind::ALL {
            let over: Vec<(&StripWork, &Demand)> = strips
                .iter()
                .filter(|s| (s.kind == CourseKind::Starter) == starters)
                .filter_map(|s| Some((s, s.demand_of(strained)?)))
                .filter(|(_, d)| !d.utilisation.passes())
                .collect();
            found.extend(strain(design, strained, strips, &over, re_solve));
        }
    }
    found.extend(faults.iter().map(|fault| {
        let (finding, changes) = shortfall(fault);
        let tried = shortage.remedies(fault);
        if tried.is_empty() {
            finding.remedies(changes)
        } else {
            Finding {
                remedies: tried,
                ..finding
            }
        }
    }));
    found
}

/// The code of one way of straining.
fn code(strained: StrainKind) -> Code {
    match strained {
        StrainKind::EasyWay => Code::BendEasyWay,
        StrainKind::HardWay => Code::BendHardWay,
        StrainKind::Twist => Code::Twist,
    }
}

fn strain(
    design: &Design,
    strained: StrainKind,
    works: &[StripWork],
    over: &[(&StripWork, &Demand)],
    re_solve: ReSolve<'_>,
) -> Option<Finding> {
    let (work, worst) = over.iter().copied().reduce(|a, b| {
        if b.1.utilisation.ratio > a.1.utilisation.ratio {
            b
        } else {
            a
        }
    })?;
    let numbers: Vec<usize> = over.iter().map(|(s, _)| s.number).collect();
    let part = if work.kind == CourseKind::Starter {
        Part::Starters(numbers)
    } else {
        Part::Strips(numbers)
    };
    let Utilisation {
        value,
        limit,
        ratio,
        ..
    } = worst.utilisation;
    let place = Place {
        strip: Some(work.number),
        between: Some(worst.between_ribs(design.construction.rib_stations.len())),
        ..Place::at(worst.x)
    };
    let timber = &design.timber;
    let softened = strained != StrainKind::Twist && timber.softening.takes(work.kind);
    let held = if softened {
        Fact::Softened
    } else {
        Fact::Working(timber.working_strain)
    };
    Some(Finding {
        remedies: remedies(design, strained, works, over, re_solve).unwrap_or_default(),
        ..Finding::new(code(strained), part)
            .at(place)
            .measured(value, limit)
            .fact(held)
            .fact(Fact::Wood(timber.rail.name.clone()))
            .fact(Fact::Used(ratio))
            .error_if(!softened && ratio * timber.working_strain > 1.0)
    })
}

/// What keeps strips from being cut, and what to change where nothing was tried.
fn shortfall(fault: &StockError) -> (Finding, Vec<Change>) {
    let of = |code| Finding::new(code, Part::Planks);
    match fault {
        StockError::NoPlanks => (of(Code::PlanksMissing), vec![Change::NamePlank]),
        StockError::TooSmall {
            profile,
            thickness,
            width,
        } => (
            of(Code::PlankTooSmall)
                .fact(Fact::Profile(profile))
                .fact(Fact::Blank([*thickness, *width])),
            vec![Change::LargerPlank, Change::SmallerAllowances],
        ),
        StockError::Scarf {
            strip,
            length,
            piece,
            stagger,
        } => (
            Finding::new(Code::ScarfNoRoom, Part::Strips(vec![*strip]))
                .measured(*length, *piece)
                .fact(Fact::LongestPiece(*piece))
                .fact(Fact::Stagger(*stagger)),
            vec![Change::LongerPlanks, Change::MoreScarfRoom],
        ),
        StockError::NotEnough { length } => (
            Finding {
                value: Some(*length),
                ..of(Code::PlanksTooFew)
            },
            vec![Change::MorePlanks],
        ),
        StockError::Unfinished => (
            of(Code::PlanUnfinished),
            vec![Change::FewerPlankSizes, Change::LongerPlanks],
        ),
        StockError::Value {
            what,
            value,
            least,
            greatest,
        } => {
            let name = what.strip_suffix(", mm");
            let figure = Fact::Figure {
                name: name.unwrap_or(what).to_owned(),
                value: *value,
                range: [*least, *greatest],
                length: name.is_some(),
            };
            (
                of(Code::ShopFigures).fact(figure),
                vec![Change::FigureInRange],
            )
        }
        StockError::Timber(_) => (of(Code::ShopFigures), vec![Change::WoodFigures]),
        StockError::Lengths(_) => (of(Code::ShopFigures), vec![Change::FewerPlankSizes]),
    }
}

/// Strips that nothing judges, and strips whose twist is compared with nothing, since their wood has no shear strength with a source.
pub fn unjudged(design: &Design, works: &[StripWork], strips: &[Strip]) -> Vec<Finding> {
    let wood = Fact::Wood(design.timber.rail.name.clone());
    let silent = works.iter().filter(|w| w.demand.is_none());
    let silent: Vec<usize> = silent.map(|w| w.number).collect();
    let bend = (!silent.is_empty()).then(|| {
        Finding::new(Code::BendUnjudged, Part::Strips(silent))
            .fact(wood.clone())
            .remedies([Change::TryOffcut, Change::WoodFigures])
    });
    let strains = works
        .iter()
        .zip(strips)
        .filter(|(w, _)| w.demand.is_some() && w.demand_of(StrainKind::Twist).is_none())
        .filter_map(|(w, strip)| {
            let (rate, place) = strip.worst(|p| p.bend.twist.abs())?;
            let [thickness, width] = w.section;
            let strain = twist_strain(width, thickness, rate).ok()?;
            Some((w.number, strain, place.x))
        });
    let twist = strains
        .max_by(|a, b| a.1.total_cmp(&b.1))
        .map(|(strip, strain, x)| {
            let place = Place {
                strip: Some(strip),
                ..Place::at(x)
            };
            Finding {
                value: Some(strain),
                ..Finding::new(Code::TwistUnjudged, Part::Strips(vec![strip]))
                    .at(place)
                    .fact(wood)
                    .remedies([Change::TryOffcut, Change::ShearStrength])
            }
        });
    bend.into_iter().chain(twist).collect()
}
