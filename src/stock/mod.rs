//! Stock: how planks become strips, machine by machine, and which plank yields which strips.

pub mod lengths;
