//! Fins, leash plug and vent: pads that fit, and clashes made on purpose.
#![allow(clippy::unwrap_used, clippy::panic)]

use crate::common::{descent, found};
use boardwright::board::Board;
use boardwright::design::finding::{Finding, Topic};
use boardwright::design::units::Unit;
use boardwright::design::{self, Through};
use boardwright::frame::pads::{FittingKind, PlacedFitting};
use boardwright::geometry::curve::Vector;
use boardwright::rail::slices;
use boardwright::views::findings::part_name;
use boardwright::views::solids::{lofted_solid, pad_solids};
use descent::depth_under;
use proptest::prelude::*;

const EXAMPLES: [&str; 3] = ["round-tail-6ft4", "noserider-9ft4", "twin-5ft8"];

fn text(name: &str) -> String {
    std::fs::read_to_string(format!("examples/{name}.toml")).unwrap()
}

fn board_of(text: &str) -> Board {
    Board::new(design::parse(text, "x").unwrap()).unwrap()
}

fn board(name: &str) -> Board {
    board_of(&text(name))
}

/// The round-tailed example with its `[fins]` replaced.
fn tern(fins: &str) -> Board {
    let text = text("round-tail-6ft4");
    let (before, rest) = text.split_once("[fins]\n").unwrap();
    let (_, after) = rest.split_once("[timber]").unwrap();
    board_of(&format!("{before}{fins}\n[timber]{after}"))
}

fn fitting<'a>(board: &'a Board, name: &str) -> &'a PlacedFitting {
    board
        .pads
        .fittings
        .iter()
        .find(|f| f.name == name)
        .unwrap_or_else(|| panic!("no {name}"))
}

fn clashes(board: &Board) -> Vec<Finding> {
    found::about(board, Topic::Fittings)
}

/// The names of what a finding is about, and of what it clashes with.
fn names(finding: &Finding) -> [String; 2] {
    let with = finding.against.as_ref().map_or(String::new(), part_name);
    [part_name(&finding.part), with]
}

fn clash(board: &Board, part: &str, with: &str) -> Finding {
    let found = clashes(board)
        .into_iter()
        .find(|f| names(f) == [part, with]);
    found.unwrap_or_else(|| panic!("no {part} against {with}: {:#?}", clashes(board)))
}

fn words(finding: &Finding) -> String {
    found::said(finding, Unit::Mm)
}

/// The number that a remedy names after some words.
fn number(finding: &Finding, after: &str) -> f64 {
    let words = words(finding);
    let (_, rest) = words.split_once(after).unwrap();
    rest.split(' ').next().unwrap().parse().unwrap()
}

#[test]
fn the_examples_fins_fit() {
    let all = |b: &Board| {
        b.pads
            .fittings
            .iter()
            .map(|f| f.name.clone())
            .collect::<Vec<_>>()
    };
    for (name, want) in EXAMPLES.into_iter().zip([
        vec![
            "fin-1-starboard",
            "fin-1-port",
            "fin-2",
            "leash-plug",
            "vent",
        ],
        vec!["fin-1", "leash-plug", "vent"],
        vec!["fin-1-starboard", "fin-1-port", "leash-plug", "vent"],
    ]) {
        let board = board(name);
        assert_eq!(all(&board), want, "{name}");
        assert!(clashes(&board).is_empty(), "{name}: {:#?}", clashes(&board));
    }
}

/// The usual places of a set of three (common practice, no published source).
#[test]
fn a_set_of_three_stands_at_the_usual_places() {
    let board = board("round-tail-6ft4");
    let side = fitting(&board, "fin-1-starboard");
    assert_eq!(side.from_tail, 280.0);
    let half = board.family.plan().half_width(side.middle[0]);
    assert!((half - side.middle[1] - 30.0 - side.moved).abs() < 1e-9);
    let (dx, dy) = (side.toe.cos(), -side.toe.sin());
    // The trailing end lies half a base behind the middle, further out by the toe.
    assert!((side.middle[0] - 57.5 * dx - 280.0).abs() < 1e-9 && dy < 0.0);
    let port = fitting(&board, "fin-1-port");
    assert_eq!(port.middle, [side.middle[0], -side.middle[1]]);
    assert_eq!(fitting(&board, "fin-2").middle[1], 0.0);
}

