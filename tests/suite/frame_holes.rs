//! Lightening holes of ribs and spine: webs, corners, slots, pads and areas.
#![allow(clippy::unwrap_used, clippy::panic)]

use crate::common::flat;
use crate::common::found::about;
use crate::common::wishes;
use boardwright::board::{Board, BoardError};
use boardwright::design::finding::Topic;
use boardwright::design::{Design, Holes, Pattern, parse};
use boardwright::frame::{KeepOut, Rib, lighten};
use boardwright::geometry::path::{Path, Point, Segment};
use boardwright::views::solids::frame_preview;
use flat::{distance, inside};
use proptest::prelude::*;

const EXAMPLES: [&str; 3] = ["round-tail-6ft4", "noserider-9ft4", "twin-5ft8"];

fn example(name: &str, more: &str) -> Design {
    let file = format!("examples/{name}.toml");
    let text = std::fs::read_to_string(&file).unwrap();
    parse(&format!("{text}\n{more}"), &file).unwrap_or_else(|e| panic!("{e}"))
}

/// What is asked of every hole; distances are measured on chords within 0.002 mm.
const FINE: f64 = 2e-3;
const GRACE: f64 = 0.01;

fn check_holes(
    outline: &Path,
    holes: &[Path],
    [web, bridge, corner]: [f64; 3],
) -> Result<(), String> {
    let contour = outline.flatten(FINE);
    for (i, hole) in holes.iter().enumerate() {
        let points = hole.flatten(FINE);
        if !hole.closed || hole.area() <= 0.0 {
            return Err(format!("hole {i} is open or runs clockwise"));
        }
        if let Some(p) = points.iter().find(|p| !inside(&contour, **p)) {
            return Err(format!("hole {i} leaves the part at {p}"));
        }
        let least = points
            .iter()
            .map(|p| distance(&contour, *p))
            .chain(contour.iter().map(|p| distance(&points, *p)))
            .fold(f64::INFINITY, f64::min);
        if least < web - GRACE {
            return Err(format!("hole {i}: only {least} mm of web, {web} asked"));
        }
        if let Some((p, short)) = unreached(&points, corner) {
            return Err(format!(
                "hole {i}: a cutter of radius {corner} misses {p} by {short}"
            ));
        }
        for turn in turns(hole) {
            // Neighbouring pieces are nearly tangent: no sharp inside corner.
            if turn > 0.12 {
                return Err(format!("hole {i} has a sharp corner of {turn} radians"));
            }
        }
        for (j, other) in holes.iter().enumerate().skip(i + 1) {
            let gap = apart(&points, &other.flatten(FINE));
            if gap < bridge - GRACE {
                return Err(format!(
                    "holes {i} and {j} are {gap} mm apart, {bridge} asked"
                ));
            }
        }
    }
    Ok(())
}

/// A point of a hole's contour that a disc of this radius inside the hole does not touch: at each of many points the disc's centre is
/// looked for along the normal, which short arcs may tilt a little.
fn unreached(points: &[Point], radius: f64) -> Option<(Point, f64)> {
    points.windows(2).step_by(3).find_map(|w| {
        let d = (w[1] - w[0]).normalize();
        let middle = (w[0] + w[1]) / 2.0;
        let normal = nalgebra::Vector2::new(-d.y, d.x);
        let short = (-20..=20)
            .map(|k| nalgebra::Rotation2::new(0.002 * f64::from(k)) * normal)
            .map(|n| radius - distance(points, middle + n * radius))
            .fold(f64::INFINITY, f64::min);
        (short > GRACE).then_some((middle, short))
    })
}

/// Least distance of two polylines that do not cross.
fn apart(a: &[Point], b: &[Point]) -> f64 {
    let of = |a: &[Point], b: &[Point]| {
        a.iter()
            .map(|p| distance(b, *p))
            .fold(f64::INFINITY, f64::min)
    };
    of(a, b).min(of(b, a))
}

/// Left turns between neighbouring pieces of a closed path, radians.
fn turns(path: &Path) -> Vec<f64> {
    let tangents: Vec<[nalgebra::Vector2<f64>; 2]> = path
        .pieces()
        .map(|(from, segment)| {
            let chord = segment.to() - from;
            let half = match segment {
                Segment::Arc { bulge, .. } => 2.0 * bulge.atan(),
                _ => 0.0,
            };
            [-half, half].map(|a| nalgebra::Rotation2::new(a) * chord)
        })
        .collect();
    (0..tangents.len())
        .map(|i| {
            let (a, b) = (tangents[i][1], tangents[(i + 1) % tangents.len()][0]);
            a.perp(&b).atan2(a.dot(&b))
        })
        .collect()
}

