//! The one list of findings, as screen, page, `board.json` and tables show it.

use serde::Serialize;

use super::cells::{count, maybe};
use crate::board::Board;
use crate::design::finding::{Code, Fact, Finding, Part, Place, Remedy, Severity, Topic};
use crate::design::units::Unit;
use crate::views::findings::{FindingText, part_name, plain, remedy, text};
use crate::views::table::{Cell, Column, Table};

/// A finding with its words: for readers in the maker's unit, for programs in millimetres, degrees, percent and kilograms.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct FindingReport {
    /// What it is.
    pub code: Code,
    /// How much it weighs.
    pub severity: Severity,
    /// Which part of the work it is about.
    pub topic: Topic,
    /// The part it is about.
    pub part: Part,
    /// The other part, where two meet.
    pub against: Option<Part>,
    /// Where it is, or where it is worst; lengths in mm.
    pub place: Option<Place>,
    /// The worst value, if there is one.
    pub value: Option<f64>,
    /// Its limit, or what was entered.
    pub limit: Option<f64>,
    /// Unit of both: `mm`, `degrees`, `%`, `× thickness`, `kg`, or nothing.
    pub unit: &'static str,
    /// What is wrong, in the maker's unit.
    pub headline: String,
    /// Where, and how bad at worst, in the maker's unit.
    pub extent: String,
    /// What to change, each enough by itself, the easiest first.
    pub remedies: Vec<RemedyReport>,
    /// Every place with its value, where there is more than one to name.
    pub places: Vec<SpotReport>,
    /// What else was measured; lengths in mm.
    pub facts: Vec<Fact>,
    /// The words.
    #[serde(skip)]
    pub text: FindingText,
}

/// A remedy with its words.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct RemedyReport {
    /// What to do, in the maker's unit.
    pub words: String,
    /// What is changed, in mm, and what it leaves of the limit.
    #[serde(flatten)]
    pub remedy: Remedy,
}

/// A place with the value found there.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct SpotReport {
    /// Where; lengths in mm.
    #[serde(flatten)]
    pub place: Place,
    /// The value, in the finding's unit.
    pub value: Option<f64>,
}

impl FindingReport {
    /// `finding` with its words in `unit`.
    pub fn new(finding: &Finding, unit: Unit) -> Self {
        let text = text(finding, unit);
        let number = |value: Option<f64>| value.map(|v| plain(finding.unit(), v).0);
        let some = finding.value.or(finding.limit);
        Self {
            code: finding.code,
            severity: finding.severity,
            topic: finding.code.topic(),
            part: finding.part.clone(),
            against: finding.against.clone(),
            place: finding.place,
            value: number(finding.value),
            limit: number(finding.limit),
            unit: some.map_or("", |v| plain(finding.unit(), v).1),
            headline: text.headline.clone(),
            extent: text.extent.clone(),
            remedies: finding
                .remedies
                .iter()
                .map(|r| RemedyReport {
                    words: remedy(r, unit),
                    remedy: r.clone(),
                })
                .collect(),
            places: finding
                .places
                .iter()
                .map(|spot| SpotReport {
                    place: spot.place,
                    value: number(spot.value),
                })
                .collect(),
            facts: finding.facts.clone(),
            text,
        }
    }
}

/// Every finding of `board`.
pub(super) fn findings(board: &Board) -> Vec<FindingReport> {
    let of = |finding: &Finding| FindingReport::new(finding, board.design.report);
    board.findings().iter().map(of).collect()
}

/// One row a finding.
pub(super) fn table(name: &str, findings: &[FindingReport]) -> Table {
    let columns = vec![
        Column::plain("code"),
        Column::plain("severity"),
        Column::plain("topic"),
        Column::plain("part"),
        Column::plain("what is wrong"),
        Column::plain("where"),
        super::cells::mm("from the tail"),
        super::cells::mm("off the centreline"),
        Column::measured("value", "", 3),
        Column::measured("limit", "", 3),
        Column::plain("unit"),
        Column::plain("what to change"),
    ];
    let row = |f: &FindingReport| {
        vec![
            f.code.name().into(),
            f.severity.name().into(),
            f.topic.name().into(),
            part_name(&f.part).as_str().into(),
            f.headline.as_str().into(),
            f.extent.as_str().into(),
            maybe(f.place.and_then(|p| p.x)),
            maybe(f.place.and_then(|p| p.y)),
            maybe(f.value),
            maybe(f.limit),
            f.unit.into(),
            f.text.remedies.join("; or ").as_str().into(),
        ]
    };
    Table {
        title: format!("{name}: findings"),
        columns,
        rows: findings.iter().map(row).collect(),
    }
}

/// One row a place of the findings that have several.
pub(super) fn places(name: &str, findings: &[FindingReport]) -> Table {
    let columns = vec![
        Column::plain("code"),
        Column::plain("severity"),
        Column::plain("part"),
        Column::plain("rib"),
        Column::plain("bay"),
        Column::plain("side"),
        Column::plain("course"),
        super::cells::mm("from the tail"),
        Column::measured("value", "", 3),
        Column::measured("limit", "", 3),
        Column::plain("unit"),
    ];
    let number = |n: Option<usize>| n.map_or(Cell::Empty, count);
    let rows = findings.iter().flat_map(|f| {
        f.places.iter().map(move |spot| {
            let p = spot.place;
            vec![
                f.code.name().into(),
                f.severity.name().into(),
                part_name(&f.part).as_str().into(),
                number(p.rib),
                number(p.bay),
                p.side.map_or(Cell::Empty, |side| side.name().into()),
                number(p.course),
                maybe(p.x),
                maybe(spot.value),
                maybe(f.limit),
                f.unit.into(),
            ]
        })
    });
    Table {
        title: format!("{name}: findings, place by place"),
        columns,
        rows: rows.collect(),
    }
}
