//! The building bed against independent sections of the same bottom.
#![allow(clippy::unwrap_used, clippy::panic)]

use crate::common::solids as closed;
use boardwright::board::Board;
use boardwright::design::{self, Design};
use boardwright::frame::bed::{BuildingBed, Cradle, bed};
use boardwright::geometry::path::Point;
use boardwright::shape::{DEFAULT_TOLERANCE, loft};
use boardwright::views::solids::bed_solids;
use closed::Superellipsoid;

const EXAMPLES: [&str; 3] = ["round-tail-6ft4", "noserider-9ft4", "twin-5ft8"];

fn text(name: &str) -> String {
    std::fs::read_to_string(format!("examples/{name}.toml")).unwrap()
}

fn board_with(name: &str, more: &str) -> Board {
    Board::new(design::parse(&format!("{}\n{more}", text(name)), name).unwrap()).unwrap()
}

/// Height of the finished bottom at (x, y): straight from outline, rocker, foil and blended sections, by bisection for the
/// parameter between the bottom's centre and the apex; the loft is not asked.
fn bottom(board: &Board, x: f64, y: f64) -> f64 {
    let section = board.family.section_at(x);
    let (mut low, mut high) = (0.0, board.shell.apex);
    for _ in 0..80 {
        let v = (low + high) / 2.0;
        if section.point(v).x < y {
            low = v
        } else {
            high = v
        }
    }
    section.point((low + high) / 2.0).y
}

/// Greatest height of the contour at half-breadth `y`, over the table.
fn top(contour: &[Point], y: f64) -> f64 {
    contour
        .windows(2)
        .filter(|w| (w[0].x - y) * (w[1].x - y) <= 0.0 && w[0].x != w[1].x)
        .map(|w| w[0].y + (w[1].y - w[0].y) * (y - w[0].x) / (w[1].x - w[0].x))
        .fold(f64::NEG_INFINITY, f64::max)
}

/// The cradle's edge is the lower of the bottom's sections at both faces and the middle within 0.01 mm, on both sides.
fn edge_miss(board: &Board, bed: &BuildingBed, cradle: &Cradle) -> f64 {
    let contour = cradle.outline.flatten(5e-4);
    let mut worst = 0.0_f64;
    for i in 0..100 {
        let y = cradle.half_width * f64::from(i) / 100.0;
        let half = cradle.thickness / 2.0;
        let want = [-half, 0.0, half]
            .map(|d| bottom(board, cradle.x + d, y))
            .into_iter()
            .fold(f64::INFINITY, f64::min);
        for side in [y, -y] {
            worst = worst.max((top(&contour, side) + bed.table - want).abs());
        }
    }
    worst
}

#[test]
fn edges_are_the_bottom_s_sections_within_a_hundredth() {
    for name in EXAMPLES {
        let board = board_with(name, "");
        assert!(board.bed.cradles.len() >= board.ribs.len());
        for cradle in &board.bed.cradles {
            let miss = edge_miss(&board, &board.bed, cradle);
            assert!(miss <= 0.01, "{name}, cradle {}: {miss}", cradle.number);
        }
    }
}

/// One datum: the lowest edge stands `base_height` over the table, every foot is flat on it, and the sight hole's middle lies on the
/// centreline at one height.
#[test]
fn all_cradles_share_table_and_sight_line() {
    for name in EXAMPLES {
        let board = board_with(
            name,
            "[bed]\nbase_height = \"95 mm\"\nsight_hole = \"8 mm\"\n",
        );
        let bed = &board.bed;
        let mut lowest = f64::INFINITY;
        for cradle in &bed.cradles {
            let contour = cradle.outline.flatten(1e-3);
            let foot = contour.iter().map(|p| p.y).fold(f64::INFINITY, f64::min);
            assert_eq!(foot, 0.0);
            let edge = (0..=200)
                .map(|i| cradle.half_width * f64::from(i) / 200.0 * 0.9999)
                .map(|y| top(&contour, y))
                .fold(f64::INFINITY, f64::min);
            lowest = lowest.min(edge);
            let [hole] = cradle.holes.as_slice() else {
                panic!("{name}: a hole in every cradle");
            };
            let bounds = hole.bounds();
            assert!((bounds.width() - 8.0).abs() < 1e-9);
            assert!((bounds.min.x + bounds.max.x).abs() < 1e-9);
            assert!(((bounds.min.y + bounds.max.y) / 2.0 - bed.sight).abs() < 1e-9);
        }
        assert!((lowest - 95.0).abs() < 0.01, "{name}: {lowest}");
        // At a cradle's centre plane the height over the table gives the rocker back, but for the side that bears.
        for cradle in &bed.cradles {
            let rocker = |x: f64| board.family.rocker().height(x)[0];
            let half = cradle.thickness / 2.0;
            let want = rocker(cradle.x - half)
                .min(rocker(cradle.x + half))
                .min(rocker(cradle.x));
            let got = cradle.heights[0] + bed.table;
            let cleft = board.family.plan().inner(cradle.x) > 0.0;
            assert!(cleft || (got - want).abs() < 0.01, "{name}: {got} {want}");
        }
    }
}

/// The bevel stated is the bottom's slope between the faces.
#[test]
fn bevels_follow_the_rocker() {
    let board = board_with("round-tail-6ft4", "");
    for cradle in &board.bed.cradles {
        let half = cradle.thickness / 2.0;
        let rise = bottom(&board, cradle.x + half, 0.0) - bottom(&board, cradle.x - half, 0.0);
        let want = (rise / cradle.thickness).atan();
        assert!(
            (cradle.bevels[0] - want).abs() < 1e-3,
            "{} {want}",
            cradle.bevels[0]
        );
    }
    let first = board.bed.cradles.first().unwrap();
    let last = board.bed.cradles.last().unwrap();
    assert!(
        first.bevels[0] < 0.0 && last.bevels[0] > 0.0,
        "the bottom rises to both ends"
    );
}

