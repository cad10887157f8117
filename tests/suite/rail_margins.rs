//! Cover and proud against distances measured on solids: rays from the shell's mesh, square to it, through the strips' meshes.
//!
//! None of the rail's own sampling, chains or roots is used: where a ray leaves the wood is found from triangles alone.
#![allow(clippy::unwrap_used)]

use boardwright::board::Board;
use boardwright::design::finding::{Code, Finding};
use boardwright::design::parse;
use boardwright::geometry::curve::Vector;
use boardwright::geometry::mesh::Mesh;
use boardwright::rail::{CourseKind, Margins, Stack};
use boardwright::views::solids::{shell_mesh, strip_solids};
use nalgebra::{Point3, Vector3};

/// What a ray may leave the wood for, mm, and still be in the same wall: glue lines, and joints that open where the strips turn.
const JOINT: f64 = 1.5;
/// No wall is thicker, mm.
const FAR: f64 = 40.0;
/// An end of the wood nearer a skin than this, mm, is glued to it: a starter's flat underside leaves a curved skin by less.
const CLEAR: f64 = 0.25;
/// Distance, mm, of the rays of a section.
const STEP: f64 = 0.05;

fn example(name: &str) -> String {
    std::fs::read_to_string(format!("examples/{name}.toml")).unwrap()
}

fn board(text: &str) -> Board {
    Board::new(parse(text, "board").unwrap()).unwrap()
}

const PIN_TAIL: &str = r#"
    name = "thin"
    [outline]
    length = "1900 mm"
    width = "500 mm"
    tail = "pin"
    [rocker]
    nose = "120 mm"
    tail = "50 mm"
    [foil]
    centre = "60 mm"
    tail = "22 mm"
    tail_tip = "6 mm"
"#;

/// Curved boards with ends of several kinds, and one of which more cover is required.
fn designs() -> [String; 5] {
    [
        example("twin-5ft8"),
        example("twin-5ft8").replace("cover = \"2 mm\"", "cover = \"2.6 mm\""),
        example("round-tail-6ft4"),
        example("noserider-9ft4"),
        PIN_TAIL.into(),
    ]
}

/// Places on a mesh where a plane of constant x cuts it, with the unit normal outward there, no more than `step` mm apart.
fn cut(mesh: &Mesh, x: f64, step: f64) -> Vec<(Point3<f64>, Vector3<f64>)> {
    let mut places = Vec::new();
    for t in &mesh.triangles {
        let corners = t.map(|i| mesh.vertices[i as usize]);
        let [a, b, c] = corners;
        let normal = (b - a).cross(&(c - a));
        if normal.norm() < 1e-9 {
            continue;
        }
        let sides = [(a, b), (b, c), (c, a)];
        let ends: Vec<Point3<f64>> = sides
            .iter()
            .filter(|(p, q)| (p.x < x) != (q.x < x))
            .map(|(p, q)| p + (q - p) * ((x - p.x) / (q.x - p.x)))
            .collect();
        let [from, to] = ends[..] else { continue };
        let count = ((to - from).norm() / step).ceil().max(1.0) as usize;
        places.extend((0..=count).map(|k| {
            let place = from + (to - from) * (k as f64 / count as f64);
            (place, normal.normalize())
        }));
    }
    places
}

/// Three corners, and of the strip they belong to the course, whether it is moulded, and whether they lie in its inner or outer face.
struct Triangle {
    corners: [Point3<f64>; 3],
    course: usize,
    moulded: bool,
    faces: [bool; 2],
}

/// Triangles that a ray from the plane at `x` can meet.
fn near(board: &Board, meshes: &[Mesh], x: f64) -> Vec<Triangle> {
    let mut out = Vec::new();
    // Starboard and port in turns, in the strips' order.
    for (mesh, strip) in meshes.iter().step_by(2).zip(&board.strips) {
        let moulded = strip.kind != CourseKind::Starter;
        let outward = strip
            .out
            .point(x.clamp(strip.ends[0], strip.ends[1]))
            .normalize();
        let triangles = mesh.triangles.iter().map(|t| {
            let corners = t.map(|i| mesh.vertices[i as usize]);
            let [a, b, c] = corners;
            let off = (b - a).cross(&(c - a)).normalize().dot(&outward);
            Triangle {
                corners,
                course: strip.course,
                moulded,
                faces: [-off, off].map(|o| o > 4.0_f64.to_radians().cos()),
            }
        });
        out.extend(triangles.filter(|t| {
            let xs = t.corners.map(|p| p.x);
            xs.iter().any(|p| *p < x + FAR / 2.0) && xs.iter().any(|p| *p > x - FAR / 2.0)
        }));
    }
    out
}

