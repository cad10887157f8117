//! Colours, where they are wanted.

use clap::ValueEnum;

/// When to colour.
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
pub(super) enum When {
    /// On a terminal, unless NO_COLOR is set.
    Auto,
    /// Always.
    Always,
    /// Never.
    Never,
}

/// Colours a stream's words or leaves them plain.
#[derive(Debug, Clone, Copy)]
pub(super) struct Paint(bool);

impl Paint {
    /// For a stream that is, or is not, a terminal.
    pub fn new(when: When, terminal: bool) -> Self {
        let asked_not = std::env::var_os("NO_COLOR").is_some_and(|v| !v.is_empty());
        let dumb = std::env::var_os("TERM").is_some_and(|v| v == "dumb");
        Self(match when {
            When::Always => true,
            When::Never => false,
            When::Auto => terminal && !asked_not && !dumb,
        })
    }

    fn wrap(self, code: &str, text: &str) -> String {
        if self.0 {
            format!("\u{1b}[{code}m{text}\u{1b}[0m")
        } else {
            text.to_owned()
        }
    }

    pub fn bold(self, text: &str) -> String {
        self.wrap("1", text)
    }

    pub fn red(self, text: &str) -> String {
        self.wrap("1;31", text)
    }

    pub fn yellow(self, text: &str) -> String {
        self.wrap("33", text)
    }

    pub fn dim(self, text: &str) -> String {
        self.wrap("2", text)
    }
}