fn ellipsoid_design() -> Design {
    let text = "name = \"egg\"\n[outline]\nlength = 1980\nwidth = 510\n[foil]\ncentre = 64\n\
                [construction]\nskin_turn = 20\nskin_bend_radius = 20\n\
                [bed]\nstations = [400, 990, 1500]\nthickness = 10\n";
    design::parse(text, "egg").unwrap()
}

/// On an ellipsoid every section is an ellipse: z = −c k sqrt(1 − (y/bk)²), k = sqrt(1 − ((x − a)/a)²) (closed form).
#[test]
fn an_ellipsoid_s_cradles_are_ellipses() {
    let [a, b, c] = [990.0, 255.0, 32.0];
    let shell = loft(
        &Superellipsoid {
            semi: [a, b, c],
            exponent: 2.0,
        },
        DEFAULT_TOLERANCE,
    )
    .unwrap();
    let bed = bed(&shell, &ellipsoid_design());
    assert_eq!(bed.cradles.len(), 3);
    for cradle in &bed.cradles {
        let contour = cradle.outline.flatten(5e-4);
        let z = |x: f64, y: f64| {
            let k = (1.0 - ((x - a) / a).powi(2)).sqrt();
            -c * k * (1.0 - (y / b / k).powi(2)).sqrt()
        };
        for i in 0..50 {
            let y = cradle.half_width * f64::from(i) / 50.0;
            let want = [-5.0, 0.0, 5.0]
                .map(|d| z(cradle.x + d, y))
                .into_iter()
                .fold(f64::INFINITY, f64::min);
            let got = top(&contour, y) + bed.table;
            assert!(
                (got - want).abs() < 0.01,
                "x {}, y {y}: {got} {want}",
                cradle.x
            );
        }
        // The edge ends where the ellipse has turned by 20°: tan 20° = (c/b²) y / (k sqrt(1 − (y/bk)²)) k.
        let k = (1.0_f64 - ((cradle.x + 5.0 - a) / a).powi(2)).sqrt();
        let turn = 20.0_f64.to_radians().tan();
        let m = turn * b / c;
        let want = b * k * m / (1.0 + m * m).sqrt();
        assert!(
            (cradle.half_width - want).abs() < 2.0,
            "{} {want}",
            cradle.half_width
        );
    }
    // The lowest edge is the middle cradle's at the centre: its height over the table is the base height.
    assert!((bed.table + 80.0 + c).abs() < 0.01, "{}", bed.table);
}

#[test]
fn a_beam_s_notch_is_cut_from_the_foot() {
    let board = board_with(
        "round-tail-6ft4",
        "[bed]\nstands_on = \"beam\"\nbeam_width = 90\nbeam_height = 45\n",
    );
    let plain = board_with("round-tail-6ft4", "");
    for (with, without) in board.bed.cradles.iter().zip(&plain.bed.cradles) {
        let cut = without.outline.area() - with.outline.area();
        // A cradle that leaves no leg of 15 mm beside the beam stands on it.
        let width = if with.half_width < 60.0 {
            2.0 * with.half_width
        } else {
            90.0
        };
        assert!((cut - width * 45.0).abs() < 1e-6, "{cut}");
        assert!(board.bed.sight > 45.0);
    }
}

#[test]
fn cradles_stand_where_asked_and_touch_no_neighbour() {
    let board = board_with(
        "twin-5ft8",
        "[bed]\nstations = [30, 60, 90, 120]\nwidth = 30\n",
    );
    let places: Vec<f64> = board.bed.cradles.iter().map(|c| c.x).collect();
    for (got, want) in places.iter().zip([300.0, 600.0, 900.0, 1200.0]) {
        assert!((got - want).abs() < 1e-9);
    }
    assert!(
        board
            .bed
            .cradles
            .iter()
            .all(|c| c.half_width <= 150.0 && c.rib.is_none())
    );
    let silent = board_with("noserider-9ft4", "").bed;
    for w in silent.cradles.windows(2) {
        assert!(w[1].x - w[0].x >= 2.0 * w[0].thickness);
    }
    let ribs = silent.cradles.iter().filter(|c| c.rib.is_some()).count();
    assert_eq!(
        ribs,
        silent.cradles.len() - 2,
        "one at every rib and one under either block"
    );
}

#[test]
fn faulty_beds_are_refused_with_a_remedy() {
    let faults = |more: &str| {
        let error =
            design::parse(&format!("{}\n{more}", text("round-tail-6ft4")), "x").unwrap_err();
        error.to_string()
    };
    let low = faults("[bed]\nstands_on = \"beam\"\nbeam_height = 70\n");
    assert!(low.contains("at most 65 mm"), "{low}");
    let beyond = faults("[bed]\nstations = [300, 1929]\n");
    assert!(
        beyond.contains("a cradle must stand under the board"),
        "{beyond}"
    );
    let close = faults("[bed]\nstations = [300, 310]\n");
    assert!(close.contains("overlap"), "{close}");
}

#[test]
fn solids_are_sound_and_lie_under_the_board() {
    for name in EXAMPLES {
        let board = board_with(name, "");
        for mesh in bed_solids(&board).unwrap() {
            let report = mesh.check(1e-6);
            assert!(report.is_sound(), "{}: {report}", mesh.name);
            for p in &mesh.vertices {
                if p.y.abs() < 1.0 || p.z < board.bed.table + 1.0 {
                    continue;
                }
                let z = bottom(&board, p.x, p.y.abs());
                assert!(p.z <= z + 0.011, "{name}, {}: {p} over {z}", mesh.name);
            }
        }
    }
}