impl Triangle {
    /// Where a line from `origin` along `way` passes it, and whether it leaves the solid there (Möller and Trumbore, *Fast, minimum
    /// storage ray-triangle intersection*, 1997).
    fn hit(&self, origin: &Point3<f64>, way: &Vector3<f64>) -> Option<Hit<'_>> {
        let [a, b, c] = self.corners;
        let (p, q) = (b - a, c - a);
        let h = way.cross(&q);
        let det = p.dot(&h);
        if det.abs() < 1e-12 {
            return None;
        }
        let s = origin - a;
        let u = s.dot(&h) / det;
        let r = s.cross(&p);
        let v = way.dot(&r) / det;
        (u >= 0.0 && v >= 0.0 && u + v <= 1.0).then(|| Hit {
            at: q.dot(&r) / det,
            leaves: det < 0.0,
            of: self,
        })
    }
}

#[derive(Clone, Copy)]
struct Hit<'a> {
    at: f64,
    leaves: bool,
    of: &'a Triangle,
}

/// Where the wood about `origin` ends along `way`; `None` where that lies in none, as in a joint.
fn end<'a>(wood: &'a [Triangle], origin: &Point3<f64>, way: &Vector3<f64>) -> Option<Hit<'a>> {
    let mut hits: Vec<Hit> = wood.iter().filter_map(|t| t.hit(origin, way)).collect();
    hits.retain(|h| h.at.abs() < FAR);
    hits.sort_by(|a, b| a.at.total_cmp(&b.at));
    let within = |h: &&Hit| h.at < 0.0;
    let passed = hits
        .iter()
        .filter(within)
        .map(|h| if h.leaves { -1 } else { 1 });
    if passed.sum::<i32>() <= 0 {
        return None;
    }
    let mut inside = 0;
    let mut end: Option<Hit> = None;
    for hit in hits {
        if !hit.leaves {
            // Beyond a joint's opening the wall is not the same.
            if inside == 0 && hit.at > 0.0 && end.is_some_and(|e| hit.at - e.at > JOINT) {
                break;
            }
            inside += 1;
        } else {
            inside -= 1;
            if inside == 0 {
                end = Some(hit);
            }
        }
    }
    end
}

/// Least wood inside and outside the finished surface at a stack: of all strips, and of moulded ones.
///
/// Only air between the skins' inner faces counts: past these there is a skin. Within the section the least distance is square to the surface;
/// at its ends rays go all ways square to the board's length.
fn measured(board: &Board, shell: &Mesh, strips: &[Mesh], stack: &Stack) -> [[f64; 2]; 2] {
    let wood = near(board, strips, stack.x);
    let between = |p: &Point3<f64>, clear: f64| {
        let at = Vector::<2>::new(p.y, p.z);
        stack.faces.iter().all(|f| f.inside(&at) >= clear)
    };
    let mut places = cut(shell, stack.x, STEP);
    places.retain(|(p, _)| p.y > 0.0 && between(p, 0.0));
    let mut least = [[f64::INFINITY; 2]; 2];
    let mut take = |place: &Point3<f64>, way: Vector3<f64>, side: usize| {
        let Some(hit) = end(&wood, place, &way) else {
            return;
        };
        // Inside, the wood ends with the strips' inner faces; past the top one's the deck's land begins.
        if between(&(place + way * hit.at), CLEAR) && (side == 1 || hit.of.faces[0]) {
            least[side][0] = least[side][0].min(hit.at);
            if hit.of.moulded && hit.of.faces[side] {
                least[side][1] = least[side][1].min(hit.at);
            }
        }
    };
    for (place, normal) in &places {
        take(place, -normal, 0);
        take(place, *normal, 1);
    }
    let height = |p: &&(Point3<f64>, Vector3<f64>)| {
        let at = Vector::<2>::new(p.0.y, p.0.z);
        stack.faces[0].inside(&at) - stack.faces[1].inside(&at)
    };
    let by = |a: &&(Point3<f64>, Vector3<f64>), b: &&(Point3<f64>, Vector3<f64>)| {
        height(a).total_cmp(&height(b))
    };
    for (place, normal) in [places.iter().min_by(by), places.iter().max_by(by)]
        .into_iter()
        .flatten()
    {
        let length = (Vector3::x() - normal * normal.x).normalize();
        let across = normal.cross(&length);
        for k in -80..=80 {
            let way =
                normal * f64::from(k).to_radians().cos() + across * f64::from(k).to_radians().sin();
            take(place, -way, 0);
            take(place, way, 1);
        }
    }
    // The top strip's inner face, taken on to the deck as ribs' ends are.
    let top = stack.inner_courses().end - 1;
    if let Some((place, _)) = places.iter().max_by(by) {
        for t in wood.iter().filter(|t| t.course == top && t.faces[0]) {
            let [a, b, c] = t.corners;
            // A side of it lies in the plane; others are turned by the strip's twist.
            let in_plane = |p: &&Point3<f64>| (p.x - place.x).abs() < 1e-9;
            let here = t.corners.iter().filter(in_plane).count() == 2;
            let normal = (b - a).cross(&(c - a)).normalize();
            let off = normal.dot(&(a - place));
            if here && between(&(place + normal * off), 0.0) {
                least[0][0] = least[0][0].min(off);
                if t.moulded {
                    least[0][1] = least[0][1].min(off);
                }
            }
        }
    }
    least
}

