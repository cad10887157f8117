//! One-dimensional cutting against published optima and against trying everything.
#![allow(clippy::unwrap_used, clippy::panic)]

use boardwright::wood::stock::lengths::{Outcome, PieceLength, Problem, Stock};
use proptest::prelude::*;

/// A plan must cut every piece as often as wanted, within its stock and the stock there is, and cost what it says.
fn sound(problem: &Problem, outcome: &Outcome) {
    let Some(plan) = &outcome.plan else { return };
    let mut cut = vec![0; problem.pieces.len()];
    let mut used = vec![0; problem.stock.len()];
    for bin in plan {
        let length: u32 = bin
            .pieces
            .iter()
            .map(|&(i, n)| problem.pieces[i].length * n)
            .sum();
        assert!(length <= problem.stock[bin.stock].length);
        used[bin.stock] += 1;
        for &(i, n) in &bin.pieces {
            cut[i] += n;
        }
    }
    assert!(cut.iter().zip(&problem.pieces).all(|(c, p)| *c == p.count));
    for (n, s) in used.iter().zip(&problem.stock) {
        assert!(s.count.is_none_or(|c| *n <= c));
    }
    let cost: u64 = used
        .iter()
        .zip(&problem.stock)
        .map(|(n, s)| u64::from(*n) * s.cost)
        .sum();
    assert_eq!(cost, outcome.cost);
    assert!(outcome.bound <= outcome.cost);
    assert_eq!(outcome.optimal, outcome.bound == outcome.cost);
}

fn numbers(text: &str) -> Vec<u32> {
    text.lines()
        .filter(|l| !l.starts_with('#'))
        .flat_map(|l| {
            l.split_whitespace()
                .map(|w| w.parse().unwrap())
                .collect::<Vec<_>>()
        })
        .collect()
}

fn solve(problem: &Problem) -> Outcome {
    let outcome = problem.solve(Problem::EFFORT).unwrap();
    sound(problem, &outcome);
    outcome
}

fn bins(capacity: u32) -> Vec<Stock> {
    vec![Stock {
        length: capacity,
        cost: 1,
        count: None,
    }]
}

fn bin_packing(text: &str) {
    let n = numbers(text);
    let pieces = n[3..]
        .iter()
        .map(|&length| PieceLength { length, count: 1 })
        .collect::<Vec<_>>();
    assert_eq!(pieces.len() as u32, n[1]);
    let start = std::time::Instant::now();
    let outcome = solve(&Problem {
        stock: bins(n[0]),
        pieces,
    });
    eprintln!(
        "{} bins, bound {}, {} nodes, {:?}",
        outcome.cost,
        outcome.bound,
        outcome.nodes,
        start.elapsed()
    );
    assert!(outcome.optimal);
    assert_eq!(outcome.cost, u64::from(n[2]));
}

#[test]
fn published_uniform_instance_00() {
    bin_packing(include_str!("../fixtures/binpack_u120_00.txt"));
}

#[test]
fn published_uniform_instance_01() {
    bin_packing(include_str!("../fixtures/binpack_u120_01.txt"));
}

#[test]
fn published_uniform_instance_02() {
    bin_packing(include_str!("../fixtures/binpack_u120_02.txt"));
}

#[test]
fn published_triplets() {
    bin_packing(include_str!("../fixtures/binpack_t60_00.txt"));
}

#[test]
fn published_paper_rolls() {
    let n = numbers(include_str!("../fixtures/cutting_paper_5600.txt"));
    let pieces = n[3..]
        .chunks(2)
        .map(|c| PieceLength {
            length: c[0],
            count: c[1],
        })
        .collect::<Vec<_>>();
    assert_eq!(pieces.len() as u32, n[1]);
    let start = std::time::Instant::now();
    let outcome = solve(&Problem {
        stock: bins(n[0]),
        pieces,
    });
    eprintln!(
        "{} rolls, bound {}, {} nodes, {:?}",
        outcome.cost,
        outcome.bound,
        outcome.nodes,
        start.elapsed()
    );
    assert!(outcome.optimal);
    assert_eq!(outcome.cost, u64::from(n[2]));
}

/// A gap of one between the rounded bound and the optimum must be closed by search: three pieces of 1/2 + pieces that do not pair.
#[test]
fn a_bound_that_is_not_met_is_refuted_by_search() {
    // Halves, thirds, ninths… of 18: LP 3.0 or less, no plan of 3 (found by exhausting).
    let pieces = [(9, 2), (6, 2), (4, 2), (11, 1), (3, 1)]
        .map(|(length, count)| PieceLength { length, count })
        .to_vec();
    let problem = Problem {
        stock: bins(18),
        pieces,
    };
    let outcome = solve(&problem);
    assert_eq!(Some(outcome.cost), exhaustive(&problem));
}

