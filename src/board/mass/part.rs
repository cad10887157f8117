//! A part of the finished board as mass.

use serde::Serialize;

/// What a part is of.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[serde(rename_all = "lowercase")]
#[non_exhaustive]
pub enum Material {
    /// Wood, weighed by its volume.
    Wood,
    /// Glue, by the area glued.
    Glue,
    /// Oil, or cloth and resin, by the surface.
    Finish,
    /// Fins, plugs and the like, as given.
    Fitting,
}

/// A part, or several alike.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Part {
    /// What it is.
    pub name: String,
    /// What it is of, broadly.
    pub material: Material,
    /// The species, or the glue or finish by name.
    pub of: String,
    /// How many pieces it stands for.
    pub count: usize,
    /// Volume, mm³, of wood.
    pub volume: Option<f64>,
    /// Area, mm², of glue or finish.
    pub area: Option<f64>,
    /// Mass, kg.
    pub mass: f64,
    /// Centre of gravity (x, z), mm from the tail and over the base plane.
    pub centre: [f64; 2],
}
