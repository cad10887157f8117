//! Parts put together: on blocks whose distances are known, and on the examples.
#![allow(clippy::unwrap_used, clippy::panic)]

use boardwright::board::Board;
use boardwright::design::parse;
use boardwright::geometry::mesh::{Mesh, PlateFrame, extrude};
use boardwright::views::dry_fit::{Bearing, ContactKind, Solid, dry_fit, measure};
use nalgebra::{Point3, Vector3};

/// A box from `low`, with sides `size`.
fn block(low: [f64; 3], size: [f64; 3]) -> Mesh {
    let frame = PlateFrame {
        origin: Point3::from(low),
        across: Vector3::x(),
        up: Vector3::y(),
        through: Vector3::z(),
    };
    let corners = [
        [0.0, 0.0],
        [size[0], 0.0],
        [size[0], size[1]],
        [0.0, size[1]],
    ];
    let outline = corners.map(|[x, y]| boardwright::geometry::path::Point::new(x, y));
    extrude("block", &outline, &[], &frame, size[2]).unwrap()
}

fn along_x(from: f64, to: f64) -> Bearing {
    Bearing {
        axis: 0,
        stretches: vec![[from, to]],
        step: 15.0,
    }
}

#[test]
fn distances_from_a_block_are_known() {
    let solid = Solid::new(&block([0.0; 3], [100.0, 40.0, 20.0])).unwrap();
    for (p, want) in [
        ([50.0, 20.0, 25.0], 5.0),
        ([50.0, 20.0, 17.0], -3.0),
        ([103.0, 44.0, 10.0], 5.0),
        ([101.0, 42.0, 22.0], 3.0),
        ([1.0, 39.0, 10.0], -1.0),
    ] {
        let p = Point3::from(p);
        let found = solid.distance(&p, 50.0).unwrap();
        assert!((found - want).abs() < 1e-12, "{p}: {found}, not {want}");
        assert_eq!(solid.encloses(&p), want < 0.0, "{p}");
    }
    assert!(
        solid
            .distance(&Point3::new(50.0, 20.0, 80.0), 5.0)
            .is_none()
    );
}

#[test]
fn blocks_apart_and_blocks_in_each_other() {
    let lower = Solid::new(&block([0.0; 3], [100.0, 40.0, 20.0])).unwrap();
    let above = Solid::new(&block([0.0, 0.0, 20.25], [100.0, 40.0, 6.0])).unwrap();
    let found = measure(&above, &lower, &along_x(1.0, 99.0));
    assert!(found.overlap.is_none());
    assert!((found.gap.unwrap().value - 0.25).abs() < 1e-12);
    // Sunk in by 0.2 mm, and once by more than half its own thickness.
    for sunk in [0.2, 4.0] {
        let above = Solid::new(&block([10.0, 5.0, 20.0 - sunk], [50.0, 30.0, 6.0])).unwrap();
        let found = measure(&above, &lower, &along_x(11.0, 59.0));
        assert!(
            (found.overlap.unwrap().value - sunk).abs() < 1e-12,
            "{found:?}"
        );
        assert_eq!(found.gap.unwrap().value, 0.0);
    }
    // A wedge of a gap: bearing at one end only is told by the step at the other.
    let mut tilted = block([0.0, 0.0, 20.0], [90.0, 40.0, 6.0]);
    for v in &mut tilted.vertices {
        v.z += 0.01 * v.x;
    }
    let found = measure(&Solid::new(&tilted).unwrap(), &lower, &along_x(0.0, 90.0));
    let gap = found.gap.unwrap();
    // The last step begins at x = 75; places are 4 mm apart.
    assert!((0.75..0.80).contains(&gap.value), "{gap:?}");
}

#[test]
fn a_mesh_with_a_hole_has_no_inside() {
    let mut open = block([0.0; 3], [10.0; 3]);
    open.triangles.pop();
    let output = Solid::new(&open).err().unwrap().to_string();
    assert!(output.contains("not a closed solid"), "{output}");
}

