//! The rail against closed forms.
#![allow(clippy::unwrap_used, clippy::panic)]

use crate::common::{flat, prisms};
use boardwright::design::{Arrangement, Construction, Strip};
use boardwright::geometry::curve::Vector;
use boardwright::geometry::path::Point;
use boardwright::rail::{CourseKind, Rail, joint, slices, solve, visible_gap_at};
use boardwright::shape::loft;
use prisms::{Prism, construction};
use std::f64::consts::PI;

fn rail(prism: &Prism, c: &Construction) -> Rail {
    let shell = loft(prism, 1e-4).unwrap();
    let x: Vec<f64> = (1..20)
        .map(|i| prism.length * f64::from(i) / 20.0)
        .collect();
    solve(&shell, c, &x).unwrap()
}

fn stacked(count: usize) -> Construction {
    let mut c = construction();
    c.starter.arrangement = Arrangement::Stacked;
    c.starter.count = count;
    c
}

/// Narrow strips on a bottom so thick that the circle leaves its inner face at acos(36 / 60) = 53° or more: their first base can be planed.
fn on_thick_bottom() -> Construction {
    let mut c = stacked(0);
    c.strip.width = 9.0;
    c.bottom_skin = 24.0;
    c
}

/// Strips that follow a circle turn by φ = 2·asin(p / 2R) from one to the next (chord geometry), R being the guide's radius.
#[test]
fn a_circular_rail_turns_by_equal_angles() {
    let c = on_thick_bottom();
    let prism = Prism {
        length: 2000.0,
        half: [200.0; 2],
        height: 120.0,
        round: true,
    };
    let rail = rail(&prism, &c);
    let radius = prism.height / 2.0 - rail.depth;
    let pitch = c.strip.pitch();
    let want = 2.0 * (pitch / (2.0 * radius)).asin();
    let mut seen = 0;
    for stack in &rail.stacks {
        // The first strip's chord is shorter, and the last are aimed at the deck: only whole chords of the circle count.
        let centre = Vector::<2>::new(200.0, prism.height / 2.0);
        let on_circle = |p: &Vector<2>| ((p - centre).norm() - radius).abs() < 1e-3;
        for pair in stack
            .courses
            .windows(2)
            .filter(|w| w[0].kind() == CourseKind::BeadAndCove)
        {
            if let Some(joint) = pair[1].joint().filter(|_| on_circle(&pair[1].body().head)) {
                // The loft's 1e-4 mm over a pitch of 6.5 mm.
                assert!(
                    (joint.roll - want).abs() < 1.5e-5,
                    "{} against {want}",
                    joint.roll
                );
                seen += 1;
            }
        }
    }
    assert!(seen > 19 * 5, "{seen} joints");
}

/// The guide stands off a chord by the sagitta R − √(R² − p²/4) at its middle, so stock stands least proud there; the wood
/// left is least at the corners of the inner faces.
#[test]
fn proud_and_cover_on_a_circular_rail_follow_from_the_sagitta() {
    let c = on_thick_bottom();
    let prism = Prism {
        length: 2000.0,
        half: [200.0; 2],
        height: 120.0,
        round: true,
    };
    let rail = rail(&prism, &c);
    let (outer, half, pitch) = (prism.height / 2.0, c.strip.thickness / 2.0, c.strip.pitch());
    let radius = outer - rail.depth;
    let sagitta = |r: f64| r - (r * r - pitch * pitch / 4.0).sqrt();
    let proud = half - rail.depth - sagitta(radius);
    // Inner faces lie half a thickness inside the chords, R − depth − sagitta from the centre; where two meet, the corner lies
    // farther out by the cosine of half the angle between them.
    let turn = 2.0 * (pitch / (2.0 * radius)).asin();
    let cover = outer - (radius - sagitta(radius) - half) / (turn / 2.0).cos();
    // The top strip's chord is another one; the wood over its inner face is least where the circle meets the deck skin.
    let height = prism.height - c.deck_skin;
    let end = Vector::<2>::new(
        200.0 + (outer.powi(2) - (height - outer).powi(2)).sqrt(),
        height,
    );
    for (stack, margins) in rail.stacks.iter().zip(&rail.margins) {
        let margins = margins.unwrap();
        let [from, to] = stack.courses.last().unwrap().inner_face();
        let cover = cover.min((end - from).perp(&(to - from)).abs() / (to - from).norm());
        // The loft's accuracy.
        assert!(
            (margins.proud.least - proud).abs() < 1e-4,
            "{margins:?} against {proud}"
        );
        assert!(
            (margins.cover.least - cover).abs() < 1e-4,
            "{margins:?} against {cover}"
        );
    }
    let cover = rail.margins[0].unwrap().cover.least;
    // What is over the two demands balances.
    let over = (proud - c.proud) - (cover - c.cover);
    assert!(over.abs() < 0.021 || rail.depth == 0.0, "{over}");
}

