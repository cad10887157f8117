//! Running text: plain words, strong ones, and links.

/// A stretch of text.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Span {
    /// Words.
    Plain(String),
    /// Words that stand out.
    Strong(String),
    /// Words that lead to a file of the same folder.
    Link {
        /// The words.
        text: String,
        /// The file's path below the folder.
        to: String,
    },
}

/// Running text in stretches, one after another without a space between.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Prose(pub Vec<Span>);

impl Prose {
    /// The same with plain words after it.
    pub fn and(mut self, words: impl Into<String>) -> Self {
        self.0.push(Span::Plain(words.into()));
        self
    }

    /// The same with words after it that stand out.
    pub fn strong(mut self, words: impl Into<String>) -> Self {
        self.0.push(Span::Strong(words.into()));
        self
    }

    /// The same with a link after it to `to`, a path below the folder.
    pub fn link(mut self, text: impl Into<String>, to: impl Into<String>) -> Self {
        self.0.push(Span::Link {
            text: text.into(),
            to: to.into(),
        });
        self
    }

    /// Whether there is nothing to read.
    pub fn is_empty(&self) -> bool {
        self.plain().is_empty()
    }

    /// The words alone.
    pub fn plain(&self) -> String {
        self.0
            .iter()
            .map(|span| match span {
                Span::Plain(text) | Span::Strong(text) | Span::Link { text, .. } => text.as_str(),
            })
            .collect()
    }
}

impl From<&str> for Prose {
    fn from(words: &str) -> Self {
        Self::default().and(words)
    }
}

impl From<String> for Prose {
    fn from(words: String) -> Self {
        Self::default().and(words)
    }
}