/// Whether every strip's solid near the stack goes on to either side and has a section there: between sections solids run straight.
fn sectioned(strips: &[Mesh], x: f64) -> bool {
    strips.iter().all(|mesh| {
        let xs = || mesh.vertices.iter().map(|v| v.x);
        let (first, last) = xs().fold((f64::INFINITY, f64::NEG_INFINITY), |(l, h), v| {
            (l.min(v), h.max(v))
        });
        let apart = last < x - FAR || first > x + FAR;
        let through = first < x - FAR / 2.0 && last > x + FAR / 2.0;
        apart || through && xs().any(|v| (v - x).abs() < 1e-9)
    })
}

#[test]
fn cover_and_proud_are_what_rays_measure_on_solids() {
    // Between sections solids run straight, which misses a bent strip by up to 0.03 mm (see `strip_solids`). Rays lie STEP apart and measure no
    // end nearer a skin than CLEAR, so they may find more.
    const LESS: f64 = 0.03;
    let more = |value: f64| 0.12 + 0.01 * value;
    let (mut compared, mut unseen) = (0, 0);
    for text in designs() {
        let board = board(&text);
        let shell = shell_mesh(&board.shell, 2e-3).unwrap();
        let strips = strip_solids(&board).unwrap();
        let name = &board.design.name;
        let stacks = &board.rail.stacks;
        let fit: Vec<usize> = (0..stacks.len())
            .filter(|k| sectioned(&strips, stacks[*k].x))
            .collect();
        for k in fit.iter().copied().step_by((fit.len() / 15).max(1)) {
            let (stack, Some(m)) = (&stacks[k], board.rail.margins[k]) else {
                continue;
            };
            let [cover, proud] = measured(&board, &shell, &strips, stack);
            let pairs = [
                ("cover", m.cover.least, cover[0]),
                ("strips' cover", m.strip_cover, cover[1]),
                ("proud", m.proud.least, proud[0]),
                ("strips' proud", m.strip_proud, proud[1]),
            ];
            for (what, value, ray) in pairs.into_iter().filter(|p| p.1.is_finite()) {
                if ray.is_infinite() {
                    unseen += 1;
                    continue;
                }
                compared += 1;
                assert!(
                    (value - LESS..value + more(value)).contains(&ray),
                    "{name} at {:.1}: {what} {value:.3}, {ray:.3} by rays",
                    stack.x
                );
            }
        }
    }
    assert!(
        compared > 250 && unseen < compared / 20,
        "{compared} {unseen}"
    );
}

/// Cover and proud have the same over what is required, or the guide lies as far in or out as it can.
#[test]
fn cover_and_proud_of_the_rail_as_built_balance() {
    for text in designs() {
        let board = board(&text);
        let c = &board.design.construction;
        let over = |of: fn(&Margins) -> f64| {
            let all = board.rail.margins.iter().flatten().map(of);
            all.fold(f64::INFINITY, f64::min)
        };
        let cover = over(|m| m.strip_cover) - c.cover;
        let proud = over(|m| m.strip_proud) - c.proud;
        assert!(
            (cover - proud).abs() < 0.021,
            "{}: {cover:.3} and {proud:.3}",
            board.design.name
        );
        // Both demands are met, so nothing is warned of.
        assert!(cover > 0.0 && proud > 0.0);
        let margin = |f: &Finding| matches!(f.code, Code::WoodBehindRail | Code::PlaningAllowance);
        assert!(
            !board.quick_findings.iter().any(margin),
            "{:?}",
            board.quick_findings
        );
    }
}

/// Where it is asked for more than the strip's thickness can give, both fall short alike and both are told.
#[test]
fn what_a_strip_is_too_thin_for_is_told_with_both_margins() {
    let text = example("twin-5ft8").replace("cover = \"2 mm\"", "cover = \"4 mm\"");
    let board = board(&text);
    let output = |code| board.quick_findings.iter().any(|f| f.code == code);
    assert!(output(Code::WoodBehindRail) && output(Code::PlaningAllowance));
}
