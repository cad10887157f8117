//! What passes a limit, and the smallest change that would serve.

use serde::Serialize;

use super::StripWork;
use super::change::{Change, Remedy};
use super::remedy::remedies;
use super::section::Again;
use super::shortage::Shortage;
use crate::design::Design;
use crate::design::units::{list, size};
use crate::rail::{Demand, Kind, Strained};
use crate::wood::stock::StockError;

/// Something that passes a limit or cannot be had.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Trouble {
    /// What is wrong, with its limit.
    pub headline: String,
    /// The way of straining, if it is one.
    pub strained: Option<Strained>,
    /// Where it is worst, mm from the tail, if it is one place.
    pub x: Option<f64>,
    /// Strain found, percent.
    pub value: Option<f64>,
    /// Its limit, percent.
    pub limit: Option<f64>,
    /// Where, and how bad at worst.
    pub extent: String,
    /// What to change, each of them enough by itself, the smallest change first.
    pub remedies: Vec<Remedy>,
    /// Numbers of the strips it is about.
    pub strips: Vec<usize>,
    /// Share of the limit used at worst, where there is one.
    pub ratio: Option<f64>,
}

/// The troubles of the strips, starters and moulded strips apart, and of the wood.
pub(super) fn troubles(
    shortage: &Shortage<'_>,
    faults: &[StockError],
    again: Again<'_>,
) -> Vec<Trouble> {
    let (design, strips) = (shortage.design, shortage.works);
    let mut found = Vec::new();
    for starters in [true, false] {
        for strained in Strained::ALL {
            let over: Vec<(&StripWork, &Demand)> = strips
                .iter()
                .filter(|s| (s.kind == Kind::Starter) == starters)
                .filter_map(|s| Some((s, s.demand_of(strained)?)))
                .filter(|(_, d)| !d.utilisation.passes())
                .collect();
            found.extend(strain(design, strained, strips, &over, again));
        }
    }
    found.extend(faults.iter().map(|fault| {
        let text = fault.to_string();
        let (headline, remedy) = text.split_once("; ").unwrap_or((&text, ""));
        Trouble {
            headline: "the wood cannot be cut".to_owned(),
            strained: None,
            x: None,
            value: None,
            limit: None,
            extent: headline.to_owned(),
            remedies: {
                let tried = shortage.remedies(fault);
                if tried.is_empty() {
                    vec![Remedy {
                        change: Change::Shop,
                        text: remedy.to_owned(),
                        ratio: None,
                        effort: 0.0,
                    }]
                } else {
                    tried
                }
            },
            strips: match fault {
                StockError::Scarf { strip, .. } => vec![*strip],
                _ => Vec::new(),
            },
            ratio: None,
        }
    }));
    found
}

fn strain(
    design: &Design,
    strained: Strained,
    works: &[StripWork],
    over: &[(&StripWork, &Demand)],
    again: Again<'_>,
) -> Option<Trouble> {
    let (work, worst) = over.iter().copied().reduce(|a, b| {
        if b.1.utilisation.ratio > a.1.utilisation.ratio {
            b
        } else {
            a
        }
    })?;
    let numbers: Vec<usize> = over.iter().map(|(s, _)| s.number).collect();
    let named = if numbers.len() == 1 {
        "strip"
    } else {
        "strips"
    };
    let u = worst.utilisation;
    let ribs = design.construction.rib_stations.len();
    let kind = if work.kind == Kind::Starter {
        "starters"
    } else {
        "strips"
    };
    Some(Trouble {
        headline: format!(
            "{kind} {} past {:.2} % strain, {}",
            match strained {
                Strained::EasyWay => "are bent the easy way",
                Strained::HardWay => "are bent the hard way",
                Strained::Twist => "are twisted",
            },
            100.0 * u.limit,
            if strained != Strained::Twist && design.timber.softening.takes(work.kind) {
                "what softened wood takes".to_owned()
            } else {
                format!(
                    "{:.0} % of what breaks {}",
                    100.0 * design.timber.working_strain,
                    design.timber.rail.name
                )
            }
        ),
        strained: Some(strained),
        x: Some(worst.x),
        value: Some(100.0 * u.value),
        limit: Some(100.0 * u.limit),
        extent: format!(
            "{named} {}, at worst {:.2} % ({:.2} of the limit) on strip {}, {} from the tail, {}",
            list(&numbers),
            100.0 * u.value,
            u.ratio,
            work.number,
            size(worst.x, design.report),
            worst.place(ribs)
        ),
        remedies: remedies(design, strained, works, over, again).unwrap_or_default(),
        strips: numbers,
        ratio: Some(u.ratio),
    })
}