#[test]
fn too_little_stock_is_proven() {
    let stock = vec![Stock {
        length: 100,
        cost: 1,
        count: Some(2),
    }];
    let pieces = vec![PieceLength {
        length: 51,
        count: 3,
    }];
    let outcome = solve(&Problem { stock, pieces });
    assert!(outcome.plan.is_none() && outcome.optimal);
}

#[test]
fn faults_are_named() {
    let wrong = |length, piece| {
        Problem {
            stock: bins(length),
            pieces: vec![PieceLength {
                length: piece,
                count: 1,
            }],
        }
        .solve(1000)
    };
    assert!(wrong(100, 101).unwrap_err().to_string().contains("scarf"));
    assert!(wrong(100, 0).is_err() && wrong(0, 1).is_err());
    assert!(wrong(u32::MAX, 1).is_err());
    let nothing = Problem {
        stock: vec![],
        pieces: vec![],
    };
    assert_eq!(solve(&nothing).cost, 0);
}

/// Least cost by trying every piece in every open or new length of stock.
fn exhaustive(problem: &Problem) -> Option<u64> {
    let pieces: Vec<u32> = problem
        .pieces
        .iter()
        .flat_map(|p| std::iter::repeat_n(p.length, p.count as usize))
        .collect();
    fn go(
        p: &Problem,
        pieces: &[u32],
        open: &mut Vec<u32>,
        used: &mut Vec<u32>,
        cost: u64,
        best: &mut Option<u64>,
    ) {
        if best.is_some_and(|b| cost >= b) {
            return;
        }
        let Some((&piece, rest)) = pieces.split_first() else {
            *best = Some(cost);
            return;
        };
        for i in 0..open.len() {
            if open[i] >= piece {
                open[i] -= piece;
                go(p, rest, open, used, cost, best);
                open[i] += piece;
            }
        }
        for (j, s) in p.stock.iter().enumerate() {
            if s.length >= piece && s.count.is_none_or(|c| used[j] < c) {
                used[j] += 1;
                open.push(s.length - piece);
                go(p, rest, open, used, cost + s.cost, best);
                open.pop();
                used[j] -= 1;
            }
        }
    }
    let mut best = None;
    go(
        problem,
        &pieces,
        &mut vec![],
        &mut vec![0; problem.stock.len()],
        0,
        &mut best,
    );
    best
}

fn small() -> impl Strategy<Value = Problem> {
    let stock = prop::collection::vec((10..40u32, 1..9u64, prop::option::of(0..4u32)), 1..4);
    let pieces = prop::collection::vec((1..40u32, 1..3u32), 1..6);
    (stock, pieces).prop_map(|(stock, pieces)| {
        let longest = stock.iter().map(|s| s.0).max().unwrap_or(10);
        Problem {
            stock: stock
                .into_iter()
                .map(|(length, cost, count)| Stock {
                    length,
                    cost,
                    count,
                })
                .collect(),
            pieces: pieces
                .into_iter()
                .map(|(l, count)| PieceLength {
                    length: l.min(longest),
                    count,
                })
                .collect(),
        }
    })
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(600))]

    #[test]
    fn no_plan_betters_trying_everything(problem in small()) {
        let outcome = problem.solve(Problem::EFFORT).unwrap();
        sound(&problem, &outcome);
        prop_assert!(outcome.optimal);
        prop_assert_eq!(outcome.plan.as_ref().map(|_| outcome.cost), exhaustive(&problem));
    }

    #[test]
    fn a_starved_search_still_tells_the_truth(problem in small(), effort in 0..3000u64) {
        let outcome = problem.solve(effort).unwrap();
        sound(&problem, &outcome);
        if let Some(best) = exhaustive(&problem) {
            prop_assert!(outcome.bound <= best);
            prop_assert!(outcome.plan.is_none() || outcome.cost >= best);
            prop_assert!(outcome.plan.is_some() || !outcome.optimal);
        } else {
            prop_assert!(outcome.plan.is_none());
        }
    }
}

/// Thousands of bars, one to two pieces each: the search must stop at its depth, not at the end of its stack.
#[test]
fn long_lists_end_with_a_sound_plan() {
    let pieces = (0..40)
        .map(|k| PieceLength {
            length: 31 + k,
            count: 120,
        })
        .collect();
    let problem = Problem {
        stock: bins(100),
        pieces,
    };
    let outcome = problem.solve(30_000_000).unwrap();
    sound(&problem, &outcome);
    assert!(
        outcome.plan.is_some() && outcome.gap() < 0.05,
        "{}",
        outcome.gap()
    );
}