#[test]
fn pieces_are_sound_solids_of_their_volume() {
    for name in EXAMPLES {
        let board = board(name);
        let mut count = 0;
        for pad in board.pads.fittings.iter().filter_map(|f| f.pad.as_ref()) {
            for piece in &pad.pieces {
                let mesh = lofted_solid(&piece.body).unwrap();
                let report = mesh.check(0.0);
                assert!(report.is_sound(), "{name}, {}: {report}", mesh.name);
                let (got, want) = (mesh.volume(), piece.body.volume());
                assert!(
                    (got - want).abs() < 1e-3 * want,
                    "{}: {got} {want}",
                    mesh.name
                );
                assert!(piece.outline.closed && piece.outline.area() > 0.0);
                count += 1;
            }
        }
        assert_eq!(pad_solids(&board).unwrap().len(), count);
        assert!(count > 0);
    }
}

/// Half the ring's points in a plane, between two slices.
fn ring_at(slices: &[boardwright::geometry::lofted::Slice], x: f64) -> Option<Vec<Vector<2>>> {
    let w = slices.windows(2).find(|w| w[0].x <= x && x <= w[1].x)?;
    let t = (x - w[0].x) / (w[1].x - w[0].x);
    Some(
        w[0].ring
            .iter()
            .zip(&w[1].ring)
            .map(|(a, b)| a + (b - a) * t)
            .collect(),
    )
}

fn inside(polygon: &[Vector<2>], p: Vector<2>) -> bool {
    let n = polygon.len();
    (0..n)
        .filter(|&i| {
            let (a, b) = (polygon[i], polygon[(i + 1) % n]);
            (a.y > p.y) != (b.y > p.y) && p.x < a.x + (p.y - a.y) / (b.y - a.y) * (b.x - a.x)
        })
        .count()
        % 2
        == 1
}

/// No pad takes room of spine, ribs, blocks or strips; strips are asked by their exact slices in the rail's own planes.
#[test]
fn pads_leave_their_neighbours_alone() {
    for name in EXAMPLES {
        let board = board(name);
        let c = &board.design.construction;
        let mut planes = 0;
        for piece in board
            .pads
            .fittings
            .iter()
            .filter_map(|f| f.pad.as_ref())
            .flat_map(|p| &p.pieces)
        {
            let slices_of = &piece.body.slices;
            let (from, to) = (slices_of[0].x, slices_of[slices_of.len() - 1].x);
            assert!(from >= c.tail_block && to <= board.design.length - c.nose_block);
            for rib in &board.ribs {
                let half = rib.thickness / 2.0;
                assert!(
                    to <= rib.x - half + 1e-9 || from >= rib.x + half - 1e-9,
                    "{name}, rib {}",
                    rib.number
                );
            }
            for p in slices_of.iter().flat_map(|s| &s.ring) {
                assert!(p.x.abs() >= c.spine / 2.0 - 1e-9);
            }
            for stack in board
                .rail
                .stacks
                .iter()
                .filter(|s| s.x >= from && s.x <= to)
            {
                let Some(ring) = ring_at(slices_of, stack.x) else {
                    continue;
                };
                planes += 1;
                let strips: Vec<Vec<Vector<2>>> =
                    slices(stack, c).iter().map(|s| s.polygon(0.005)).collect();
                for p in &ring {
                    // 0.05 mm inside the pad's outer edge.
                    let q = Vector::<2>::new(p.x.abs() - 0.05, p.y);
                    assert!(
                        !strips.iter().any(|s| inside(s, q)),
                        "{name}, x {}: {q:?} in a strip",
                        stack.x
                    );
                }
            }
        }
        assert!(planes > 10, "{name}: {planes}");
    }
}

