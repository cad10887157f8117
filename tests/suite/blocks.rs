//! End blocks: their room, their fit against spine, skins and strips, their layers.
#![allow(clippy::unwrap_used, clippy::panic)]

use crate::common::descent;
use crate::common::solids as closed;
use boardwright::board::Board;
use boardwright::design::{self, Design};
use boardwright::frame::blocks::{Block, BoardEnd, blocks};
use boardwright::geometry::curve::Vector;
use boardwright::geometry::lofted::Slice;
use boardwright::geometry::path::Point;
use boardwright::geometry::polygon;
use boardwright::shape::{DEFAULT_TOLERANCE, loft};
use boardwright::views::solids::{block_solids, lofted_solid, strip_solids};
use closed::Superellipsoid;
use descent::depth_under;

const EXAMPLES: [&str; 3] = ["round-tail-6ft4", "noserider-9ft4", "twin-5ft8"];

fn board(name: &str) -> Board {
    let text = std::fs::read_to_string(format!("examples/{name}.toml")).unwrap();
    Board::new(design::parse(&text, name).unwrap()).unwrap()
}

fn face_slice(block: &Block) -> &Slice {
    let slices = block.bodies.iter().flat_map(|b| &b.slices);
    slices
        .min_by(|a, b| {
            (a.x - block.face)
                .abs()
                .total_cmp(&(b.x - block.face).abs())
        })
        .unwrap()
}

#[test]
fn every_body_is_a_sound_solid_of_its_volume() {
    for name in EXAMPLES {
        let board = board(name);
        assert_eq!(board.blocks.len(), 2, "{name}");
        for body in board.blocks.iter().flat_map(|b| &b.bodies) {
            let mesh = lofted_solid(body).unwrap();
            let report = mesh.check(0.0);
            assert!(report.is_sound(), "{name}, {}: {report}", body.name);
            let (got, want) = (mesh.volume(), body.volume());
            assert!(
                (got - want).abs() < 1e-3 * want,
                "{name}, {}: {got} {want}",
                body.name
            );
        }
        assert_eq!(
            block_solids(&board).unwrap().len(),
            if name == "twin-5ft8" { 4 } else { 2 }
        );
    }
}

/// Spine and strips end on the block's face: the same plane, and the strips' ends, cut to the finished surface, lie on it.
#[test]
fn spine_and_strips_butt_on_the_faces() {
    for name in EXAMPLES {
        let board = board(name);
        let strips = strip_solids(&board).unwrap();
        for block in &board.blocks {
            let face = face_slice(block);
            assert!((face.x - block.face).abs() < 1e-9);
            let end = match block.which {
                BoardEnd::Tail => board.spine.ends[0],
                BoardEnd::Nose => board.spine.ends[1],
            };
            assert!((block.face - end).abs() < 0.005, "{name}: {end}");
            let reach = strips
                .iter()
                .flat_map(|m| &m.vertices)
                .map(|p| match block.which {
                    BoardEnd::Tail => p.x - block.face,
                    BoardEnd::Nose => block.face - p.x,
                })
                .fold(f64::INFINITY, f64::min);
            // Strips are cut in the face's plane: no overlap, no gap.
            assert!(reach.abs() < 0.005, "{name}, {:?}: {reach}", block.which);
            // The spine's end lies wholly on the face.
            let half = board.design.construction.spine / 2.0;
            let ys: Vec<&Vector<2>> = face
                .ring
                .iter()
                .filter(|p| p.x.abs() <= half + 4.0)
                .collect();
            let low = ys.iter().map(|p| p.y).fold(f64::INFINITY, f64::min);
            let high = ys.iter().map(|p| p.y).fold(f64::NEG_INFINITY, f64::max);
            let spine = board.spine.outline.flatten(0.01);
            for p in spine.iter().filter(|p| (p.x - block.face).abs() < 1e-6) {
                assert!(
                    p.y > low - 0.05 && p.y < high + 0.05,
                    "{name}: {p} {low} {high}"
                );
            }
        }
    }
}