/// Distance of holes from the rail's inner faces at both faces of the rib and at its middle.
fn rail_distance(board: &Board, rib: &Rib) -> f64 {
    let half = rib.thickness / 2.0;
    let mut least = f64::INFINITY;
    for x in [rib.x - half, rib.x, rib.x + half] {
        let (stack, _) = board.rail.at(x).unwrap();
        let line: Vec<Point> = stack.inner_boundary().unwrap();
        for hole in &rib.holes {
            for p in hole.flatten(FINE) {
                least = least.min(distance(&line, Point::new(p.x.abs(), p.y)));
            }
        }
    }
    least
}

/// Air holes keep 5 mm of wood all round.
const ROUND_AIR: f64 = 5.0;

fn is_air(rule: &Holes, hole: &Path) -> bool {
    let b = hole.bounds();
    (b.width() - rule.breather).abs() < 1e-9 && (b.height() - rule.breather).abs() < 1e-9
}

/// Lightening holes by the maker's rule, air holes by theirs.
fn check_part(rule: &Holes, outline: &Path, holes: &[Path]) -> Result<(), String> {
    let (air, light): (Vec<Path>, Vec<Path>) = holes.iter().cloned().partition(|h| is_air(rule, h));
    check_holes(outline, &light, [rule.web, rule.bridge, rule.corner])?;
    check_holes(
        outline,
        &air,
        [ROUND_AIR.min(rule.web), ROUND_AIR, rule.breather / 2.0],
    )
    .map_err(|e| format!("air {e}"))
}

fn check_board(board: &Board) -> Result<(), String> {
    let rule = &board.design.construction.frame.holes;
    for rib in &board.ribs {
        let name = |e| format!("rib {}: {e}", rib.number);
        check_part(rule, &rib.outline, &rib.holes).map_err(name)?;
        let air = rib.holes.iter().any(|h| is_air(rule, h));
        let at_most = |web: f64| if air { web.min(ROUND_AIR) } else { web };
        let rail = rail_distance(board, rib);
        if rail < at_most(rule.rail_web) - GRACE {
            return Err(name(format!("{rail} mm from the rail")));
        }
        let lap = rib.slot_width / 2.0 + at_most(rule.lap_web);
        for hole in &rib.holes {
            let b = hole.bounds();
            if b.min.x.max(-b.max.x) < lap - GRACE {
                return Err(name(format!(
                    "a hole comes to {b:?}, the slot's web to {lap}"
                )));
            }
        }
        let area: f64 = rib.holes.iter().map(Path::area).sum();
        if (rib.area() + area - rib.outline.area().abs()).abs() > 1e-9 * area.max(1.0) {
            return Err(name("areas do not add up".into()));
        }
    }
    let spine = &board.spine;
    check_part(rule, &spine.outline, &spine.holes).map_err(|e| format!("spine: {e}"))?;
    for hole in &spine.holes {
        let b = hole.bounds();
        let at_most = |web: f64| {
            if is_air(rule, hole) {
                web.min(ROUND_AIR)
            } else {
                web
            }
        };
        let lap = spine.slot_width / 2.0 + at_most(rule.lap_web);
        for rib in &board.ribs {
            if (b.min.x - rib.x).max(rib.x - b.max.x) < lap - GRACE {
                return Err(format!(
                    "spine: a hole at {b:?} enters the lap of rib {}",
                    rib.number
                ));
            }
        }
        let ends = (b.min.x - spine.ends[0]).min(spine.ends[1] - b.max.x);
        if ends < at_most(rule.rail_web) - GRACE {
            return Err(format!("spine: a hole {ends} mm from its end"));
        }
    }
    Ok(())
}

/// Each part of the preview: closed, and with the volume of its face times its thickness.
fn check_solids(board: &Board) -> Result<(), String> {
    let meshes = frame_preview(board).map_err(|e| e.to_string())?;
    // Chords within 0.02 mm of the contours take no more than this off the area.
    let part = |area: f64, paths: &[Path], outline: &Path, thickness: f64| {
        let round: f64 = paths.iter().chain([outline]).map(|p| p.length(1e-3)).sum();
        [area * thickness, round * 0.02 * thickness]
    };
    let mut parts: Vec<(String, [f64; 2])> = board
        .ribs
        .iter()
        .map(|r| {
            let name = format!("rib-{:02}", r.number);
            (name, part(r.area(), &r.holes, &r.outline, r.thickness))
        })
        .collect();
    let s = &board.spine;
    parts.push((
        "spine".into(),
        part(s.area(), &s.holes, &s.outline, s.thickness),
    ));
    for (name, [want, room]) in parts {
        let mesh = meshes.iter().find(|m| m.name == name).unwrap();
        let report = mesh.check(1e-6);
        if !report.is_sound() {
            return Err(format!("{name}: {report}"));
        }
        if (mesh.volume() - want).abs() > room {
            return Err(format!("{name}: {} against {want}", mesh.volume()));
        }
    }
    Ok(())
}

