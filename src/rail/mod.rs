//! The rail: courses of strips bent round the rib ends, from the bottom skin up to where the deck must sit.
//!
//! In: the shell, the construction, planes of constant x. Out: in each plane the [`Stack`] of courses with its [`Margins`], and from these the
//! [`Strip`]s along the board, what bends them ([`demand`]), and [`rail_findings`] where a course cannot hold.
//!
//! One model serves the ribs and the whole length: the stack is solved in planes of constant x, each strip's own plane
//! square to it being reached by projection along the strip (see [`SquareFrame`]), and the strips' directions are taken
//! from the solved paths themselves until they agree. Start with the page at the head of `solve.rs`.

mod bending;
mod boundary;
mod courses;
mod darboux;
mod findings;
mod frame;
mod ground;
mod joint;
mod lean;
mod margins;
mod profile;
mod run_outs;
mod slices;
mod solve;
mod strips;

pub use bending::{Bar, Demand, Strained, StripDemand, demand};
pub use courses::{Course, Kind, Stack, Starters};
pub use darboux::{Darboux, darboux};
pub use findings::{Limits, rail_findings};
pub use frame::SquareFrame;
pub use joint::{Joint, joint, open_at};
pub use margins::{Margin, Margins};
pub use profile::{Piece, Profile};
pub use slices::{CourseSlice, slice, slices};
pub use solve::{Movement, Rail, Site, solve};
pub use strips::{Landing, Strip, StripPlace, strips};