/// Beside the centreline, where the skins still follow the surface, the body lies a skin's thickness under the finished surface: the gap to either skin is below the 0.05 mm
/// of overlap and far below the 0.3 mm of gap that an assembly may have.
#[test]
fn bodies_bear_on_both_skins() {
    for name in EXAMPLES {
        let board = board(name);
        let c = &board.design.construction;
        for block in &board.blocks {
            let body = &block.bodies[0];
            let mesh = lofted_solid(body).unwrap();
            // Middles of triangles, not corners: chords are judged too.
            let mut judged = 0;
            for t in &mesh.triangles {
                let [a, b, c3] = mesh.corners(*t);
                let m = (a.coords + b.coords + c3.coords) / 3.0;
                let from_tip = match block.which {
                    BoardEnd::Tail => m.x,
                    BoardEnd::Nose => board.design.length - m.x,
                };
                if m.y < 0.0 || m.y > 5.0 || from_tip < 25.0 || (m.x - block.face).abs() < 1e-6 {
                    continue;
                }
                let normal = (b - a).cross(&(c3 - a)).normalize();
                if normal.z.abs() < 0.7 {
                    continue;
                }
                let bottom = normal.z < 0.0;
                let skin = if bottom { c.bottom_skin } else { c.deck_skin };
                // Where the section bends tighter than the skin can, the skin leaves it and goes straight on.
                let ends = if bottom { [0.0, 0.02] } else { [1.0, 0.98] };
                let [p, q] = ends.map(|v| board.family.section_at(m.x).point(v));
                if (q.x - p.x).powi(2) / (2.0 * (q.y - p.y).abs()) < 1.5 * c.skin_bend_radius {
                    continue;
                }
                let depth = depth_under(&board, [m.x, m.y, m.z], bottom);
                assert!(
                    (depth - skin).abs() < 0.05,
                    "{name}, {:?} at {m:?}: {depth}",
                    block.which
                );
                judged += 1;
            }
            assert!(judged > 20, "{name}: {judged}");
        }
    }
}

fn ellipsoid_design() -> Design {
    let text = "name = \"egg\"\n[outline]\nlength = 1980\nwidth = 510\nnose = \"round\"\n[foil]\ncentre = 100\n\
                [construction]\nskin_turn = 60\nskin_bend_radius = 20\nbottom_skin = 3\ndeck_skin = 3\ntail_block = 300\nnose_block = 300\n\
                [blocks]\nlayer = 15\noversize = 2\n";
    design::parse(text, "egg").unwrap()
}

/// On an ellipsoid the area between two offsets is checked against a fine sum over exact ellipses: in a plane of constant x
/// the inset surface of depth d is nearly the finished ellipse shrunk by d/n_z on the centreline, which is exact there.
#[test]
fn an_ellipsoid_s_blocks_fill_it() {
    let [a, b, c] = [990.0, 255.0, 50.0];
    let solid = Superellipsoid {
        semi: [a, b, c],
        exponent: 2.0,
    };
    let shell = loft(&solid, DEFAULT_TOLERANCE).unwrap();
    let design = ellipsoid_design();
    let found = blocks(&shell, &design);
    assert_eq!(found.len(), 2);
    for block in &found {
        let body = &block.bodies[0];
        // Symmetric about all three planes.
        let [_, y, z] = body.centroid().unwrap();
        assert!(y.abs() < 1e-6 && z.abs() < 0.01, "{y} {z}");
        for slice in &body.slices {
            let k2 = 1.0 - ((slice.x - a) / a).powi(2);
            for p in &slice.ring {
                // Never outside the ellipsoid.
                let inside = (p.x / b).powi(2) + (p.y / c).powi(2);
                assert!(inside <= k2 + 1e-3 * k2.max(0.01), "{slice:?}");
            }
            // On the centreline: the point d inside the meridian ellipse, by Newton on the closed form.
            let half_height = slice
                .ring
                .iter()
                .filter(|p| p.x.abs() < 1e-9)
                .map(|p| p.y.abs());
            let got = half_height.fold(f64::INFINITY, f64::min);
            let mut s = ((slice.x - a) / a).clamp(-0.9999, 0.9999).acos();
            for _ in 0..200 {
                let (sin, cos) = s.sin_cos();
                let n = (cos / a).hypot(sin / c);
                let x = a + a * cos - 3.0 * (cos / a) / n;
                s += (x - slice.x) / (a * sin.max(0.05));
            }
            let (sin, cos) = s.sin_cos();
            let n = (cos / a).hypot(sin / c);
            let want = c * sin - 3.0 * (sin / c) / n;
            assert!((got - want).abs() < 0.02, "x {}: {got} {want}", slice.x);
        }
    }
    let (tail, nose) = (found[0].volume(), found[1].volume());
    assert!(
        (tail - nose).abs() < 1e-3 * tail,
        "mirror images: {tail} {nose}"
    );
    // Between the ellipsoid's cap (V = π a b c (h/a)² (1 − h/3a), h its height) and that cap without 3 mm of skin over its plan.
    let h: f64 = 300.0;
    let cap = std::f64::consts::PI * a * b * c * (h / a).powi(2) * (1.0 - h / 3.0 / a);
    assert!(tail < cap, "{tail} {cap}");
    let plan = 2.0
        * (0..3000)
            .map(|i| 0.1 * (f64::from(i) + 0.5))
            .map(|x| 0.1 * b * (1.0 - ((x - a) / a).powi(2)).sqrt())
            .sum::<f64>();
    let thinned = cap - 2.0 * 3.0 * plan;
    assert!(
        (tail - thinned).abs() < 0.06 * cap,
        "{tail} {thinned} {cap}"
    );
}

