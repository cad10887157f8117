//! Whether a shop can be meant.

use super::StockError;
use super::error::positive;
use crate::design::Shop;

impl Shop {
    /// Checks that every number can be meant.
    ///
    /// # Errors
    ///
    /// [`StockError::Value`] naming the first number that cannot, with the range it must lie in.
    pub fn check(&self) -> Result<(), StockError> {
        let k = &self.kerfs;
        let a = &self.allowances;
        for (what, value, greatest) in [
            ("kerf of the resaw, mm", k.resaw, 20.0),
            ("kerf of the rip saw, mm", k.rip, 20.0),
            ("kerf of the crosscut saw, mm", k.crosscut, 20.0),
            ("allowance to dress a face, mm", a.dress_face, 50.0),
            ("allowance to dress an edge, mm", a.dress_edge, 50.0),
            ("allowance to sand a resawn board, mm", a.sand_leaf, 20.0),
            ("allowance to sand a square, mm", a.sand_square, 20.0),
            ("allowance to mould, mm", a.mould, 20.0),
            ("allowance for plank ends, mm", a.ends, 2000.0),
            ("spare share", self.spare, 2.0),
            ("shortest useful offcut, mm", self.shortest_offcut, 1e5),
            ("stagger of scarfs, mm", self.stagger, 1e4),
            (
                "shortest piece of a scarfed strip, mm",
                self.shortest_piece,
                1e4,
            ),
        ] {
            positive(what, value, 0.0, greatest)?;
        }
        positive("scarf ratio", self.scarf_ratio, 8.0, 50.0)?;
        positive("moisture content, %", self.moisture, 0.0, 30.0)?;
        for plank in &self.planks {
            positive("plank length, mm", plank.length, 1.0, 30_000.0)?;
            positive("plank width, mm", plank.width, 1.0, 2000.0)?;
            positive("plank thickness, mm", plank.thickness, 1.0, 500.0)?;
            positive("plank price", plank.price, 0.0, 1e7)?;
            for inches in plank.nominal.iter().flatten() {
                positive("nominal size, in", *inches, 0.1, 100.0)?;
            }
        }
        Ok(())
    }
}
