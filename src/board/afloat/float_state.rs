//! How a board lies in sea and in fresh water, alone and ridden.

use super::balance::float;
use super::{Afloat, AfloatError, Hull, Load, Water};
use crate::shape::{Shell, ShellError};

/// A board lying in one water under one load.
#[derive(Debug, Clone, PartialEq)]
pub struct FloatState {
    /// Which water.
    pub water: Water,
    /// Whether the rider is on it.
    pub ridden: bool,
    /// Board and what it carries.
    pub load: Load,
    /// Greatest mass that floats, the board's own included, kg.
    pub carries: f64,
    /// How it lies, or why it does not float.
    pub afloat: Result<Afloat, AfloatError>,
}

impl FloatState {
    /// What it could carry besides, kg; negative by what is too much.
    pub fn spare(&self) -> f64 {
        self.carries - self.load.mass
    }
}

/// How `shell` lies: in the sea and in fresh water, alone and then, if there is one, with its rider.
///
/// # Errors
///
/// [`ShellError`] where a section cannot be taken; a load that does not float is no error.
pub fn float_states(
    shell: &Shell,
    board: Load,
    rider: Option<Load>,
) -> Result<Vec<FloatState>, ShellError> {
    let hull = Hull::new(shell)?;
    let loads = [(board, false)]
        .into_iter()
        .chain(rider.map(|rider| (board.with(rider), true)));
    let of = |(load, ridden): (Load, bool)| {
        [Water::Sea, Water::Fresh].map(|water| FloatState {
            water,
            ridden,
            load,
            carries: hull.volume * 1e-9 * water.density(),
            afloat: float(&hull, shell, load, water),
        })
    };
    Ok(loads.flat_map(of).collect())
}
