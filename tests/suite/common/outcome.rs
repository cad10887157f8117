//! What becomes of a design file: refused with reasons, or a board whose files and fit are looked through.

use std::panic::{AssertUnwindSafe, catch_unwind};

use super::found::rail_places;
use boardwright::board::Board;
use boardwright::design::finding::{Code, Place};
use boardwright::design::{Design, parse};
use boardwright::output::{OutputOptions, files};
use boardwright::views::dry_fit::{Contact, ContactKind, Spot, dry_fit};
use boardwright::views::report::report;

/// What became of a design file.
#[derive(Debug, Clone, Default)]
pub struct Outcome {
    /// Why the parser refused it, without its numbers.
    pub faults: Vec<String>,
    /// Why it could not be built.
    pub refusal: Option<String>,
    /// Things to be warned of.
    pub findings: usize,
    /// Greatest number that is a coordinate in any mesh or drawing, and in which file.
    pub largest: (f64, String),
    /// Pairs past a limit of the dry fit, the worse the further in front.
    pub misfits: Vec<String>,
    /// What must never be: a panic, a number that is none, an open mesh, a corner far outside the board.
    pub wrongs: Vec<String>,
}

impl Outcome {
    /// Whether it became a board.
    pub fn accepted(&self) -> bool {
        self.faults.is_empty() && self.refusal.is_none()
    }

    /// In a few words without numbers, for telling failures apart; nothing if nothing is wrong.
    pub fn failure(&self) -> Option<String> {
        self.wrongs
            .first()
            .or(self.misfits.first())
            .map(|text| masked(text))
    }
}

/// Takes a design file all the way; with `fit`, to the dry fit.
pub fn outcome(text: &str, fit: bool) -> Outcome {
    let whole = catch_unwind(AssertUnwindSafe(|| followed(text, fit)));
    whole.unwrap_or_else(|cause| {
        let message = cause.downcast_ref::<String>().cloned();
        let message = message.or(cause.downcast_ref::<&str>().map(|s| (*s).to_owned()));
        Outcome {
            wrongs: vec![format!("panic: {}", message.unwrap_or_default())],
            ..Outcome::default()
        }
    })
}

fn followed(text: &str, fit: bool) -> Outcome {
    let mut seen = Outcome::default();
    let design = match parse(text, "any.toml") {
        Ok(design) => design,
        Err(faults) => {
            for fault in &faults {
                if fault.line == 0 || fault.column == 0 || fault.message.is_empty() {
                    seen.wrongs
                        .push(format!("a fault without its place: {fault}"));
                }
                if fault.remedy.trim().is_empty() {
                    seen.wrongs
                        .push(format!("a fault without its remedy: {fault}"));
                }
                seen.faults.push(masked(&fault.message));
            }
            return seen;
        }
    };
    let board = match Board::new(design.clone()) {
        Ok(board) => board,
        Err(error) => {
            let error = error.to_string();
            // What is wrong; what to do.
            if !error.contains(';') {
                seen.wrongs
                    .push(format!("a refusal without a remedy: {error}"));
            }
            seen.refusal = Some(masked(&error));
            return seen;
        }
    };
    let report = report(&board);
    seen.findings = report.warned();
    match files(&board, &report, &OutputOptions { r12: true }) {
        Err(error) => seen.wrongs.push(format!("files: {error}")),
        Ok(files) => {
            for file in &files {
                let reach = match file.path.rsplit('.').next() {
                    Some("stl") => stl(&file.bytes, &file.path, &design, &mut seen.wrongs),
                    Some("dxf") => dxf(&file.bytes),
                    _ => 0.0,
                };
                if reach > seen.largest.0 {
                    seen.largest = (reach, file.path.clone());
                }
                if !file.path.ends_with(".stl")
                    && let Some(place) = no_number(&file.bytes)
                {
                    seen.wrongs.push(format!("{} says {place}", file.path));
                }
            }
        }
    }
    if fit {
        match dry_fit(&board) {
            Err(error) => seen.wrongs.push(format!("dry fit: {error}")),
            Ok(fit) => {
                let mut past: Vec<(f64, String)> = Vec::new();
                for contact in fit.contacts.iter().filter(|c| !c.holds()) {
                    if is_warned_of(&board, contact) {
                        continue;
                    }
                    let [overlap, gap] = [contact.found.overlap, contact.found.gap]
                        .map(|s| s.map_or(0.0, |s| s.value));
                    let over = overlap > contact.kind.overlap_limit();
                    let (what, value) = if over {
                        ("overlap", overlap)
                    } else {
                        ("gap", gap)
                    };
                    let [a, b] = &contact.parts;
                    past.push((
                        value,
                        format!("{}, {what}: {a} and {b} {value:.3} mm", contact.kind.name()),
                    ));
                }
                past.sort_by(|a, b| b.0.total_cmp(&a.0));
                seen.misfits = past.into_iter().map(|p| p.1).collect();
            }
        }
    }
    seen
}