/// The fitted face lies a skin's thickness under the finished surface wherever the skin follows it, within the 0.05 mm of overlap
/// an assembly may have; the flat face leaves at least the thickness asked for.
#[test]
fn fitted_faces_lie_on_the_skin() {
    for name in EXAMPLES {
        let board = board(name);
        let c = &board.design.construction;
        let mut judged = 0;
        for f in &board.pads.fittings {
            let Some(pad) = &f.pad else { continue };
            let (bottom, skin) = match f.through {
                Through::Bottom => (true, c.bottom_skin),
                Through::Deck => (false, c.deck_skin),
            };
            for slice in pad
                .pieces
                .iter()
                .flat_map(|p| p.body.slices.iter().step_by(2))
            {
                // Port's rings are mirrored, so that points are told apart by height.
                let middle = slice.ring.iter().map(|p| p.y).sum::<f64>() / slice.ring.len() as f64;
                for p in slice.ring.iter().filter(|p| (p.y < middle) == bottom) {
                    let plan = board.family.plan().half_width(slice.x);
                    if p.x.abs() > plan * 0.6 {
                        continue;
                    }
                    let d = depth_under(&board, [slice.x, p.x.abs(), p.y], bottom);
                    assert!(
                        (d - skin).abs() < 0.05,
                        "{name}, {} at x {}: {p:?}, {d}",
                        f.name,
                        slice.x
                    );
                    judged += 1;
                }
                let heights = |p: &&Vector<2>| p.y;
                let low = slice
                    .ring
                    .iter()
                    .map(|p| heights(&p))
                    .fold(f64::INFINITY, f64::min);
                let high = slice
                    .ring
                    .iter()
                    .map(|p| heights(&p))
                    .fold(f64::NEG_INFINITY, f64::max);
                assert!(
                    high - low >= pad.thickness - 0.05,
                    "{name}, {}: {}",
                    f.name,
                    high - low
                );
            }
            assert!(pad.stock >= pad.thickness);
            if f.kind != FittingKind::Fin || f.middle[1] == 0.0 {
                continue;
            }
            // Beside the spine a fin's cut-outs lie wholly in its pad, blocks apart.
            let wood: Vec<Vec<Vector<2>>> = pad
                .pieces
                .iter()
                .map(|p| {
                    p.outline
                        .flatten(0.01)
                        .iter()
                        .map(|q| Vector::<2>::new(q.x, q.y))
                        .collect()
                })
                .collect();
            for q in f.shadow.iter().filter(|q| q.x > c.tail_block) {
                assert!(
                    wood.iter().any(|w| inside(w, *q)),
                    "{name}, {}: {q:?}",
                    f.name
                );
            }
        }
        assert!(judged > 50, "{name}: {judged}");
    }
}

const PLANK: &str = "name = \"plank\"\n[outline]\nlength = 2000\nwidth = 500\ntail = \"square\"\ntail_end_width = 340\n\
    tail_width = 400\n[rocker]\npoints = [[0, 0], [700, 0], [1300, 0], [2000, 0]]\n[foil]\npoints = [[0, 60], [1000, 60], [2000, 60]]\n\
    [construction]\nbottom_skin = 4\ndeck_skin = 4\nspine = 6\nrib_stations = [420, 1000, 1600]\n[plug]\nthrough = \"none\"\n[vent]\nthrough = \"none\"\n";

/// On a flat bottom a pad is a box: length × width × thickness (closed form), a centre fin's in two halves beside the spine.
#[test]
fn on_a_flat_bottom_a_pad_is_a_box() {
    let board = board_of(&format!(
        "{PLANK}[fins]\nmargin = 12\nfloor = 4\n[[fins.fin]]\nfrom_tail = 200\nbase = 100\ncut_length = 110\ncut_width = 10\n\
         cut_depth = 20\n[[fins.fin]]\nfrom_tail = 220\nfrom_centre = 90\nbase = 100\ncut_length = 110\ncut_width = 10\ncut_depth = 16\n"
    ));
    assert!(clashes(&board).is_empty(), "{:#?}", clashes(&board));
    let centre = fitting(&board, "fin-1").pad.as_ref().unwrap();
    assert_eq!(centre.pieces.len(), 2);
    assert!((centre.thickness - 20.0).abs() < 1e-9 && (centre.stock - 20.0).abs() < 1e-3);
    // 134 long; 34 wide less the spine's 6.
    let want = 134.0 * 28.0 * 20.0;
    assert!(
        (centre.volume() - want).abs() < 1e-4 * want,
        "{} {want}",
        centre.volume()
    );
    let side = fitting(&board, "fin-2-port").pad.as_ref().unwrap();
    let want = 134.0 * 34.0 * 16.0;
    assert!(
        (side.volume() - want).abs() < 1e-4 * want,
        "{} {want}",
        side.volume()
    );
    let [x, y, _] = side.pieces[0].body.centroid().unwrap();
    assert!(
        (x - 270.0).abs() < 1e-3 && (y + 90.0).abs() < 1e-3,
        "{x} {y}"
    );
}

#[test]
fn tabs_are_cut_in_a_row() {
    let board = tern(
        "[fins]\ncut = \"tabs\"\ntabs = 3\ntab_spacing = 40\ncut_length = 25\n[[fins.fin]]\nfrom_tail = 120\nbase = 115\n",
    );
    let fin = fitting(&board, "fin-1");
    let middles: Vec<f64> = fin
        .cuts
        .iter()
        .map(|c| (c.bounds().min.x + c.bounds().max.x) / 2.0)
        .collect();
    for (got, want) in middles.iter().zip([137.5, 177.5, 217.5]) {
        assert!((got - want).abs() < 1e-9, "{middles:?}");
    }
    assert!((fin.pad.as_ref().unwrap().size[0] - (80.0 + 25.0 + 24.0)).abs() < 1e-9);
    let faulty = text("round-tail-6ft4").replace(
        "set = \"three\"\n",
        "set = \"three\"\ncut = \"tabs\"\ntab_spacing = 20\n",
    );
    let error = design::parse(&faulty, "x").unwrap_err().to_string();
    assert!(error.contains("at least 33.75 mm"), "{error}");
}

