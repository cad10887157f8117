//! The pages of a board: every figure and every word that a reader sees is put together here, once.
//!
//! In: a [`Board`] and its [`Report`]. Out: a [`Document`] of the whole board ([`board`]), of the work at the machines ([`milling`]), of a dry
//! fit ([`dry_fit`]), of what findings mean ([`explain()`]). A word that only this program uses is explained in the section where it first appears.

mod attachments;
mod cautions;
mod explain;
mod files;
mod findings;
mod fit;
mod frame;
mod gallery;
mod mass;
mod measures;
mod milling;
mod rail;
mod skins;
mod strips;
mod text;
mod wood;

pub use attachments::{Attachments, INDEX, MILLING};
pub use cautions::CAUTIONS;
pub use explain::{codes, explain};
pub use files::FileGroup;
pub use fit::dry_fit;
pub use milling::milling;

use super::document::{Block, Document};
use super::report::Report;
use crate::board::Board;

/// The page of `board`, whose report is given; without attachments it names no file.
pub fn board(board: &Board, report: &Report, attached: Option<&Attachments<'_>>) -> Document {
    let mut sections = vec![measures::measures(board)];
    sections.extend(findings::findings(report));
    sections.push(measures::rocker(board));
    sections.push(frame::frame(report));
    sections.push(rail::rail(report));
    sections.push(strips::strips(board, report, attached));
    sections.push(wood::wood(report, attached));
    sections.push(skins::skins(report, attached));
    sections.push(mass::mass(report));
    sections.push(mass::afloat(board, report, attached.is_some()));
    sections.extend(frame::fittings(board));
    sections.extend(frame::bed(board));
    if let Some(attached) = attached {
        sections.push(gallery::templates(attached.sheets));
        sections.push(files::files(attached.groups));
        sections.push(cautions::section());
    }
    let notes = report.notes.trim();
    Document {
        title: report.name.clone(),
        unit: report.report,
        lead: (!notes.is_empty())
            .then(|| Block::text(notes))
            .into_iter()
            .collect(),
        sections,
    }
}