/// Whether `check` warns of what the dry fit finds: lips that dig in, and joints that open, where strips roll on each other; starters that stand
/// off the skin.
pub fn is_warned_of(board: &Board, contact: &Contact) -> bool {
    let over = |spot: Option<Spot>, limit: f64| spot.filter(|s| s.value > limit);
    let overlap = over(contact.found.overlap, contact.kind.overlap_limit());
    let gap = over(contact.found.gap, contact.kind.gap_limit());
    // The finding is of the worst place in a rib's share of the board.
    let told = |spot: Spot, code: Code| {
        let near = |place: &Place| {
            let ribs = &board.design.construction.rib_stations;
            let share = |x: f64| ribs.windows(2).filter(|r| (r[0] + r[1]) / 2.0 < x).count() + 1;
            let strip = format!("strip-{:02}-", place.course.unwrap());
            let named = contact.parts.iter().any(|part| part.starts_with(&strip));
            named && place.rib.unwrap().abs_diff(share(spot.at[0])) <= 1
        };
        rail_places(&board.quick_findings, code)
            .iter()
            .any(|(place, _)| near(place))
    };
    if let Some(spot) = overlap.or(gap)
        && breaks(board, contact, spot.at[0])
    {
        return true;
    }
    match contact.kind {
        ContactKind::CoveOnBead => {
            overlap.is_none_or(|s| told(s, Code::LipOverlap))
                && gap.is_none_or(|s| told(s, Code::JointGap))
        }
        ContactKind::StarterOnBottom => {
            overlap.is_none() && gap.is_none_or(|s| told(s, Code::OffSkin))
        }
        _ => false,
    }
}

/// Whether `check` says that one of two strips is bent or twisted there far past what breaks its wood: such a rail cannot be built as it is drawn.
fn breaks(board: &Board, contact: &Contact, x: f64) -> bool {
    // So many times the limit, which keeps a quarter back, and within a hand's breadth.
    const FAR: f64 = 3.0;
    const NEAR: f64 = 60.0;
    let course = |part: &str| part.strip_prefix("strip-")?.get(..2)?.parse::<usize>().ok();
    let [Some(a), Some(b)] = [0, 1].map(|i| course(&contact.parts[i])) else {
        return false;
    };
    let works = board
        .rail_wood
        .strips
        .iter()
        .filter(|w| [a, b].contains(&(w.course)));
    let mut demands = works
        .filter_map(|w| w.demand.as_ref())
        .flat_map(|d| &d.demands);
    demands.any(|d| d.utilisation.ratio > FAR && (d.x - x).abs() < NEAR)
}

/// A text with its numbers, quoted names and part numbers masked, so that like ones compare equal.
pub fn masked(text: &str) -> String {
    let mut out = String::new();
    for c in text.chars() {
        match c {
            '0'..='9' if out.ends_with('#') => {}
            '.' if out.ends_with('#') => {}
            '0'..='9' => out.push('#'),
            c => out.push(c),
        }
    }
    out
}

