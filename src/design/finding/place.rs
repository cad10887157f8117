//! Places on a board.

use serde::Serialize;

use super::{BoardEnd, Half};

/// A place, as far as it is known. Numbers count from 1.
#[derive(Debug, Clone, Copy, PartialEq, Default, Serialize)]
pub struct Place {
    /// From the tail, mm.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub x: Option<f64>,
    /// Off the centreline, mm; both sides are alike.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub y: Option<f64>,
    /// The nearest rib, from the tail.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub rib: Option<usize>,
    /// The ribs it lies between, tail first; nothing for an end block.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub between: Option<[Option<usize>; 2]>,
    /// The bay, from the tail; bay n lies aft of rib n.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub bay: Option<usize>,
    /// The course, from the bottom skin.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub course: Option<usize>,
    /// The strip.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub strip: Option<usize>,
    /// The side, where it is on one alone.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub side: Option<Half>,
    /// The block it lies over, if it does.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub block: Option<BoardEnd>,
}

impl Place {
    /// So many mm from the tail.
    pub fn at(x: f64) -> Self {
        Self {
            x: Some(x),
            ..Self::default()
        }
    }
}

/// A place with the value found there.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Spot {
    /// Where.
    pub place: Place,
    /// The value, in the finding's unit.
    pub value: Option<f64>,
}