/// A fin across a rib: by how much, and the smaller move clears it.
#[test]
fn a_rib_in_the_way_is_named_with_the_smallest_move() {
    let rib = board("round-tail-6ft4").ribs[1].x;
    // The cut-out, 5 mm longer than the base at either end, reaches 20 mm past the rib's face towards the tail.
    let from_tail = rib - 3.0 + 20.0 - 5.0 - 100.0;
    let fin = |x: f64| {
        tern(&format!(
            "[[fins.fin]]\nfrom_tail = {x}\nfrom_centre = 60\nbase = 100\n"
        ))
    };
    let board = fin(from_tail);
    let found = clash(&board, "fin-1-starboard", "rib 2");
    assert!((found.value.unwrap() - 20.0).abs() < 1e-6, "{found:?}");
    let place = format!("`from_tail` = {:.1} mm", from_tail - 20.0);
    assert!(
        words(&found).contains("; move it 20.0 mm towards the tail")
            && words(&found).contains(&place),
        "{found:?}"
    );
    assert!(
        words(&found).contains("move rib 2 to") && words(&found).contains("notch the rib"),
        "{found:?}"
    );
    // The pad is in two pieces, the rib between.
    assert_eq!(
        fitting(&board, "fin-1-port")
            .pad
            .as_ref()
            .unwrap()
            .pieces
            .len(),
        2
    );
    assert!(clashes(&fin(from_tail - 20.0)).is_empty());
    assert!(!clashes(&fin(from_tail - 19.0)).is_empty());
}

#[test]
fn a_fin_in_the_spine_is_moved_outboard() {
    let fin = |y: f64| {
        tern(&format!(
            "[[fins.fin]]\nfrom_tail = 300\nfrom_centre = {y}\nbase = 100\ncut_width = 12\n"
        ))
    };
    let board = fin(7.0);
    // Half the spine is 3 mm, half the cut-out 6 mm.
    let found = clash(&board, "fin-1-port", "spine");
    assert!((found.value.unwrap() - 2.0).abs() < 1e-9, "{found:?}");
    assert!(
        words(&found).contains("`from_centre` = 9.0 mm"),
        "{found:?}"
    );
    // Clear of the spine, but the pair's pads still meet nothing: the spine is between.
    assert!(clashes(&fin(9.0)).is_empty(), "{:#?}", clashes(&fin(9.0)));
}

#[test]
fn a_fin_in_the_rail_is_moved_inboard() {
    let fin = |y: f64| {
        tern(&format!(
            "[[fins.fin]]\nfrom_tail = 300\nfrom_centre = {y}\nbase = 100\n"
        ))
    };
    let board = fin(165.0);
    let found = clash(&board, "fin-1-starboard", "rail");
    assert!(found.value.unwrap() > 5.0, "{found:?}");
    let served = fin(number(&found, "`from_centre` = "));
    assert!(clashes(&served).is_empty(), "{:#?}", clashes(&served));
}

#[test]
fn a_cut_out_too_deep_says_how_deep_it_may_be() {
    let fin = |depth: f64| {
        tern(&format!(
            "[[fins.fin]]\nfrom_tail = 300\nfrom_centre = 60\nbase = 100\ncut_depth = {depth}\n"
        ))
    };
    for (depth, word) in [
        (40.0, "comes out of the deck"),
        (35.0, "into the deck skin"),
        (30.0, "leaves"),
    ] {
        let board = fin(depth);
        let found = clash(&board, "fin-1-starboard", "deck skin");
        assert!(words(&found).contains(word), "{depth}: {found:?}");
        let served = fin(number(&found, "make it "));
        assert!(clashes(&served).is_empty(), "{:#?}", clashes(&served));
    }
    // On the centreline the spine has a say too.
    let board = tern("[[fins.fin]]\nfrom_tail = 120\nbase = 100\ncut_depth = 30\n");
    clash(&board, "fin-1", "spine");
}

