//! Patches against closed forms and differences.
#![allow(clippy::unwrap_used, clippy::panic)]

mod curvature;
mod integrals;
mod loft_points;
mod patches;
mod properties;
mod sections;
