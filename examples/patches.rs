//! Prints the finished shell's starboard patches as JSON for other programs:
//! `cargo run --release --example patches examples/round-tail-6ft4.toml`.
//!
//! Each patch has its degrees, its clamped knots with repeats, and its control net row by row of rising u; u runs along the board, v round the
//! half section from the bottom's centre. Lengths in mm.

use std::error::Error;

use boardwright::design;
use boardwright::shape::{DEFAULT_TOLERANCE, shell};
use serde_json::json;

fn main() -> Result<(), Box<dyn Error>> {
    let file = std::env::args()
        .nth(1)
        .ok_or("name a design file, such as examples/round-tail-6ft4.toml")?;
    let text = std::fs::read_to_string(&file)?;
    let design = design::parse(&text, &file)?;
    let shell = shell(&design, DEFAULT_TOLERANCE)?;
    let patches: Vec<_> = shell
        .patches
        .iter()
        .map(|patch| {
            let net: Vec<[f64; 3]> = patch.net().iter().map(|p| [p.x, p.y, p.z]).collect();
            json!({
                "degrees": [patch.u().degree(), patch.v().degree()],
                "u": patch.u().knots(),
                "v": patch.v().knots(),
                "net": net,
            })
        })
        .collect();
    let c = &design.construction;
    let told = json!({
        "patches": patches,
        "bottom_skin": c.bottom_skin,
        "deck_skin": c.deck_skin,
        "rib": c.rib,
        "stations": c.rib_stations,
    });
    println!("{told}");
    Ok(())
}
