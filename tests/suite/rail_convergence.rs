//! What the rail's iteration says of itself, against the rail it gives.
#![allow(clippy::unwrap_used)]

use crate::common::program::{assert_code, empty, out, run_in};
use boardwright::board::{Board, rail_planes};
use boardwright::design::finding::{Code, Finding};
use boardwright::design::{Design, parse};
use boardwright::geometry::curve::Vector;
use boardwright::rail::{Balance, Rail, RailLimits, RailProblem, SolveLimits, rail_findings};

const EXAMPLES: [&str; 3] = ["twin-5ft8", "round-tail-6ft4", "noserider-9ft4"];

/// A square of 20 mm bent flat round a broad nose: its directions do not come to rest, though every key is within its range.
const RESTLESS: &str = r#"
name = "restless"
[outline]
length = "1702 mm"
width = "612 mm"
tail = "squash"
nose = "round"
[rocker]
nose = "210 mm"
tail = "29 mm"
[foil]
centre = "92.3 mm"
[[section]]
at = 851
edge = "hard"
tuck = 53.6
tuck_angle = 43
apex = 0.42
fullness = 0.77
[construction]
bottom_skin = "3 mm"
deck_skin = "3 mm"
cover = "2.1 mm"
proud = "0.4 mm"
[construction.strip]
thickness = "5 mm"
width = "10.6 mm"
[construction.starter]
size = "20.2 mm"
count = 1
"#;

fn example(name: &str) -> Board {
    let text = std::fs::read_to_string(format!("examples/{name}.toml")).unwrap();
    Board::new(parse(&text, name).unwrap()).unwrap()
}

/// The rail of a board's own planes within other limits.
fn solved_within(board: &Board, limits: SolveLimits) -> Rail {
    let construction = &board.design.construction;
    let problem = RailProblem::new(&board.shell, &board.rail_context, construction);
    RailProblem { limits, ..problem }.solve().unwrap()
}

/// The greatest miss, mm, between the direction a strip was built with and the slope of its own path in the planes the rail was asked
/// for in, by central differences, over the distance to the nearer neighbour; with its place and course. `near_run_outs` takes in planes
/// next to where the course ends. Inner starters are left out: side by side they are laid parallel to the outermost.
fn direction_miss(design: &Design, rail: &Rail, near_run_outs: bool) -> (f64, f64, usize) {
    let own = rail_planes(design, 10.0);
    let stacks = rail.stacks.iter().filter(|s| own.contains(&s.x));
    let stacks: Vec<_> = stacks.collect();
    let mut worst = (0.0, 0.0, 0);
    for w in stacks.windows(5) {
        let within = if near_run_outs { &w[1..4] } else { w };
        let courses = within.iter().map(|s| s.courses.len()).min().unwrap();
        let parallel = |i: &usize| *i > 0 && !w[2].courses[*i].is_moulded();
        for i in (0..courses).filter(|i| !parallel(i)) {
            let middle = |s: usize| {
                let body = w[s].courses[i].body();
                let middle = (body.foot + body.head) / 2.0;
                Vector::<3>::new(w[s].x, middle.x, middle.y)
            };
            let [back, here, on] = [1, 2, 3].map(middle);
            let (a, b) = (here - back, on - here);
            // Slope of the parabola through the three: each chord's counts by the other's length.
            let tangent = a * (b.x / a.x) + b * (a.x / b.x);
            let angle = w[2].courses[i].body().frame.along.angle(&tangent);
            let miss = angle * a.x.min(b.x);
            if miss > worst.0 {
                worst = (miss, here.x, i);
            }
        }
    }
    worst
}

/// Heads of the same courses in the same planes: how far apart at most, mm.
fn apart(a: &Rail, b: &Rail) -> f64 {
    let mut worst: f64 = 0.0;
    for stack in &a.stacks {
        let Some(other) = b.stacks.iter().find(|s| s.x == stack.x) else {
            continue;
        };
        for (p, q) in stack.courses.iter().zip(&other.courses) {
            worst = worst.max((p.body().head - q.body().head).norm());
        }
    }
    worst
}

/// Excess of proud less excess of cover, mm, each at its worst.
fn imbalance(board: &Board) -> f64 {
    let c = &board.design.construction;
    let margins = || board.rail.margins.iter().flatten();
    let proud = margins()
        .map(|m| m.strip_proud)
        .fold(f64::INFINITY, f64::min);
    let cover = margins()
        .map(|m| m.strip_cover)
        .fold(f64::INFINITY, f64::min);
    (proud - c.proud) - (cover - c.cover)
}

