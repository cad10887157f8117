//! The dry fit: how the parts meet.

use std::collections::BTreeMap;

use super::text::fine;
use crate::board::Board;
use crate::design::units::{Unit, place};
use crate::views::document::{Block, Document, Remark, Section, Tone, unbroken};
use crate::views::dry_fit::{Contact, ContactKind, GAP, Spot};
use crate::views::table::{Cell, Quantity, Table};

/// The page of a dry fit of `board`: the worst of every kind of neighbours, and every pair past its limit.
pub fn dry_fit(board: &Board, contacts: &[Contact]) -> Document {
    let mut kinds: BTreeMap<ContactKind, Vec<&Contact>> = BTreeMap::new();
    for contact in contacts {
        kinds.entry(contact.kind).or_default().push(contact);
    }
    let unit = board.design.report;
    let table = |heading: &str, pick: fn(&Contact) -> Option<Spot>| {
        let mut table = Table::with_columns(&["", "pairs", heading, "between"]);
        for (kind, of) in &kinds {
            let mut row = vec![Cell::from(unbroken(kind.name())), of.len().into()];
            row.extend(worst(of, pick));
            table.rows.push(row);
        }
        Block::Table(table)
    };
    let tables = [
        table("overlap", |c| c.found.overlap),
        table("gap", |c| c.found.gap),
    ];
    let [overlap, lip, gap] = [
        ContactKind::RibOnBottom.overlap_limit(),
        ContactKind::CoveOnBead.overlap_limit(),
        GAP,
    ]
    .map(|mm| fine(mm, unit));
    let limits = format!(
        "Limits: overlap {overlap} (a lip that turns on a bead {lip}), gap {gap} where parts bear. Bevels are not cut: a part bears on the higher edge of what \
         it is cut to. Port mirrors starboard's rail. Tips and a swallow tail's horns are shaped by hand and are not measured."
    );
    let past = contacts.iter().filter(|c| !c.holds());
    let past: Vec<Remark> = past.map(|c| remark(c, unit)).collect();
    let verdict = if past.is_empty() {
        Block::text("Everything goes together.")
    } else {
        Block::Findings(past)
    };
    let blocks = tables.into_iter().chain([Block::small(limits), verdict]);
    Document {
        title: board.design.name.clone(),
        unit: board.design.report,
        lead: Vec::new(),
        sections: vec![
            Section::new("Dry fit", blocks.collect())
                .with_aside("the worst of every kind of neighbours, and between which parts"),
        ],
    }
}

/// A pair past its limit.
fn remark(contact: &Contact, unit: Unit) -> Remark {
    let [a, b] = &contact.parts;
    let spot = |what: &str, spot: Option<Spot>| {
        spot.map(|s| {
            let [x, y, z] = s.at.map(|mm| place(mm, unit));
            let value = Quantity::Fine(s.value).text(unit);
            format!("{what} {value} at {x} from the tail, {y} to starboard, {z} up")
        })
    };
    let found = [
        spot("overlap", contact.found.overlap),
        spot("gap", contact.found.gap),
    ];
    Remark {
        tone: Tone::Warning,
        code: None,
        headline: format!("{}: {a} and {b}", contact.kind.name()),
        extent: found.into_iter().flatten().collect::<Vec<_>>().join(", "),
        remedies: Vec::new(),
        ribs: Vec::new(),
    }
}

/// The greatest of a kind, and between which parts.
fn worst(of: &[&Contact], pick: fn(&Contact) -> Option<Spot>) -> [Cell; 2] {
    let spots = of.iter().filter_map(|c| Some((pick(c)?.value, c)));
    match spots.max_by(|a, b| a.0.total_cmp(&b.0)) {
        Some((value, contact)) if value >= 0.0005 => {
            let [a, b] = &contact.parts;
            [Quantity::Exact(value).into(), format!("{a}, {b}").into()]
        }
        Some(_) => [Quantity::Exact(0.0).into(), Cell::Empty],
        None => ["–".into(), Cell::Empty],
    }
}
