//! `boardwright schema`.

use super::failure::Failure;
use super::print;
use crate::design::schema;

pub(super) fn run() -> Result<u8, Failure> {
    print(&format!("{:#}\n", schema()))?;
    Ok(0)
}
