//! Prints the measures of a design file: `cargo run --release --example measure examples/twin-5ft8.toml`.

use std::error::Error;

use boardwright::{board::Board, design, views::report};

fn main() -> Result<(), Box<dyn Error>> {
    let file = std::env::args()
        .nth(1)
        .ok_or("name a design file, such as examples/twin-5ft8.toml")?;
    let text = std::fs::read_to_string(&file)?;
    // Faults print with file, line, column and remedy.
    let design = design::parse(&text, &file).inspect_err(|faults| eprintln!("{faults}"))?;
    let board = Board::new(design)?;
    println!("{}", board.design.name);
    for measure in report::measure_list(&board) {
        let value = measure.value.text(board.design.report);
        println!("{:>12}  {}", value, measure.name);
    }
    Ok(())
}
