//! Numbers that solve something: named methods, each with its source and what it promises.

mod root;

pub use root::root;
