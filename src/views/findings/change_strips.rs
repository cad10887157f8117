//! Changes of strips and planks in words.

use super::numbers::{at_most, fine, tenths};
use crate::design::finding::Change;
use crate::design::timber::SOFTENED;
use crate::design::units::{Unit, hundredths, place};
use crate::design::{Softening, Strip};

/// A change of strips or planks with its numbers.
pub(super) fn strip_words(change: &Change, unit: Unit) -> Option<String> {
    Some(match change {
        Change::StripWidth(mm) => format!(
            "make the strips {} wide, with which every joint of the rail holds",
            at_most(*mm, unit)
        ),
        Change::Strip { to, now } => section(to, now, unit),
        Change::SpeciesAndStrip { wood, to, now } => {
            format!("use {wood}, and {}", section(to, now, unit))
        }
        Change::Starter(starter) => {
            let of = match starter.laminations {
                1 => String::new(),
                n => format!(", each still of {n} laminations"),
            };
            format!(
                "make the starters {} square, {} to each rail for the same wood{of}",
                at_most(starter.size, unit),
                starter.count
            )
        }
        Change::Laminations { count, plane, now } => format!(
            "bend each starter as {count} laminations of {} × {}, {}, and glue them together on the frame: {} in [construction.starter]",
            at_most(now.size / *count as f64, unit),
            tenths(now.size, unit),
            plane.words(),
            if *plane == now.lamination_plane {
                "`laminations`"
            } else {
                "`laminations` and `lamination_plane`"
            }
        ),
        Change::Species(names) => format!("use {}", names.join(", or ")),
        Change::Soften(softening) => {
            let value = match softening {
                Softening::None => "none",
                Softening::Starters => "starters",
                Softening::Strips => "strips",
                Softening::All => "all",
            };
            format!(
                "soak or steam them (`softening = \"{value}\"` in [timber]): softened wood takes about {:.1} % on its stretched side (an estimate without a source); try one first",
                100.0 * SOFTENED
            )
        }
        Change::GentlerBend { to, now } => format!(
            "draw the rail with no less than {} radius there, where it now has {}",
            place(up(1000.0 / to, unit), unit),
            place(1000.0 / now, unit)
        ),
        Change::GentlerTwist { to, now } => {
            let (metres, name) = if unit.is_metric() {
                (0.1, "100 mm")
            } else {
                (0.3048, "1 ft")
            };
            format!(
                "draw the rail so that it twists no more than {:.1}° in {name} there, where it now twists {:.1}°",
                (metres * to).to_degrees(),
                (metres * now).to_degrees()
            )
        }
        Change::ScarfStrain { to, now } => {
            format!("let scarfs nearer to the bends: `scarf_strain` {to:.2}, now {now:.2}")
        }
        Change::Stagger { to, now } => format!(
            "let scarfs of neighbouring courses nearer to each other: `stagger` {}, now {}",
            place(*to, unit),
            place(*now, unit)
        ),
        Change::PlankLength { name, to, now, .. } => format!(
            "get {name} of {}, now {}",
            place(*to, unit),
            place(*now, unit)
        ),
        Change::PlankCount { name, more, to, .. } => {
            format!("get {more} more of {name}, {to} altogether")
        }
        _ => return None,
    })
}

/// What to make of the strips: another width, or another thickness with the arcs that go with it.
fn section(to: &Strip, now: &Strip, unit: Unit) -> String {
    if to.thickness == now.thickness {
        return format!("make the strips {} wide", at_most(to.width, unit));
    }
    // A profile's sizes without idle zeros.
    let fine = |mm: f64| {
        if unit.is_metric() {
            format!("{} mm", hundredths(mm))
        } else {
            fine(mm, unit)
        }
    };
    format!(
        "make the strips {} thick, bead radius {}, cove radius {}, cove depth {}",
        at_most(to.thickness, unit),
        fine(to.bead_radius),
        fine(to.cove_radius),
        fine(to.cove_depth)
    )
}

/// `mm` taken up to a whole millimetre, or to a sixteenth of an inch.
fn up(mm: f64, unit: Unit) -> f64 {
    let step = if unit.is_metric() { 1.0 } else { 25.4 / 16.0 };
    (mm / step).ceil() * step
}
