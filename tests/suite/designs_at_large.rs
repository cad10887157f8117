//! Plausible designs of every kind: each lofts to a closed shell that is its design, or says why not.

#![allow(clippy::unwrap_used, clippy::panic)]

use crate::common::found::rail_places;
use crate::common::outcome::is_warned_of;
use crate::common::wishes;
use boardwright::board::{Board, BoardError};
use boardwright::design::finding::Code;
use boardwright::design::parse;
use boardwright::geometry::curve::Vector;
use boardwright::views::dry_fit::dry_fit;
use boardwright::views::solids::{
    bed_solids, block_solids, pad_solids, planed_strips, shell_mesh, strip_solids,
};
use proptest::prelude::*;
use wishes::{text, wish};

/// How many designs are drawn: as many as the environment says for a long run.
fn designs() -> u32 {
    std::env::var("BOARDWRIGHT_DESIGNS").map_or(16, |n| n.parse().unwrap())
}

proptest! {
    // The same designs in every run, so that a failure points at the change that caused it.
    #![proptest_config(ProptestConfig {
        cases: designs(),
        failure_persistence: None,
        rng_seed: proptest::test_runner::RngSeed::Fixed(20),
        ..ProptestConfig::default()
    })]

    #[test]
    fn a_plausible_design_becomes_its_board(wish in wish()) {
        let text = text(&wish);
        let design = parse(&text, "large.toml").unwrap_or_else(|faults| panic!("{faults}\n{text}"));
        let board = match Board::new(design) {
            Ok(board) => board,
            // A frame may not fit; a shape that can be described must loft.
            Err(BoardError::Frame(error)) => {
                prop_assert!(error.to_string().contains(';'), "no remedy: {error}");
                return Ok(());
            }
            Err(error) => panic!("{error}\n{text}"),
        };
        let m = &board.measures;
        prop_assert!((m.length - wish.length).abs() < 0.06);
        prop_assert!((m.nose_width - wish.width * wish.nose_share).abs() < 0.11, "{}", m.nose_width);
        prop_assert!((m.tail_width - wish.width * wish.tail_share).abs() < 0.11, "{}", m.tail_width);
        prop_assert!((m.centre_thickness - wish.thickness).abs() < 0.06, "{}", m.centre_thickness);
        prop_assert!((m.nose_rocker - wish.rocker[0]).abs() < 0.06);
        prop_assert!((m.tail_rocker - wish.rocker[1]).abs() < 0.06);
        sound(&board, &text)?;
    }
}

/// The designs in a folder of fixtures, each of which some part once refused or did not fit.
#[test]
fn what_once_broke_a_part_is_made_and_fits() {
    let paths = std::fs::read_dir("tests/fixtures/at_large").unwrap();
    let mut paths: Vec<_> = paths.map(|entry| entry.unwrap().path()).collect();
    paths.sort();
    // None goes missing.
    assert!(paths.len() >= 15, "{paths:?}");
    for path in paths {
        let text = std::fs::read_to_string(&path).unwrap();
        let board = Board::new(parse(&text, "x").unwrap()).unwrap();
        sound(&board, &text).unwrap_or_else(|e| panic!("{}: {e}", path.display()));
        let fit = dry_fit(&board).unwrap_or_else(|e| panic!("{}: {e}", path.display()));
        for contact in fit.contacts {
            // A lip that digs in, or a joint that opens, is a matter of the strip's width, and the report says so.
            let holds = contact.holds() || is_warned_of(&board, &contact);
            assert!(holds, "{}: {contact:?}", path.display());
        }
    }
}

