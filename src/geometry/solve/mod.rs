//! Numbers that solve something: named methods, each with its source and what it promises.
//!
//! [`root`] and [`newton_between`] where the slope is known, [`illinois`] and [`sign_change`] where only values are, [`bisect`] where only an answer is;
//! [`greatest`] for peaks; [`fixed_point`] for values that reproduce themselves, [`newton`] for systems, [`backtrack`] for the length of a step.
//! The last three have a report, or an answer, for what does not converge.

mod bisect;
mod fixed_point;
mod golden;
mod illinois;
mod newton;
mod newton_between;
mod root;

pub use bisect::bisect;
pub use fixed_point::{Iteration, fixed_point};
pub use golden::greatest;
pub use illinois::{illinois, sign_change};
pub use newton::{backtrack, newton};
pub use newton_between::newton_between;
pub use root::root;
