//! What can be wrong with a shop, a profile or a cutting list.

use super::lengths::LengthsError;
use crate::design::timber::TimberError;

/// Why stock could not be planned.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
#[non_exhaustive]
pub enum StockError {
    /// A number that cannot be meant.
    #[error("{what} is {value}, outside {least} to {greatest}; give a value inside")]
    Value {
        /// The quantity, with its unit.
        what: &'static str,
        /// The value given.
        value: f64,
        /// Least value allowed.
        least: f64,
        /// Greatest value allowed.
        greatest: f64,
    },
    /// No planks at all.
    #[error("the shop has no planks; add at least one size with length, width and thickness")]
    NoPlanks,
    /// No plank is large enough for a strip's section.
    #[error(
        "no plank yields a {thickness:.1} × {width:.1} mm blank for a {profile}; add a thicker or wider plank, or take smaller allowances"
    )]
    TooSmall {
        /// The profile's name.
        profile: &'static str,
        /// Rough thickness, mm.
        thickness: f64,
        /// Rough width, mm.
        width: f64,
    },
    /// A strip cannot be scarfed together from the planks there are.
    #[error(
        "strip {strip} of {length:.0} mm cannot be scarfed from pieces up to {piece:.0} mm with its joints off the tight bends and \
         {stagger:.0} mm from its neighbours'; get longer planks, or give the joints more room"
    )]
    Scarf {
        /// The strip's number.
        strip: usize,
        /// Blank length, mm.
        length: f64,
        /// Longest piece the planks give, mm.
        piece: f64,
        /// Least stagger asked for, mm.
        stagger: f64,
    },
    /// The planks on hand do not suffice.
    #[error(
        "the planks on hand do not yield all strips: {length:.0} mm of strip is needed; add planks, or let some be bought without limit"
    )]
    NotEnough {
        /// Total length of strips, mm.
        length: f64,
    },
    /// The search ended before it found any plan.
    #[error(
        "no cutting plan was found among so many ways to cut; leave out sizes of planks that are not needed, or add a longer one"
    )]
    Unfinished,
    /// A one-dimensional problem could not be set up.
    #[error(transparent)]
    Lengths(#[from] LengthsError),
    /// The species is unknown or lacks a property.
    #[error(transparent)]
    Timber(#[from] TimberError),
}

/// `value` if it is finite and within `least..=greatest`.
pub(super) fn positive(
    what: &'static str,
    value: f64,
    least: f64,
    greatest: f64,
) -> Result<f64, StockError> {
    if value >= least && value <= greatest {
        Ok(value)
    } else {
        Err(StockError::Value {
            what,
            value,
            least,
            greatest,
        })
    }
}