/// Upright rail: no roll, and as many courses as the height holds pitches (count = height / pitch, rounded up; a quarter of a millimetre that is left
/// over, which glue fills, asks for no further course).
#[test]
fn an_upright_rail_counts_by_height_over_pitch() {
    for (pitches, over) in [
        (2, -0.1),
        (3, 0.22),
        (3, 0.28),
        (4, 3.0),
        (5, 0.24),
        (5, 0.26),
    ] {
        let c = stacked(2);
        let strip = &c.strip;
        // The last course's bead must reach the deck's inner face over nine tenths of half its thickness.
        let land = 0.9 * strip.thickness / 2.0;
        let first =
            strip.width - strip.bead_radius + (strip.bead_radius.powi(2) - land * land).sqrt();
        let under = c.bottom_skin + c.deck_skin + 2.0 * c.starter.size + first;
        let height = under + f64::from(pitches) * strip.pitch() + over;
        let more = pitches as usize + usize::from(over > 0.25);
        let prism = Prism {
            length: 2000.0,
            half: [240.0; 2],
            height,
            round: false,
        };
        let rail = rail(&prism, &c);
        for stack in &rail.stacks {
            assert_eq!(stack.courses.len(), 2 + 1 + more, "height {height}");
            let kinds: Vec<CourseKind> = stack.courses.iter().map(|k| k.kind()).collect();
            assert_eq!(
                kinds[..3],
                [
                    CourseKind::Starter,
                    CourseKind::Starter,
                    CourseKind::BeadOnly
                ]
            );
            assert!(kinds[3..].iter().all(|k| *k == CourseKind::BeadAndCove));
            for course in &stack.courses {
                assert!(course.bevel().abs() < 1e-6);
                assert!(
                    course
                        .joint()
                        .is_none_or(|j| j.roll.abs() < 1e-6 && j.dig_in < 1e-6)
                );
            }
            assert!(stack.reaches_deck && stack.top_bevel.unwrap().abs() < 1e-6);
        }
    }
}

/// A strip cut at an angle α looks t / cos α thick; heights are not changed by a level strip's obliquity.
#[test]
fn a_slanted_cut_is_thicker_by_one_over_cos() {
    for angle in [0.0_f64, 10.0, 30.0, 50.0] {
        let c = stacked(1);
        let narrowing = 300.0 * angle.to_radians().tan();
        let prism = Prism {
            length: 300.0,
            half: [420.0, 420.0 - narrowing],
            height: 70.0,
            round: false,
        };
        let rail = rail(&prism, &c);
        let stretch = 1.0 / angle.to_radians().cos();
        for stack in &rail.stacks[2..17] {
            for (slice, course) in slices(stack, &c).iter().zip(&stack.courses) {
                assert!((course.obliquity().to_degrees() - angle).abs() < 1e-3);
                let polygon = slice.polygon(1e-4);
                let extent = |f: fn(&Vector<2>) -> f64| {
                    let (low, high) = polygon
                        .iter()
                        .map(f)
                        .fold((f64::INFINITY, f64::NEG_INFINITY), |(l, h), v| {
                            (l.min(v), h.max(v))
                        });
                    high - low
                };
                let thick = extent(|p| p.x);
                assert!(
                    (thick - course.body().thickness * stretch).abs() < 1e-3,
                    "{angle}: {thick}"
                );
                if course.kind() == CourseKind::BeadAndCove {
                    // From lip plane to crown.
                    let tall = extent(|p| p.y);
                    assert!((tall - c.strip.width).abs() < 1e-3, "{angle}: {tall}");
                }
            }
        }
    }
}

/// A half-round bead in a full cove: the lip enters by r(1 − cos φ), the mouth opens by 2 r sin(φ/2).
#[test]
fn a_half_round_joint_has_its_closed_forms() {
    let mut strip = construction().strip;
    strip.bead_radius = strip.thickness / 2.0;
    strip.cove_radius = strip.bead_radius;
    strip.cove_depth = strip.bead_radius;
    let r = strip.bead_radius;
    for degrees in [0.0_f64, 5.0, 15.0, 30.0, 45.0, -20.0] {
        let roll = degrees.to_radians();
        let found = joint(&strip, roll);
        assert!(
            (found.dig_in - r * (1.0 - roll.cos())).abs() < 1e-9,
            "{found:?}"
        );
        assert!(
            (found.mouth_gap - 2.0 * r * (roll.abs() / 2.0).sin()).abs() < 1e-9,
            "{found:?}"
        );
    }
    // A cove shallower by e lifts the lips by e: nothing digs in before the corner has come down to the shoulder.
    strip.cove_depth = r - 0.5;
    let free = 2.0 * (0.5_f64 / (2.0 * r)).atan();
    assert!(joint(&strip, 0.9 * free).dig_in < 1e-9);
    assert!((joint(&strip, 0.0).mouth_gap - 0.5).abs() < 1e-12);
}

