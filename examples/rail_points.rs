//! Prints where a strip passes every plane in which the rail is solved, as CSV for other programs:
//! `cargo run --release --example rail_points examples/round-tail-6ft4.toml 4`.
//!
//! Columns: the mid-line's point x, y, z in mm and the unit direction of the strip's thickness, outward.

use std::error::Error;

use boardwright::{board::Board, design};

fn main() -> Result<(), Box<dyn Error>> {
    let mut words = std::env::args().skip(1);
    let (Some(file), Some(number)) = (words.next(), words.next()) else {
        return Err("name a design file and the number of a strip".into());
    };
    let number: usize = number.parse()?;
    let text = std::fs::read_to_string(&file)?;
    let board = Board::new(design::parse(&text, &file)?)?;
    let strip = number
        .checked_sub(1)
        .and_then(|i| board.strips.get(i))
        .ok_or_else(|| format!("strips are numbered from 1 to {}", board.strips.len()))?;
    println!("x,y,z,out_x,out_y,out_z");
    for (point, out) in strip.solved(&board.rail) {
        println!(
            "{:.9},{:.9},{:.9},{:.12},{:.12},{:.12}",
            point.x, point.y, point.z, out.x, out.y, out.z
        );
    }
    Ok(())
}
