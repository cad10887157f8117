//! Why a board does not float.

use crate::shape::ShellError;

/// Why no waterline could be found.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
#[non_exhaustive]
pub enum AfloatError {
    /// The load is heavier than the water the whole board displaces.
    #[error(
        "{mass:.2} kg sinks the board, which carries {carries:.2} kg all told in this water; take off {over:.2} kg or add {litres:.2} litres of volume",
        over = .mass - .carries,
    )]
    Sinks {
        /// Mass of board and load, kg.
        mass: f64,
        /// Greatest mass that floats, kg.
        carries: f64,
        /// Volume that is missing, litres.
        litres: f64,
    },
    /// A mass, a place or a density is no such thing.
    #[error("the {what} is {value}; give {wanted}")]
    Given {
        /// Which.
        what: &'static str,
        /// The value given.
        value: f64,
        /// What is allowed.
        wanted: &'static str,
    },
    /// The board stands on end or turns over lengthwise before it finds its trim.
    #[error(
        "no trim below 45° balances a centre of gravity at x = {x:.0} mm, z = {z:.0} mm; move the load towards the middle or lower"
    )]
    NoTrim {
        /// Centre of gravity, mm from the tail.
        x: f64,
        /// Its height over the base plane, mm.
        z: f64,
    },
    /// The shell refused.
    #[error(transparent)]
    Shell(#[from] ShellError),
}