/// How deep a rolled strip enters the one below, against their outlines laid over each other: the deepest corner of the upper one's base in the
/// lower one's polygon.
#[test]
fn a_lip_enters_as_deep_as_the_outlines_overlap() {
    let slice = |strip: Strip| {
        // The profile alone is asked for; its own axes lie in the plane.
        let mut c = construction();
        c.strip = strip;
        let upright = Prism {
            length: 2000.0,
            half: [240.0; 2],
            height: 120.0,
            round: false,
        };
        let rail = rail(&upright, &c);
        let stack = &rail.stacks[9];
        let found = slices(stack, &c);
        let slice = found
            .into_iter()
            .find(|s| s.kind == CourseKind::BeadAndCove);
        slice.unwrap().profile.flatten(1e-5)
    };
    for (width, bead_radius, cove_depth) in [
        (12.7, 3.0, 2.5),
        (12.7, 3.0, 3.0),
        (14.0, 5.0, 0.9),
        (16.0, 3.4, 1.2),
    ] {
        let mut strip = construction().strip;
        (strip.width, strip.bead_radius, strip.cove_radius) = (width, bead_radius, bead_radius);
        strip.cove_depth = cove_depth;
        let outline = slice(strip);
        let pitch = strip.pitch();
        // The lower strip, its bead's centre at the origin.
        let mut lower: Vec<Point> = outline
            .iter()
            .map(|p| Point::new(p.x, p.y - pitch))
            .collect();
        lower.push(lower[0]);
        for degrees in [10.0_f64, 25.0, 43.0, 55.0] {
            let (s, c) = degrees.to_radians().sin_cos();
            let base = outline
                .iter()
                .filter(|p| p.y < bead_radius - cove_depth + 1e-9 && p.x < 0.0);
            let turned = base.map(|p| Point::new(p.x * c - p.y * s, p.x * s + p.y * c));
            let deep = turned
                .filter(|p| flat::inside(&lower, *p))
                .map(|p| flat::distance(&lower, p));
            let deepest = deep.fold(0.0, f64::max);
            let found = joint(&strip, degrees.to_radians()).dig_in;
            assert!(
                (found - deepest).abs() < 1e-3,
                "{width} {bead_radius} {degrees}: {found}, {deepest}"
            );
        }
    }
}

/// A strip finishing 6 mm thick and about 12.7 mm wide, two 8 × 8 mm starters to each rail and one bead-only strip next to
/// them (common practice, no published source).
#[test]
fn the_default_rail_is_that_of_the_trade() {
    let c = construction();
    assert_eq!((c.strip.thickness, c.strip.width), (6.0, 12.7));
    assert_eq!((c.starter.size, c.starter.count), (8.0, 2));
    let prism = Prism {
        length: 2000.0,
        half: [240.0; 2],
        height: 70.0,
        round: true,
    };
    for stack in &rail(&prism, &c).stacks {
        let of = |kind| stack.courses.iter().filter(|k| k.kind() == kind).count();
        assert_eq!((of(CourseKind::Starter), of(CourseKind::BeadOnly)), (2, 1));
    }
}

/// p = W − s_c; the profile's area is the rectangle's plus the bead's segment less the cove's.
#[test]
fn profiles_have_the_areas_of_their_segments() {
    let c = stacked(1);
    let prism = Prism {
        length: 2000.0,
        half: [240.0; 2],
        height: 90.0,
        round: false,
    };
    let rail = rail(&prism, &c);
    let (t, r) = (c.strip.thickness, c.strip.bead_radius);
    let segment =
        |r: f64, s: f64| r * r * ((r - s) / r).acos() - (r - s) * (2.0 * r * s - s * s).sqrt();
    assert!((segment(r, r) - PI * r * r / 2.0).abs() < 1e-12);
    assert!((c.strip.pitch() - (c.strip.width - c.strip.cove_depth)).abs() < 1e-12);
    let stack = &rail.stacks[9];
    for slice in slices(stack, &c)
        .iter()
        .filter(|s| s.kind == CourseKind::BeadAndCove)
    {
        let area = boardwright::geometry::polygon::area(&slice.polygon(1e-5));
        let body = t * (c.strip.width - c.strip.bead_sagitta());
        let want = body + segment(r, c.strip.bead_sagitta())
            - segment(c.strip.cove_radius, c.strip.cove_depth);
        assert!((area - want).abs() < 2e-3, "{area} against {want}");
    }
}

/// A full half-round cove turned by φ uncovers the bead from r cos φ outward; at the strip's face the lip's corner has risen by
/// r sin φ over the shoulder. A joint that opens inboard, or within the cove, shows nothing.
#[test]
fn an_open_joint_shows_only_past_the_coves_edge() {
    let mut strip = construction().strip;
    strip.cove_depth = strip.bead_radius;
    let r = strip.bead_radius;
    for degrees in [5.0_f64, 20.0, 40.0] {
        let roll = degrees.to_radians();
        assert_eq!(visible_gap_at(&strip, roll, r * roll.cos() - 1e-9), 0.0);
        assert_eq!(visible_gap_at(&strip, -roll, r), 0.0);
        // The lip's line y = n tan φ at n = r, over a bead that has come down to its shoulder.
        assert!((visible_gap_at(&strip, roll, r) - r * roll.tan()).abs() < 1e-9);
    }
}