#[test]
fn rails_of_the_examples_settle_and_say_so() {
    for name in EXAMPLES {
        let board = example(name);
        let found = board.rail.convergence;
        println!("{name}: {found:?}");
        let limits = SolveLimits::default();
        assert!(
            found.settled && found.movement.by < limits.movement,
            "{name}: {found:?}"
        );
        assert!(found.rounds <= limits.rounds);
        // Where three middles move by no more than that, the slope through them turns by no more than twice that over their distance.
        let miss = direction_miss(&board.design, &board.rail, found.course_changes == 0);
        println!("{name}: {miss:?}");
        assert!(miss.0 < 2.0 * limits.movement, "{name}: {miss:?}");
        assert!(
            (found.imbalance.unwrap() - imbalance(&board)).abs() < 1e-12,
            "{name}"
        );
        if found.balance == Balance::Even {
            assert!(imbalance(&board).abs() < 0.02, "{name}");
        }
        // One round more than it took, whatever the movement: nothing moves by more than was promised.
        let further = SolveLimits {
            rounds: found.rounds + 1,
            movement: 0.0,
        };
        let further = solved_within(&board, further);
        assert_eq!(further.convergence.rounds, found.rounds + 1);
        assert!(further.convergence.movement.by < limits.movement, "{name}");
        // Depths are balanced to 0.02 mm of a fall of 1 to 4 mm a mm.
        let apart = apart(&board.rail, &further);
        let depths = (board.rail.depth - further.depth).abs();
        println!("{name}: one round more moves {apart:.1e} mm, depth {depths:.1e} mm");
        assert!(
            apart < limits.movement + 3.0 * depths,
            "{name}: {apart} {depths}"
        );
    }
}

#[test]
fn too_few_rounds_are_a_rail_that_has_not_settled() {
    let board = example("twin-5ft8");
    let limits = SolveLimits {
        rounds: 1,
        ..SolveLimits::default()
    };
    let rail = solved_within(&board, limits);
    let found = rail.convergence;
    assert!(!found.settled && found.rounds == 1, "{found:?}");
    assert!(found.movement.by > 10.0 * limits.movement, "{found:?}");
    let miss = direction_miss(&board.design, &rail, false);
    assert!(miss.0 > 2.0 * limits.movement, "{miss:?}");
    let none = SolveLimits {
        rounds: 0,
        ..limits
    };
    assert!(!solved_within(&board, none).convergence.settled);

    let limits = RailLimits::default();
    let c = &board.design.construction;
    let findings = rail_findings(&board.shell, &board.rail_context, c, &rail, &limits).unwrap();
    let unsettled: Vec<&Finding> = findings
        .iter()
        .filter(|f| f.code == Code::RailUnsettled)
        .collect();
    let moved = found.movement;
    assert_eq!(unsettled.len(), 1);
    let place = unsettled[0].place.unwrap();
    assert_eq!(
        (place.x, place.course),
        (Some(moved.x), Some(moved.course + 1))
    );
    assert_eq!(
        (unsettled[0].value, unsettled[0].limit),
        (Some(moved.by), Some(limits.settled))
    );
}

#[test]
fn a_rail_that_does_not_settle_is_found_by_check() {
    let board = Board::new(parse(RESTLESS, "restless").unwrap()).unwrap();
    let found = board.rail.convergence;
    println!("{found:?}");
    assert!(!found.settled && found.rounds == SolveLimits::default().rounds);
    assert!(found.movement.by > RailLimits::default().settled);
    let miss = direction_miss(&board.design, &board.rail, false);
    assert!(miss.0 > 2.0 * SolveLimits::default().movement, "{miss:?}");
    let unsettled = |f: &&Finding| f.code == Code::RailUnsettled;
    assert_eq!(board.quick_findings.iter().filter(unsettled).count(), 1);

    let folder = empty("rail-convergence");
    std::fs::write(folder.join("restless.toml"), RESTLESS).unwrap();
    let checked = run_in(&folder, &["check", "restless.toml", "--json"]);
    assert_code(&checked, 0);
    assert!(out(&checked).contains("unsettled"));
    let example = std::fs::read_to_string("examples/twin-5ft8.toml").unwrap();
    std::fs::write(folder.join("settled.toml"), example).unwrap();
    let checked = run_in(&folder, &["check", "settled.toml", "--json"]);
    assert!(!out(&checked).contains("unsettled"));
}

/// Cover and proud that no depth can balance: the guide stays at the end of its range.
#[test]
fn a_depth_at_the_end_of_its_range_says_so() {
    let board = example("twin-5ft8");
    for (cover, proud, deepest) in [(10.0, 0.0, true), (0.0, 10.0, false)] {
        let mut construction = board.design.construction.clone();
        (construction.cover, construction.proud) = (cover, proud);
        let problem = RailProblem::new(&board.shell, &board.rail_context, &construction);
        let rail = problem.solve().unwrap();
        let half = construction.strip.thickness / 2.0;
        assert_eq!(rail.depth, if deepest { half } else { 0.0 });
        let found = rail.convergence;
        assert_eq!(found.balance, Balance::RangeEnd, "{found:?}");
        assert!(found.imbalance.unwrap().abs() > 1.0, "{found:?}");
    }
}