fn contains(contour: &[Point], x: f64, y: f64) -> bool {
    let n = contour.len();
    (0..n)
        .filter(|&i| {
            let (a, b) = (contour[i], contour[(i + 1) % n]);
            (a.y > y) != (b.y > y) && x < a.x + (y - a.y) / (b.y - a.y) * (b.x - a.x)
        })
        .count()
        % 2
        == 1
}

/// Every corner of the finished body lies in the layer of its height, with the oversize to spare where it is not on the face.
#[test]
fn layers_leave_wood_for_the_whole_block() {
    for name in EXAMPLES {
        let board = board(name);
        let oversize = board.design.blocks.oversize;
        for block in &board.blocks {
            for w in block.layers.windows(2) {
                assert_eq!(w[1].number, w[0].number + 1);
                assert!((w[1].z[0] - w[0].z[1]).abs() < 1e-9);
            }
            for layer in &block.layers {
                let contours: Vec<Vec<Point>> =
                    layer.outlines.iter().map(|p| p.flatten(0.005)).collect();
                for p in &layer.outlines {
                    assert!(p.closed && p.area() > 0.0);
                }
                for slice in block.bodies.iter().flat_map(|b| &b.slices) {
                    for q in slice
                        .ring
                        .iter()
                        .filter(|q| q.y >= layer.z[0] && q.y <= layer.z[1])
                    {
                        // Half a millimetre inside the face's plane, which is cut exactly.
                        let x = match block.which {
                            BoardEnd::Tail => slice.x.min(block.face - 0.5),
                            BoardEnd::Nose => slice.x.max(block.face + 0.5),
                        };
                        let out = q.x + q.x.signum() * (oversize - 0.1);
                        assert!(
                            contours.iter().any(|c| contains(c, x, out)),
                            "{name}, {:?}, layer {}: ({x}, {out}) lies outside",
                            block.which,
                            layer.number
                        );
                    }
                }
            }
            assert!(block.rough_volume() > block.volume(), "{name}");
        }
    }
}

/// A swallow tail: horns that end at the tips, apart by the cleft, meeting the body where it ends.
#[test]
fn a_swallow_tail_has_two_horns() {
    let board = board("twin-5ft8");
    let tail = &board.blocks[0];
    let names: Vec<&str> = tail.bodies.iter().map(|b| b.name.as_str()).collect();
    assert_eq!(
        names,
        [
            "tail-block",
            "tail-block-horn-port",
            "tail-block-horn-starboard"
        ]
    );
    let depth = board.family.plan().cleft_depth().unwrap();
    let start = tail.bodies[0].slices[0].x;
    assert!((start - depth).abs() < 0.02, "{start} {depth}");
    for horn in &tail.bodies[1..] {
        let last = horn.slices.last().unwrap();
        assert_eq!(last.x, start);
        for slice in &horn.slices {
            let inner = board.family.plan().inner(slice.x);
            let near = slice
                .ring
                .iter()
                .map(|p| p.x.abs())
                .fold(f64::INFINITY, f64::min);
            assert!((near - inner).abs() < 0.01, "x {}: {near} {inner}", slice.x);
        }
    }
    // The two horns' sections make up the body's first section.
    let areas: f64 = tail.bodies[1..]
        .iter()
        .map(|h| polygon::area(&h.slices.last().unwrap().ring))
        .sum();
    let whole = polygon::area(&tail.bodies[0].slices[0].ring);
    assert!((areas - whole).abs() < 1e-6 * whole);
    // Some layer has the cleft in it.
    assert!(tail.layers.iter().any(|l| l.outlines.len() == 2 || {
        let c = l.outlines[0].flatten(0.01);
        !contains(&c, depth / 3.0, 0.0) && contains(&c, depth + 10.0, 0.0)
    }));
}
