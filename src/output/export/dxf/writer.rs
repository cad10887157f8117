//! Group codes and values, one a line.

use crate::output::export::number::{self, BULGE, COORDINATE};

/// A DXF text under construction.
pub(super) struct Writer {
    pub text: String,
}

impl Writer {
    pub fn with_capacity(bytes: usize) -> Self {
        Self {
            text: String::with_capacity(bytes),
        }
    }

    fn code(&mut self, code: u16) {
        number::push_scaled(&mut self.text, i64::from(code), 0);
        self.text.push('\n');
    }

    /// A word.
    pub fn word(&mut self, code: u16, value: &str) {
        self.code(code);
        self.text.push_str(value);
        self.text.push('\n');
    }

    /// Several words.
    pub fn words(&mut self, pairs: &[(u16, &str)]) {
        for &(code, value) in pairs {
            self.word(code, value);
        }
    }

    /// A whole number.
    pub fn whole(&mut self, code: u16, value: i64) {
        self.code(code);
        number::push_scaled(&mut self.text, value, 0);
        self.text.push('\n');
    }

    /// A handle.
    pub fn handle(&mut self, code: u16, handle: u32) {
        self.word(code, &format!("{handle:X}"));
    }

    /// A coordinate or length.
    pub fn length(&mut self, code: u16, value: f64) {
        self.code(code);
        number::push(&mut self.text, value, COORDINATE);
        self.text.push('\n');
    }

    /// A coordinate in grains.
    pub fn grains(&mut self, code: u16, value: i64) {
        self.code(code);
        number::push_scaled(&mut self.text, value, COORDINATE);
        self.text.push('\n');
    }

    /// A bulge or another ratio.
    pub fn ratio(&mut self, code: u16, value: f64) {
        self.code(code);
        number::push(&mut self.text, value, BULGE);
        self.text.push('\n');
    }

    /// A point in the plane; `z` as a zero when the entity wants one.
    pub fn point(&mut self, code: u16, x: f64, y: f64, with_z: bool) {
        self.length(code, x);
        self.length(code + 10, y);
        if with_z {
            self.word(code + 20, "0");
        }
    }

    /// A header variable of one value.
    pub fn variable(&mut self, name: &str, code: u16, value: &str) {
        self.words(&[(9, name), (code, value)]);
    }
}
