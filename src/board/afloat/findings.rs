//! Loads that do not float.

use super::{AfloatError, FloatState, Water};
use crate::design::finding::{Change, Code, Fact, Finding, Part};

/// A finding for each water and load without a waterline. Most shortboards sink under a rider who sits still, so that is worth knowing and no more;
/// a board that sinks by itself is an error.
pub fn float_findings(float_states: &[FloatState]) -> Vec<Finding> {
    float_states.iter().filter_map(finding).collect()
}

fn finding(float_states: &FloatState) -> Option<Finding> {
    let error = float_states.afloat.as_ref().err()?;
    let found = match error {
        AfloatError::Sinks {
            mass,
            carries,
            litres,
        } => Finding::new(Code::Sinks, Part::Board)
            .measured(*mass, *carries)
            .remedies([
                Change::LessMass(mass - carries),
                Change::MoreVolume(*litres),
            ]),
        AfloatError::NoTrim { x, z } => Finding::new(Code::NoWaterline, Part::Board)
            .fact(Fact::Load([*x, *z]))
            .remedies([Change::LowerLoad]),
        AfloatError::Given { .. } | AfloatError::Shell(_) => {
            Finding::new(Code::NoWaterline, Part::Board).remedies([Change::LowerLoad])
        }
    };
    let water = Fact::Water {
        fresh: float_states.water == Water::Fresh,
        ridden: float_states.ridden,
    };
    Some(found.fact(water).error_if(!float_states.ridden))
}
