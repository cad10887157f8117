//! What is made of planks: the skins' panels and the rail's strips, as work and as stock.
//!
//! In: the design, the shape and the rail. Out: panels laid flat ([`skin`]), milling steps and cutting plans ([`stock`]), the strips' strains,
//! needs and remedies ([`strip_work`]).
//!
//! Start with [`skin::Panels`] and [`strip_work::RailWood`]; [`stock`] knows nothing of boards but strips' profiles and lengths.

pub mod skin;
pub mod stock;
pub mod strip_work;
