//! Patches against closed forms and differences.

mod curvature;
mod integrals;
mod patches;
mod properties;
mod sections;
