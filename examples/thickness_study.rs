//! How volume and rail follow a board's thickness: the same design with its foil scaled from 85 % to 115 %.
//!
//! `cargo run --release --example thickness_study`

use std::error::Error;

use boardwright::design::{self, Foil, units};
use boardwright::{board::Board, views::report};

fn main() -> Result<(), Box<dyn Error>> {
    let text = include_str!("round-tail-6ft4.toml");
    let design = design::parse(text, "round-tail-6ft4.toml")?;
    println!(
        "{}: thickness, volume, courses at the middle rib, worst joint roll",
        design.name
    );
    for percent in (85..=115).step_by(5) {
        let mut points = design.foil.points(design.length);
        for point in &mut points {
            point[1] *= f64::from(percent) / 100.0;
        }
        let study = design.with(|draft| draft.foil = Foil::Points(points))?;
        let board = match Board::new(study) {
            Ok(board) => board,
            // A thin board may leave a rib no room; that is an answer too.
            Err(error) => {
                println!("{percent:>4} %  {error}");
                continue;
            }
        };
        let report = report::report(&board);
        let middle = report.ribs.get(report.ribs.len() / 2);
        println!(
            "{percent:>4} %  {:>7}  {:>7}  {:>2}  {:>5.1}°",
            units::mm(board.measures.thickness, 1),
            units::litres(board.measures.volume),
            middle.map_or(0, |rib| rib.courses),
            report.rail.at_ribs.roll.map_or(0.0, |worst| worst.value),
        );
    }
    Ok(())
}