#[test]
fn holes_of_the_examples_keep_every_web() {
    for name in EXAMPLES {
        let board = Board::new(example(name, "")).unwrap();
        check_board(&board).unwrap_or_else(|e| panic!("{name}, {e}"));
        check_solids(&board).unwrap_or_else(|e| panic!("{name}, {e}"));
        let middle = &board.ribs[board.ribs.len() / 2];
        assert!(middle.holes.len() >= 4, "{name}: {}", middle.holes.len());
        // At least a quarter of the middle rib goes, else the holes are not worth their cutting.
        let light = middle.area() / middle.outline.area().abs();
        assert!(light < 0.75, "{name}: {light}");
    }
}

#[test]
fn both_halves_are_alike() {
    for name in EXAMPLES {
        let board = Board::new(example(name, "")).unwrap();
        for rib in &board.ribs {
            let n = rib.holes.len();
            for (i, hole) in rib.holes.iter().enumerate() {
                let (a, b) = (hole.bounds(), rib.holes[n - 1 - i].bounds());
                assert!((a.min.x + b.max.x).abs() < 1e-9 && (a.max.y - b.max.y).abs() < 1e-9);
            }
        }
    }
}

#[test]
fn the_pattern_is_the_maker_s() {
    let of = |more: &str| Board::new(example("round-tail-6ft4", more)).unwrap();
    let none = of("[construction.holes]\npattern = \"none\"");
    assert!(none.ribs.iter().all(|r| {
        r.holes
            .iter()
            .all(|h| is_air(&none.design.construction.frame.holes, h))
    }));
    let two = of("[construction.holes]\ncount = 2");
    assert_eq!(two.ribs[3].holes.len(), 4);
    let long = of("[construction.holes]\nspan = \"300 mm\"");
    assert_eq!(long.ribs[3].holes.len(), 2);
    let wide = of("[construction.holes]\nweb = \"14 mm\"\nbridge = \"25 mm\"\ncorner = \"5 mm\"");
    check_board(&wide).unwrap();
    let round = of("[construction.holes]\npattern = \"round\"");
    assert_eq!(
        round.design.construction.frame.holes.pattern,
        Pattern::Round
    );
    check_board(&round).unwrap();
    check_solids(&round).unwrap();
    assert!(round.ribs[3].holes.len() >= 6);
    for name in EXAMPLES {
        let none = Board::new(example(name, "[construction.holes]\npattern = \"none\"")).unwrap();
        check_board(&none).unwrap();
        // One air hole in each half rib, and one in the spine, join all bays.
        assert!(none.ribs.iter().all(|r| r.holes.len() == 2));
        assert_eq!(none.spine.holes.len(), 1);
        assert_eq!(about(&none, Topic::Frame), []);
    }
    for hole in &round.ribs[3].holes {
        let across = hole.bounds().width();
        assert!((across - across.round()).abs() < 1e-9, "{across}");
    }
    // A big cutter rounds the corners more.
    let big = of("[construction.cutter]\ndiameter = \"20 mm\"");
    assert_eq!(big.design.construction.frame.holes.corner, 10.0);
    check_board(&big).unwrap();
}

#[test]
fn holes_keep_clear_of_pads() {
    let board = Board::new(example("round-tail-6ft4", "")).unwrap();
    let c = &board.design.construction;
    let rule = &c.frame.holes;
    let at = board.ribs[3].x;
    let pads = [
        KeepOut {
            x: [at - 40.0, at + 2.0],
            y: [60.0, 110.0],
        },
        KeepOut {
            x: [at + 50.0, at + 120.0],
            y: [-30.0, 30.0],
        },
    ];
    let (ribs, spine, _) =
        lighten(c, board.ribs.clone(), board.spine.clone(), &pads, None).unwrap();
    let before = &board.ribs[3];
    let after = &ribs[3];
    assert_eq!(
        ribs[2].holes, board.ribs[2].holes,
        "only the rib at the pad changes"
    );
    let port = |r: &Rib| {
        r.holes
            .iter()
            .filter(|h| h.bounds().max.x < 0.0)
            .cloned()
            .collect::<Vec<_>>()
    };
    assert_eq!(port(before), port(after), "nor the side without it");
    assert_ne!(before.holes, after.holes);
    for hole in &after.holes {
        let b = hole.bounds();
        assert!(
            b.max.x < 60.0 - rule.web + GRACE || b.min.x > 110.0 + rule.web - GRACE,
            "{b:?}"
        );
    }
    check_holes(
        &after.outline,
        &after.holes,
        [rule.web, rule.bridge, rule.corner],
    )
    .unwrap();
    for hole in &spine.holes {
        let b = hole.bounds();
        let [from, to] = pads[1].x;
        assert!(
            b.max.x < from - rule.web + GRACE || b.min.x > to + rule.web - GRACE,
            "{b:?}"
        );
    }
}

