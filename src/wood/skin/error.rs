//! What can stop a skin from being laid flat.

use crate::shape::ShellError;

/// Why a triangle mesh has no flat image.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
#[non_exhaustive]
pub enum FlattenError {
    /// A vertex has a coordinate that is no number.
    #[error("vertex {0} of the mesh is not finite; correct its coordinates")]
    NotFinite(usize),
    /// A triangle names a vertex that is not there, or one twice.
    #[error("triangle {0} names a vertex twice or one that does not exist; correct its indices")]
    Index(usize),
    /// A triangle has no area to speak of.
    #[error(
        "triangle {0} has no area; merge vertices that coincide or divide the surface otherwise"
    )]
    Sliver(usize),
    /// The triangles are not one patch with one border.
    #[error("the triangles do not form a disc: {0}; cut the surface so that it has one border")]
    NotADisc(&'static str),
    /// The search for the flat shape did not come to rest.
    #[error(
        "the flat shape had not come to rest after {rounds} rounds (last step {step:.2e} mm); split the surface into flatter pieces"
    )]
    Unsettled {
        /// Newton rounds taken.
        rounds: usize,
        /// Greatest movement of a vertex in the last one, mm.
        step: f64,
    },
    /// Some triangles come to lie upside down.
    #[error(
        "{count} triangles fold over when laid flat, the first being {first}; split the surface into flatter pieces"
    )]
    Folded {
        /// How many.
        count: usize,
        /// The first.
        first: usize,
    },
}

/// Why a skin could not be developed.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
#[non_exhaustive]
pub enum SkinError {
    /// An option is outside what makes sense.
    #[error("the {what} is {value} mm; give a value from {least} to {greatest} mm")]
    Option {
        /// Which.
        what: &'static str,
        /// The value given, mm.
        value: f64,
        /// Least value allowed, mm.
        least: f64,
        /// Greatest value allowed, mm.
        greatest: f64,
    },
    /// Nowhere along the board does the skin follow the surface.
    #[error(
        "the {face} skin, {thickness:.1} mm thick, finds no surface to follow; make the board thicker or the skin thinner"
    )]
    NoSurface {
        /// Bottom or deck.
        face: &'static str,
        /// Its thickness, mm.
        thickness: f64,
    },
    /// The surface could not be laid flat.
    #[error("the {face} skin cannot be laid flat: {source}")]
    Flatten {
        /// Bottom or deck.
        face: &'static str,
        /// Why.
        source: FlattenError,
    },
    /// The shell refused.
    #[error(transparent)]
    Shell(#[from] ShellError),
}
