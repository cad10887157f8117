//! Which keys are at fault where no shell can be made.

use super::family::crowns_over;
use super::{PlanShape, ShellError};
use crate::design::{Design, KeyFault, OutlineBody};

/// The faults of `design` that only its curves show: an outline that cannot be, and every crown that no deck can have.
pub fn key_faults(design: &Design) -> Vec<KeyFault> {
    let mut faults = Vec::new();
    if let Err(ShellError::Outline { fault, x }) = PlanShape::new(design) {
        faults.push(outline_fault(design, fault, x));
    }
    for (row, [crown, most]) in crowns_over(design).unwrap_or_default() {
        faults.push(KeyFault {
            table: "section",
            row,
            key: "crown",
            message: format!("no convex deck falls {crown:.1} mm half way out there"),
            remedy: format!(
                "give a `crown` of at most {most:.1} mm, a lower `apex`, or more thickness there"
            ),
        });
    }
    faults
}

fn outline_fault(design: &Design, fault: &str, x: f64) -> KeyFault {
    let message = format!("the outline {fault} near {x:.0} mm from the tail");
    let (key, remedy) = match &design.outline.body {
        OutlineBody::Points(_) => ("points", "move, add or remove a point there"),
        OutlineBody::Measures { wide_point, .. } if x < *wide_point => (
            "tail_width",
            "give a lesser `tail_width`, or a `wide_point` farther from the tail",
        ),
        OutlineBody::Measures { .. } => (
            "nose_width",
            "give a lesser `nose_width`, or a `wide_point` farther from the nose",
        ),
    };
    KeyFault {
        table: "outline",
        row: 0,
        key,
        message,
        remedy: remedy.to_owned(),
    }
}