#[test]
fn pads_that_take_the_same_room_are_told() {
    let board = tern(
        "[[fins.fin]]\nfrom_tail = 290\nfrom_centre = 70\nbase = 100\n[[fins.fin]]\nfrom_tail = 300\nfrom_centre = 90\nbase = 100\n",
    );
    let found = clash(&board, "fin-1-starboard", "fin-2-starboard");
    // Pads are 36 mm wide, so that 20 mm apart they share 16 mm.
    assert!((found.value.unwrap() - 16.0).abs() < 0.1, "{found:?}");
    clash(&board, "fin-1-port", "fin-2-port");
    let found = clashes(&board);
    let mutual = found.iter().filter(|f| names(f)[1].starts_with("fin-"));
    assert_eq!(mutual.count(), 2);
}

#[test]
fn plug_and_vent_know_blocks_and_the_board_s_end() {
    let plain = board("round-tail-6ft4");
    // A tail block 90 mm long holds the plug in its middle; nothing else is needed.
    let plug = fitting(&plain, "leash-plug");
    assert!(plug.pad.is_none() && plug.middle == [45.0, 0.0]);
    // The vent's pad lies against the spine, in the middle of a bay.
    let vent = fitting(&plain, "vent");
    let pad = vent.pad.as_ref().unwrap();
    let near = pad.pieces[0].body.slices[0]
        .ring
        .iter()
        .map(|p| p.x)
        .fold(f64::INFINITY, f64::min);
    assert!((near - 3.0).abs() < 1e-6, "{near}");
    assert!(
        plain
            .ribs
            .iter()
            .all(|r| (r.x - vent.middle[0]).abs() > 50.0)
    );
    let with = |more: &str| board_of(&format!("{}\n{more}", text("round-tail-6ft4")));
    let blocked = with("[vent]\nfrom_tail = 50\n");
    let found = clash(&blocked, "vent", "tail block");
    assert!(words(&found).contains("towards the nose"), "{found:?}");
    let past = with("[plug]\nfrom_tail = 8\n");
    assert!((clash(&past, "leash-plug", "outline").value.unwrap() - 6.0).abs() < 0.01);
    let shallow = board_of(&format!(
        "{}\n[plug]\nfrom_tail = 5\nfrom_centre = 0\n",
        text("twin-5ft8")
    ));
    clash(&shallow, "leash-plug", "outline");
    assert!(shallow.pads.fittings.iter().all(|f| f.name != "leash-plug"));
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 12, failure_persistence: None, rng_algorithm: prop::test_runner::RngAlgorithm::ChaCha, rng_seed: prop::test_runner::RngSeed::Fixed(4), ..ProptestConfig::default() })]

    /// Fins anywhere: never a panic, every piece a sound solid, and a pad without trouble keeps its cut-out off ribs and spine.
    #[test]
    fn fins_anywhere(
        example in prop::sample::select(EXAMPLES.to_vec()),
        set in prop::sample::select(vec!["none", "single", "twin", "three", "five"]),
        place in (0.0..900.0_f64, 0.0..300.0_f64, 0.0..12.0_f64, 0.0..20.0_f64),
        cut in (40.0..200.0_f64, 4.0..30.0_f64, 5.0..50.0_f64),
        margin in 3.0..40.0_f64,
    ) {
        let text = text(example);
        let at = text.find("[fins]").or(text.find("# Upright twins")).unwrap();
        let end = at + text[at..].find("[timber]").unwrap();
        let fins = format!(
            "[fins]\nset = \"{set}\"\nmargin = \"{margin} mm\"\n[[fins.fin]]\nfrom_tail = \"{} mm\"\nfrom_centre = \"{} mm\"\ntoe = {}\ncant = {}\nbase = \"{} mm\"\ncut_width = \"{} mm\"\ncut_depth = \"{} mm\"\n\n",
            place.0, place.1, place.2, place.3, cut.0, cut.1, cut.2
        );
        let board = board_of(&format!("{}{fins}{}", &text[..at], &text[end..]));
        for f in &board.pads.fittings {
            let clean = clashes(&board).iter().all(|c| !names(c).contains(&f.name));
            for piece in f.pad.iter().flat_map(|p| &p.pieces) {
                let mesh = lofted_solid(&piece.body).unwrap();
                let report = mesh.check(0.0);
                prop_assert!(report.is_sound(), "{example}, {}: {report}", mesh.name);
            }
            if clean && f.pad.is_some() {
                let xs = f.shadow.iter().map(|p| p.x);
                let (from, to) = (xs.clone().fold(f64::INFINITY, f64::min), xs.fold(f64::NEG_INFINITY, f64::max));
                for rib in &board.ribs {
                    let half = rib.thickness / 2.0 - 0.06;
                    prop_assert!(to <= rib.x - half || from >= rib.x + half);
                }
            }
        }
        for f in clashes(&board) {
            prop_assert!(f.value.is_none_or(f64::is_finite) && !f.remedies.is_empty());
        }
    }
}
