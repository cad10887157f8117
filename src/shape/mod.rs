//! The finished shape.
//!
//! In: a [`Design`]. Out: outline, rocker, foil and sections lofted to B-spline patches (the [`Shell`]), its [`measures`], and in planes of
//! constant x what the rail and the frame are built between: the surface moved inward ([`Cut`]) and the skins' inner faces ([`SkinFace`]).
//!
//! Start with [`BoardFamily`], which gives the exact section anywhere, and [`loft`], which makes patches of it; from there on the patches are the truth.

mod deck;
mod error;
mod family;
mod findings;
mod foil;
mod half_section;
mod inset;
mod key_faults;
mod loft;
mod measures;
mod outline;
mod plane_line;
mod rocker;
mod skin_face;
mod station_blend;

pub use error::ShellError;
pub use family::BoardFamily;
pub use findings::shape_findings;
pub use half_section::{HalfSection, Mark};
pub(crate) use inset::PlaneSection;
pub use inset::{Cut, InsetPoint, Side};
pub use key_faults::key_faults;
pub use loft::{DEFAULT_TOLERANCE, End, Family, Shell, loft};
pub use measures::{Measures, SectionArea, measures};
pub use outline::{PlanShape, TWELVE_INCHES};
pub use plane_line::PlaneLine;
pub(crate) use plane_line::{LINE_ACCURACY, LinePiece};
pub use rocker::RockerLine;
pub use skin_face::SkinFace;
pub(crate) use skin_face::{at_depth, faces, land_at_depth};

use crate::design::Design;

/// Lofts the shell of `design` within `tolerance` mm of its sections.
pub fn shell(design: &Design, tolerance: f64) -> Result<Shell, ShellError> {
    loft(&BoardFamily::new(design)?, tolerance)
}
