//! Which keys are at fault where no shell can be made.

use super::family::crowns_over;
use super::{PlanShape, ShellError};
use crate::design::{Design, KeyPlace, OutlineBody, RuleBreak};

/// The faults of `design` that only its curves show: an outline that cannot be, and every crown that no deck can have.
pub fn key_faults(design: &Design) -> Vec<RuleBreak> {
    let mut faults = Vec::new();
    if let Err(ShellError::Outline { fault, x }) = PlanShape::new(design) {
        faults.push(outline_fault(design, fault, x));
    }
    for (row, [crown, most]) in crowns_over(design).unwrap_or_default() {
        let broken = RuleBreak::new(
            "crown-convex",
            vec![KeyPlace::in_row("section.crown", row)],
            format!("no convex deck falls {crown:.1} mm half way out there"),
            format!(
                "give a `crown` of at most {most:.1} mm, a lower `apex`, or more thickness there"
            ),
        );
        faults.push(broken.figures(crown, most));
    }
    faults
}

fn outline_fault(design: &Design, fault: &str, x: f64) -> RuleBreak {
    let message = format!("the outline {fault} near {x:.0} mm from the tail");
    let (key, remedy) = match &design.outline.body {
        OutlineBody::Points(_) => ("outline.points", "move, add or remove a point there"),
        OutlineBody::Measures { wide_point, .. } if x < *wide_point => (
            "outline.tail_width",
            "give a lesser `tail_width`, or a `wide_point` farther from the tail",
        ),
        OutlineBody::Measures { .. } => (
            "outline.nose_width",
            "give a lesser `nose_width`, or a `wide_point` farther from the nose",
        ),
    };
    RuleBreak::new("outline-drawable", vec![KeyPlace::of(key)], message, remedy)
}
