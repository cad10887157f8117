//! The command line program; see the library's `cli` module.
fn main() {}
