//! Draws the README's pictures anew: `cargo run --release --example pictures`.

use std::error::Error;
use std::fs;
use std::path::Path;

use boardwright::{board::Board, design, output::export::svg, views::sheets};

fn main() -> Result<(), Box<dyn Error>> {
    let root = Path::new(env!("CARGO_MANIFEST_DIR")).join("examples");
    let file = "round-tail-6ft4.toml";
    let text = fs::read_to_string(root.join(file))?;
    let board = Board::new(design::parse(&text, file)?)?;
    for sheet in sheets::sheets(&board)? {
        if ["rib-04", "outline", "spine"].contains(&sheet.name.as_str()) {
            let picture = svg::write(&sheet.drawing, &svg::SvgOptions::default())?;
            let path = root.join("pictures").join(format!("{}.svg", sheet.name));
            fs::write(path, picture)?;
        }
    }
    Ok(())
}
