//! What is made of planks: the skins' panels and the rail's strips, as work and as stock.
//!
//! In: the design, the shape and the rail. Out: panels laid flat ([`skin`]), milling steps and cutting plans ([`stock`]), the strips' strains,
//! needs and remedies ([`yard`]).
//!
//! Start with [`skin::Panels`] and [`yard::Yard`]; [`stock`] knows nothing of boards but strips' profiles and lengths.

pub mod skin;
pub mod stock;
pub mod yard;
