//! The spine's edges.

use super::Rib;
use crate::design::Construction;
use crate::geometry::curve::BSpline;

/// The spine's edges as curves over x, and the ribs it is slotted for.
pub(super) struct Edges<'a> {
    pub bottom: BSpline<2>,
    pub deck: BSpline<2>,
    pub ribs: Vec<&'a Rib>,
    pub c: &'a Construction,
}
