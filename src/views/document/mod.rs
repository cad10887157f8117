//! Neutral pages: what a reader is to see, in order, without a word of HTML and no code of a terminal.
//!
//! A [`Document`] is made once from a board and shown by several renderers, so that every figure and every word is written in one place. Numbers
//! stay numbers ([`Quantity`](super::table::Quantity)) until a renderer prints them in the document's unit.

mod glue;
mod prose;

pub use glue::{GLUE, glued, unbroken};
pub use prose::{Prose, Span};

use super::drawing::{Drawing, Shading};
use super::findings::sentence;
use super::table::Table;
use crate::design::units::Unit;

/// A page.
#[derive(Debug, Clone, PartialEq)]
pub struct Document {
    /// Its title.
    pub title: String,
    /// The unit its reader thinks in.
    pub unit: Unit,
    /// What stands before the first section.
    pub lead: Vec<Block>,
    /// The sections, in the order of a page.
    pub sections: Vec<Section>,
}

/// A part of a page under a heading.
#[derive(Debug, Clone, PartialEq)]
pub struct Section {
    /// Its heading.
    pub heading: String,
    /// What belongs beside the heading, in a line; may be empty.
    pub aside: Prose,
    /// What is in it.
    pub blocks: Vec<Block>,
    /// Whether it is what the reader must not miss: a page shows it early, where it stands; a terminal last, where the eye ends up.
    pub is_verdict: bool,
}

/// What a page is built of.
#[derive(Debug, Clone, PartialEq)]
pub enum Block {
    /// A paragraph.
    Text(Tone, Prose),
    /// A table; numbers are set flush right.
    Table(Table),
    /// Names with what they are or mean.
    Definitions(Vec<Definition>),
    /// Errors, warnings and notes.
    Findings(Vec<Remark>),
    /// A sketch in characters of one width.
    Sketch(String),
    /// Pictures.
    Pictures(Vec<Picture>),
    /// Files of the folder.
    Files(Vec<FileEntry>),
    /// A step of work with what to mind beside it.
    Step(Step),
    /// Detail that a page may fold away until it is wanted.
    Folded {
        /// What stands for it while it is folded.
        summary: String,
        /// The detail.
        blocks: Vec<Block>,
    },
}

/// How much weight words have.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Tone {
    /// The page's own text.
    Plain,
    /// An explanation for those who want one.
    Small,
    /// Something to know that stops no board.
    Note,
    /// Something that will not do as it stands.
    Warning,
    /// Something that cannot be built.
    Error,
}

/// A name and what it is.
#[derive(Debug, Clone, PartialEq)]
pub struct Definition {
    /// The name.
    pub term: String,
    /// What it is or means.
    pub text: Prose,
}

/// One error, warning or note, in words.
#[derive(Debug, Clone, PartialEq)]
pub struct Remark {
    /// Error, warning or note.
    pub tone: Tone,
    /// The finding's code, by which it is explained.
    pub code: Option<&'static str>,
    /// What is wrong.
    pub headline: String,
    /// Where, and how bad at worst; empty where the headline says it all.
    pub extent: String,
    /// What to change, each enough by itself, the easiest first.
    pub remedies: Vec<String>,
    /// Detail rib by rib: the rib's number and what there is more to say of it.
    pub ribs: Vec<(usize, String)>,
}

/// A picture.
#[derive(Debug, Clone, PartialEq)]
pub struct Picture {
    /// What it shows.
    pub image: Image,
    /// How much of the page it takes.
    pub width: Width,
    /// What stands under it.
    pub caption: Prose,
}

/// What a picture is drawn from.
#[derive(Debug, Clone, PartialEq)]
pub enum Image {
    /// The lines of a drawing, without its words.
    Lines(Drawing),
    /// A drawing with its words, large enough to read them.
    Sheet(Drawing),
    /// A coloured map.
    Map(Shading),
}

/// How much of a page's width a picture takes.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Width {
    /// All of it.
    Full,
    /// About a third, beside others.
    Third,
}

/// A file of the folder.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct FileEntry {
    /// Its path below the folder, with `/` between names.
    pub path: String,
    /// What it is.
    pub what: String,
    /// Its size.
    pub bytes: usize,
}

/// A step of work.
#[derive(Debug, Clone, PartialEq)]
pub struct Step {
    /// Its name with its number.
    pub heading: String,
    /// What to do.
    pub work: Vec<Prose>,
    /// What to mind.
    pub cautions: Vec<String>,
}

impl Section {
    /// A section with nothing beside its heading.
    pub fn new(heading: &str, blocks: Vec<Block>) -> Self {
        Self {
            heading: heading.to_owned(),
            aside: Prose::default(),
            blocks,
            is_verdict: false,
        }
    }

    /// The same with `aside` beside the heading.
    pub fn with_aside(self, aside: impl Into<Prose>) -> Self {
        Self {
            aside: aside.into(),
            ..self
        }
    }
}

impl Block {
    /// A paragraph of the page's own text.
    pub fn text(words: impl Into<Prose>) -> Self {
        Self::Text(Tone::Plain, words.into())
    }

    /// An explanation.
    pub fn small(words: impl Into<Prose>) -> Self {
        Self::Text(Tone::Small, words.into())
    }
}

impl Definition {
    /// `term` with its meaning.
    pub fn new(term: &str, text: impl Into<Prose>) -> Self {
        Self {
            term: term.to_owned(),
            text: text.into(),
        }
    }
}

impl Remark {
    /// What is wrong and where, in a sentence without its point, with the code in brackets.
    pub fn sentence(&self) -> String {
        sentence(&self.headline, &self.extent, self.code)
    }
}

impl Tone {
    /// The word for it.
    pub fn name(self) -> &'static str {
        match self {
            Self::Plain => "plain",
            Self::Small => "small",
            Self::Note => "note",
            Self::Warning => "warning",
            Self::Error => "error",
        }
    }
}

impl Document {
    /// Every table, those folded away too, in order.
    pub fn tables(&self) -> Vec<&Table> {
        fn collect<'a>(blocks: &'a [Block], found: &mut Vec<&'a Table>) {
            for block in blocks {
                match block {
                    Block::Table(table) => found.push(table),
                    Block::Folded { blocks, .. } => collect(blocks, found),
                    _ => {}
                }
            }
        }
        let mut found = Vec::new();
        collect(&self.lead, &mut found);
        for section in &self.sections {
            collect(&section.blocks, &mut found);
        }
        found
    }
}
