//! The board as others see it: drawings, solids, tables, charts and words, none of them a file yet.
//!
//! In: a [`Board`](crate::board::Board). Out: full-size drawings ([`sheets`]), meshes ([`solids`]), how the parts meet ([`dry_fit`]), what is wrong in words
//! ([`findings`]), and what it all comes to ([`report`]), in the neutral forms of [`drawing`], [`table`] and [`chart`] that file formats are written from.
//!
//! Start with [`report::report`] for figures and [`sheets`] for templates.

pub mod chart;
pub mod document;
pub mod drawing;
pub mod dry_fit;
pub mod findings;
pub mod pages;
pub mod report;
pub mod sheets;
pub mod solids;
pub mod table;
