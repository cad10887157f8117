//! Numbers that solve something: named methods, each with its source and what it promises.
//!
//! [`root`] where the slope is known, [`illinois`] and [`sign_change`] where only values are, [`bisect`] where only an answer is;
//! [`greatest`] for peaks.

mod bisect;
mod golden;
mod illinois;
mod root;

pub use bisect::bisect;
pub use golden::greatest;
pub use illinois::{illinois, sign_change};
pub use root::root;
