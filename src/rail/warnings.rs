//! Where a course cannot hold, and what to change.
