//! The folder's files.

use super::text::counted;
use crate::views::document::{Block, FileEntry, Section};

/// Files that belong together.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct FileGroup {
    /// What they are.
    pub what: String,
    /// The files.
    pub files: Vec<FileEntry>,
}

/// Every file; groups of several are folded away.
pub(super) fn files(groups: &[FileGroup]) -> Section {
    let blocks = groups.iter().filter(|g| !g.files.is_empty()).map(|group| {
        let files = Block::Files(group.files.clone());
        match group.files.len() {
            1 => files,
            n => Block::Folded {
                summary: format!("{}: {}", group.what, counted(n, "file", "files")),
                blocks: vec![files],
            },
        }
    });
    Section::new("Files", blocks.collect())
}