/// Bounds of the design: overlap at most 0.05 mm (a lip that rolls, 0.5), gaps where parts bear at most 0.3 mm.
#[test]
fn the_examples_go_together() {
    for name in ["twin-5ft8", "round-tail-6ft4", "noserider-9ft4"] {
        let text = std::fs::read_to_string(format!("examples/{name}.toml")).unwrap();
        let board = Board::new(parse(&text, name).unwrap()).unwrap();
        let fit = dry_fit(&board).unwrap();
        for contact in &fit.contacts {
            assert!(contact.holds(), "{name}: {contact:?}");
        }
        // Every rib meets both skins, the spine and a strip; every strip but the lowest stands on another.
        let count = |kind: ContactKind| {
            let of = fit.contacts.iter().filter(|c| c.kind == kind);
            of.filter(|c| c.found.gap.is_some()).count()
        };
        let ribs = board.ribs.len();
        assert_eq!(count(ContactKind::RibOnBottom), ribs);
        assert_eq!(count(ContactKind::RibUnderDeck), ribs);
        assert_eq!(count(ContactKind::RibOnSpine), ribs);
        assert!(count(ContactKind::StripOnRib) >= ribs);
        let strips = count(ContactKind::Starters)
            + count(ContactKind::FlatBase)
            + count(ContactKind::CoveOnBead);
        assert_eq!(strips, board.strips.len() - 1);
        for kind in [
            ContactKind::SpineOnBottom,
            ContactKind::SpineUnderDeck,
            ContactKind::StarterOnBottom,
            ContactKind::StripUnderDeck,
        ] {
            assert!(count(kind) > 0, "{name}: {kind:?}");
        }
    }
}

/// Overlaps are those of the whole meshes, place by place: no place that is passed over as far from its neighbour was near.
#[test]
fn what_is_passed_over_was_far() {
    let text = std::fs::read_to_string("examples/twin-5ft8.toml").unwrap();
    let board = Board::new(parse(&text, "twin-5ft8").unwrap()).unwrap();
    let fit = dry_fit(&board).unwrap();
    let solids: Vec<Solid> = fit.parts.iter().map(|p| Solid::new(p).unwrap()).collect();
    let solid = |name: &str| &solids[fit.parts.iter().position(|p| p.name == name).unwrap()];
    let mut entered = 0;
    for contact in &fit.contacts {
        let [a, b] = [0, 1].map(|i| solid(&contact.parts[i]));
        let mut deepest = 0.0_f64;
        for (from, to) in [(a, b), (b, a)] {
            let [low, high] = to.bounds();
            for p in from.samples() {
                if (0..3).any(|i| p[i] <= low[i] || p[i] >= high[i]) {
                    continue;
                }
                let depth = to.distance(p, 10.0).map_or(0.0, |d| -d);
                if depth > deepest && (depth <= 0.05 || to.encloses(p)) {
                    deepest = depth;
                }
            }
        }
        let found = contact.found.overlap.map_or(0.0, |s| s.value);
        assert_eq!(found, deepest, "{:?}", contact.parts);
        entered += usize::from(deepest > 0.0);
    }
    assert!(entered > 20, "{entered}");
}

/// A rib that is moved is found out: 1 mm up it enters the deck skin by that and leaves the bottom.
#[test]
fn a_rib_out_of_place_is_found_out() {
    let text = std::fs::read_to_string("examples/round-tail-6ft4.toml").unwrap();
    let board = Board::new(parse(&text, "round-tail-6ft4").unwrap()).unwrap();
    let fit = dry_fit(&board).unwrap();
    let part = |name: &str| fit.parts.iter().find(|p| p.name == name).unwrap();
    let mut rib = part("rib-04").clone();
    for v in &mut rib.vertices {
        v.z += 1.0;
    }
    let rib = Solid::new(&rib).unwrap();
    let across = Bearing {
        axis: 1,
        stretches: vec![[5.0, 150.0]],
        step: 15.0,
    };
    let deck = measure(&rib, &Solid::new(part("deck-skin")).unwrap(), &across);
    // The deck rises outboard at a few degrees at most.
    let deep = deck.overlap.unwrap().value;
    assert!((0.95..1.05).contains(&deep), "{deep}");
    let bottom = measure(&rib, &Solid::new(part("bottom-skin")).unwrap(), &across);
    let wide = bottom.gap.unwrap().value;
    assert!(
        bottom.overlap.is_none() && (0.95..1.05).contains(&wide),
        "{bottom:?}"
    );
}