proptest! {
    #![proptest_config(ProptestConfig {
        cases: 12,
        failure_persistence: None,
        rng_seed: proptest::test_runner::RngSeed::Fixed(9),
        ..ProptestConfig::default()
    })]

    /// Starters of any size, one on the other, on any base: no corner of a strip is farther from the board than the strip is big.
    #[test]
    fn however_a_base_turns_its_corners_stay_near(
        size in 8.0..20.0_f64, count in 1..4_usize, tuck in 8.0..30.0_f64, apex in 0.25..0.45_f64, centre in 52.0..80.0_f64,
        contour in prop::sample::select(vec!["concave", "vee", "roll", "double-concave"]), depth in 2.0..6.0_f64,
    ) {
        let text = format!(
            "name = \"steep\"\n[outline]\nlength = 1950\nwidth = 527\n[foil]\ncentre = {centre:.2}\n\
             [[section]]\nat = 587\ncontour = \"{contour}\"\ncontour_depth = {depth:.2}\ntuck = {tuck:.2}\n\
             [[section]]\nat = 1564\ncontour = \"roll\"\ncontour_depth = 3\napex = {apex:.3}\n\
             [construction.starter]\nsize = {size:.2}\ncount = {count}\narrangement = \"stacked\"\n"
        );
        let Ok(design) = parse(&text, "x") else { return Ok(()) };
        let Ok(board) = Board::new(design) else { return Ok(()) };
        let (_, high) = shell_mesh(&board.shell, 1.0).unwrap().bounds().unwrap();
        for mesh in strip_solids(&board).unwrap() {
            for p in &mesh.vertices {
                let reach = 3.0 * size.max(13.0);
                prop_assert!(p.y.abs() < high.y + reach && p.z > -reach && p.z < high.z + reach, "{}: {p}\n{text}", mesh.name);
            }
        }
        for course in board.rail.stacks.iter().flat_map(|s| &s.courses) {
            prop_assert!(course.bevel().abs() < 60.01_f64.to_radians(), "{}\n{text}", course.bevel().to_degrees());
        }
    }
}

/// Meshes that pass the gate, drawings that pass their check, a rail that has settled, and margins held or warned of.
fn sound(board: &Board, text: &str) -> Result<(), TestCaseError> {
    // Near the point of a swallow's tip triangles are honestly small; zero is what rounding leaves of 3 m, with room to spare.
    let mesh = shell_mesh(&board.shell, 0.5).unwrap();
    let report = mesh.check(1e-8);
    prop_assert!(report.is_sound(), "{report}\n{text}");
    // The gate after rounding to 32 bits, which every file passes.
    let written = boardwright::output::export::stl::write(&[mesh], "at large");
    prop_assert!(written.is_ok(), "{:?}\n{text}", written.err());
    // Blocks, pads and bed are solids that pass the same gate, or named as missing.
    for parts in [block_solids(board), pad_solids(board), bed_solids(board)] {
        let parts = parts.unwrap_or_else(|e| panic!("{e}\n{text}"));
        if !parts.is_empty() {
            let written = boardwright::output::export::stl::write(&parts, "at large");
            prop_assert!(written.is_ok(), "{:?}\n{text}", written.err());
        }
    }
    // Strips keep clear of both skins once they are planed for them, thin as the lips may be that are left of a top one.
    for mesh in planed_strips(board).unwrap().iter().flatten() {
        for p in &mesh.vertices {
            let (stack, _) = board.rail.at(p.x).unwrap();
            let place = Vector::from([p.y, p.z]);
            let inside = stack.faces.each_ref().map(|face| face.inside(&place));
            prop_assert!(
                inside.iter().all(|d| *d > -1e-4),
                "{} at {p}: {inside:?}\n{text}",
                mesh.name
            );
        }
    }
    let missing = |f: &&boardwright::design::finding::Finding| f.code == Code::BlockMissing;
    let room = board.quick_findings.iter().filter(missing).count();
    prop_assert_eq!(board.blocks.len() + room, 2);
    for block in &board.blocks {
        prop_assert!(block.volume() > 0.0 && block.rough_volume() > block.volume());
    }
    for sheet in boardwright::views::sheets::sheets(board).unwrap() {
        prop_assert!(
            sheet.drawing.check().is_empty(),
            "{}: {:?}\n{text}",
            sheet.name,
            sheet.drawing.check()
        );
    }
    prop_assert!(
        board.rail.convergence.movement.by < 1e-2,
        "{:?}",
        board.rail.convergence
    );
    // Cover and proud never below what was asked, anywhere, or a warning names the rib.
    let c = &board.design.construction;
    let named = |x: f64, code| {
        let near = |place: boardwright::design::finding::Place| {
            let off = |x: f64, rib: f64| (x - rib).abs();
            let rib = c.rib_stations[place.rib.unwrap() - 1];
            c.rib_stations
                .iter()
                .all(|r| off(x, rib) <= off(x, *r) + 1e-9)
        };
        rail_places(&board.quick_findings, code)
            .iter()
            .any(|(place, _)| near(*place))
    };
    for (stack, margins) in board.rail.stacks.iter().zip(&board.rail.margins) {
        let Some(margins) = margins else { continue };
        prop_assert!(margins.cover.least >= c.cover - 1e-3 || named(stack.x, Code::WoodBehindRail));
        prop_assert!(
            margins.proud.least >= c.proud - 1e-3 || named(stack.x, Code::PlaningAllowance)
        );
    }
    Ok(())
}