/// How far a corner may stand outside the board's box, mm: the skins' overhang, blocks before they are shaped, strips before planing.
const AROUND: f64 = 60.0;

/// The farthest coordinate of a binary STL, whose triangles must be closed among themselves and in the board's box.
fn stl(bytes: &[u8], path: &str, design: &Design, wrongs: &mut Vec<String>) -> f64 {
    let corner = |at: usize| {
        [0, 4, 8].map(|k| f32::from_le_bytes(bytes[at + k..at + k + 4].try_into().unwrap()))
    };
    let count = u32::from_le_bytes(bytes[80..84].try_into().unwrap()) as usize;
    assert_eq!(bytes.len(), 84 + 50 * count);
    let mut edges: Vec<([[u32; 3]; 2], i32)> = Vec::with_capacity(3 * count);
    let (mut low, mut high) = ([f32::INFINITY; 3], [f32::NEG_INFINITY; 3]);
    for i in 0..count {
        let corners = [12, 24, 36].map(|k| corner(84 + 50 * i + k));
        for k in 0..3 {
            let [a, b] = [corners[k], corners[(k + 1) % 3]].map(|c| c.map(|v| (v + 0.0).to_bits()));
            edges.push(if a < b { ([a, b], 1) } else { ([b, a], -1) });
            for axis in 0..3 {
                low[axis] = low[axis].min(corners[k][axis]);
                high[axis] = high[axis].max(corners[k][axis]);
            }
            if corners[k].iter().any(|v| !v.is_finite()) {
                wrongs.push(format!("{path} has a corner that is not finite"));
                return f64::INFINITY;
            }
        }
    }
    edges.sort_unstable();
    let mut open = 0;
    for same in edges.chunk_by(|a, b| a.0 == b.0) {
        open += usize::from(same.iter().map(|e| e.1).sum::<i32>() != 0);
    }
    if open > 0 {
        wrongs.push(format!("{path} has {open} open edges"));
    }
    let bed = if path.contains("bed") {
        design.bed.base_height
    } else {
        0.0
    };
    // Half the greatest width that can be written, and the greatest height.
    let room = [design.length, 450.0, 600.0 + bed].map(|r| r + AROUND);
    for axis in 0..3 {
        let least = if axis == 0 { -AROUND } else { -room[axis] };
        if f64::from(low[axis]) < least || f64::from(high[axis]) > room[axis] {
            wrongs.push(format!("{path} reaches from {low:?} to {high:?}"));
            break;
        }
    }
    let all = low.iter().chain(&high);
    all.fold(0.0, |far, v| f64::from(v.abs()).max(far))
}

/// The farthest coordinate of a DXF's entities: group codes 10 to 39 of lines after `ENTITIES`.
fn dxf(bytes: &[u8]) -> f64 {
    let text = String::from_utf8_lossy(bytes);
    let entities = text.split("ENTITIES").nth(1).unwrap_or_default();
    let lines: Vec<&str> = entities.lines().skip(1).map(str::trim).collect();
    let pairs = lines.chunks_exact(2).filter_map(|pair| {
        let code: u32 = pair[0].parse().ok()?;
        let value: f64 = pair[1].parse().ok()?;
        (10..40).contains(&code).then_some(value.abs())
    });
    pairs.fold(0.0, f64::max)
}

/// The first word of a text that is a number's name for none.
fn no_number(bytes: &[u8]) -> Option<String> {
    let word = |w: &&[u8]| matches!(*w, b"NaN" | b"inf" | b"Infinity" | b"infinity" | b"-inf");
    let mut words = bytes.split(|b| !b.is_ascii_alphabetic());
    let found = words.find(word)?;
    Some(String::from_utf8_lossy(found).into_owned())
}
