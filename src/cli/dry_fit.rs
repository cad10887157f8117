//! `boardwright dry-fit`.

use std::collections::BTreeMap;

use serde_json::json;

use super::args::DryFit;
use super::columns::{Side, columns, wrapped};
use super::failure::{Failure, WARNED};
use super::layout::{WIDTH, heading};
use super::paint::Paint;
use super::{input, print};
use crate::views::dry_fit::{Contact, ContactKind, GAP, Spot, dry_fit};

pub(super) fn run(args: &DryFit, stdout: Paint, stderr: Paint) -> Result<u8, Failure> {
    let board = input::board(&args.file, args.json, stderr)?;
    let fit = dry_fit(&board).map_err(|error| Failure::design(error.to_string()))?;
    let faults: Vec<&Contact> = fit.contacts.iter().filter(|c| !c.holds()).collect();
    if args.json {
        let parts: Vec<&str> = fit.parts.iter().map(|p| p.name.as_str()).collect();
        let value =
            json!({ "parts": parts, "contacts": fit.contacts, "past_limits": faults.len() });
        print(&format!("{value:#}\n"))?;
    } else {
        print(&screen(&fit.contacts, &faults, stdout))?;
    }
    let warned = args.strict && !faults.is_empty();
    Ok(if warned { WARNED } else { 0 })
}

fn screen(contacts: &[Contact], faults: &[&Contact], paint: Paint) -> String {
    let mut kinds: BTreeMap<ContactKind, Vec<&Contact>> = BTreeMap::new();
    for contact in contacts {
        kinds.entry(contact.kind).or_default().push(contact);
    }
    let mut text = String::new();
    heading(
        &mut text,
        paint,
        "Dry fit",
        "worst of every kind of neighbours, mm, and between which parts",
    );
    let mut rows = vec![
        ["", "pairs", "overlap", "", "gap", ""]
            .map(str::to_owned)
            .to_vec(),
    ];
    for (kind, of) in kinds {
        let [overlap, gap] =
            [|c: &Contact| c.found.overlap, |c: &Contact| c.found.gap].map(|pick| worst(&of, pick));
        rows.push(vec![
            kind.name().to_owned(),
            of.len().to_string(),
            overlap.0,
            overlap.1,
            gap.0,
            gap.1,
        ]);
    }
    let sides = [
        Side::Left,
        Side::Right,
        Side::Right,
        Side::Left,
        Side::Right,
        Side::Left,
    ];
    for line in columns(&sides, &rows) {
        text.push_str(&line);
        text.push('\n');
    }
    let told = format!(
        "Limits: overlap {} mm (a lip that rolls on a bead {} mm), gap {GAP} mm where parts bear. Bevels are not cut: a part bears on the higher edge of what \
         it is cut to. Port mirrors starboard's rail. Tips and a swallow tail's horns are shaped by hand and are not measured.",
        ContactKind::RibOnBottom.overlap_limit(),
        ContactKind::CoveOnBead.overlap_limit(),
    );
    text.push_str(&wrapped(&told, WIDTH, "  "));
    if faults.is_empty() {
        text.push_str("\n  Everything goes together.\n");
    }
    for contact in faults {
        let [a, b] = &contact.parts;
        let spot = |what: &str, spot: Option<Spot>| {
            spot.map_or(String::new(), |s| {
                format!(
                    ", {what} {:.2} mm at x {:.0}, y {:.0}, z {:.0}",
                    s.value, s.at[0], s.at[1], s.at[2]
                )
            })
        };
        let line = format!(
            "{}: {a} and {b}{}{}",
            contact.kind.name(),
            spot("overlap", contact.found.overlap),
            spot("gap", contact.found.gap)
        );
        text.push_str(&paint.yellow(&wrapped(&line, WIDTH, "  ")));
    }
    text
}

/// The greatest of a kind, and between which parts.
fn worst(of: &[&Contact], pick: fn(&Contact) -> Option<Spot>) -> (String, String) {
    let spots = of.iter().filter_map(|c| Some((pick(c)?.value, c)));
    match spots.max_by(|a, b| a.0.total_cmp(&b.0)) {
        Some((value, contact)) if value >= 0.0005 => {
            let [a, b] = &contact.parts;
            (format!("{value:.3}"), format!("{a}, {b}"))
        }
        Some(_) => ("0.000".to_owned(), String::new()),
        None => ("–".to_owned(), String::new()),
    }
}
