//! boardwright: a parametric CAD kernel for hollow wooden surfboards.
//!
//! Data flows one way, and so do the modules: [`geometry`] → [`design`] → [`shape`] → [`rail`] → [`frame`] → [`wood`] → [`board`] → [`views`] →
//! [`output`] → [`cli`]. Each has a page that says what comes in, what goes out, and where to start reading.
//! Lengths are millimetres and angles radians everywhere inside the library. [`tour`] walks from a design to its files in six steps.

pub mod board;
#[cfg(feature = "cli")]
pub mod cli;
pub mod design;
pub mod frame;
pub mod geometry;
pub mod output;
pub mod rail;
pub mod shape;
pub mod tour;
pub mod views;
pub mod wood;