/// Glued lengths of a rib are its contour without the slot; those of the spine likewise.
#[test]
fn lands_add_up_to_the_contour() {
    for name in EXAMPLES {
        let board = Board::new(example(name, "")).unwrap();
        for rib in &board.ribs {
            let lands = (rib.lands.bottom + rib.lands.deck + rib.lands.ends) / rib.thickness;
            let slot = 2.0 * (rib.slot_top - rib.heights[0]) + rib.slot_width;
            let length = rib.outline.length(1e-6);
            // The slot's two mouths are a little higher or lower than the bottom's centre.
            assert!(
                (length - slot - lands).abs() < 0.5,
                "{name}, rib {}: {length} {slot} {lands}",
                rib.number
            );
            assert!(rib.lands.ends > 0.0 && rib.lands.bottom > 0.0);
            let width = rib.outline.bounds().width();
            assert!((rib.lands.deck / rib.thickness / width - 1.0).abs() < 0.05);
        }
        let spine = &board.spine;
        let c = &board.design.construction;
        let lands = (spine.lands.bottom + spine.lands.deck + spine.lands.ends) / c.spine;
        let is_end = |p: Point| {
            board
                .ribs
                .iter()
                .any(|r| (p.y - r.slot_top).abs() < 1e-9 && (p.x - r.x).abs() < c.rib)
        };
        let slots: f64 = spine
            .outline
            .pieces()
            .filter(|(from, s)| is_end(*from) || is_end(s.to()))
            .map(|(from, s)| (s.to() - from).norm())
            .sum();
        let length = spine.outline.length(1e-6);
        assert!(
            (length - slots - lands).abs() < 0.2,
            "{name}: {length} {slots} {lands}"
        );
    }
}

proptest! {
    #![proptest_config(ProptestConfig {
        cases: 24,
        failure_persistence: None,
        rng_seed: proptest::test_runner::RngSeed::Fixed(41),
        ..ProptestConfig::default()
    })]

    #[test]
    fn holes_of_any_design_keep_every_web(
        wish in wishes::wish(),
        web in 5.0..16.0_f64,
        // The contour holds slots and ends too, whose webs are checked apart; here they are no smaller.
        more in [0.0..15.0_f64, 0.0..15.0],
        bridge in 5.0..30.0_f64,
        corner in 3.0..14.0_f64,
        round in any::<bool>(),
    ) {
        let [rail, lap] = more.map(|m| web + m);
        let pattern = if round { "round" } else { "contour" };
        let text = format!(
            "{}\n[construction.holes]\npattern = \"{pattern}\"\nweb = {web}\nrail_web = {rail}\nlap_web = {lap}\n\
             bridge = {bridge}\ncorner = {corner}\nbreather = 7.3\n",
            wishes::text(&wish)
        );
        let design = parse(&text, "large.toml").unwrap_or_else(|e| panic!("{e}"));
        match Board::new(design) {
            Ok(board) => {
                let found = check_board(&board).and_then(|()| check_solids(&board));
                prop_assert!(found.is_ok(), "{}\n{text}", found.unwrap_err());
            }
            Err(BoardError::Frame(_)) => {}
            Err(error) => panic!("{error}"),
        }
    }
}

/// A corner of a hole is one arc of the corner's radius: small arcs that turn outward have that radius and no other, and none touches the next.
#[test]
fn a_hole_s_corner_is_one_arc() {
    for name in ["round-tail-6ft4", "noserider-9ft4", "twin-5ft8"] {
        let file = format!("examples/{name}.toml");
        let text = std::fs::read_to_string(&file).unwrap();
        let board = Board::new(parse(&text, &file).unwrap_or_else(|e| panic!("{e}"))).unwrap();
        let corner = board.design.construction.frame.holes.corner;
        let ribs = board.ribs.iter().flat_map(|r| &r.holes);
        let mut corners = 0;
        for hole in ribs
            .chain(&board.spine.holes)
            .filter(|h| h.segments.len() > 2)
        {
            let mut after_corner = false;
            for (from, segment) in hole.pieces() {
                let boardwright::geometry::path::Segment::Arc { to, bulge } = *segment else {
                    after_corner = false;
                    continue;
                };
                let radius = (to - from).norm() * (1.0 + bulge * bulge) / (4.0 * bulge.abs());
                let tight = bulge > 0.0 && radius < 2.0 * corner;
                if tight {
                    assert!((radius - corner).abs() < 0.031, "{name}: {radius}");
                    assert!(!after_corner, "{name}: a corner in pieces at {from}");
                    corners += 1;
                }
                after_corner = tight;
            }
        }
        assert!(corners > 20, "{name}: {corners}");
    }
}
