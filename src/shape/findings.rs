//! Measures of the finished shape that are not what the design says.
//!
//! A design fixes a shape at a few places; between them the curves go where they must. Where that makes the board
//! another one than was meant, the measured value is said beside the entered one. The bounds are estimates without a
//! source: half a percent of a width or thickness is less than a maker sees, and a board's wide point is felt within
//! a hundredth of its length.

use super::{Measures, Shell, TWELVE_INCHES};
use crate::design::finding::{Change, Code, Finding, Part, Place};
use crate::design::{Design, OutlineBody, Rocker};

/// The least difference of widths, thicknesses and heights that is reported, mm.
const LEAST: f64 = 1.0;
/// The least difference of a width, thickness or height that is reported, as a fraction of it.
const SHARE: f64 = 0.005;
/// The least surplus of the greatest thickness over the thickest point entered that is reported, as a fraction: a fair
/// foil swells a little between its points.
const SWELL: f64 = 0.03;
/// The least move of the wide point that is reported, as a fraction of the length.
const MOVE: f64 = 0.01;

/// Every measure of `shell` that is not what `design` says: the value is what is measured, the limit what was entered, both mm.
pub fn shape_findings(design: &Design, shell: &Shell, m: &Measures) -> Vec<Finding> {
    let mut found = Vec::new();
    let mut compare = |code: Code, x: f64, entered: f64, measured: f64, bound: f64| {
        if (measured - entered).abs() > bound {
            found.push(
                Finding::new(code, Part::Shape)
                    .at(Place::at(x))
                    .measured(measured, entered)
                    .remedies(changes(code)),
            );
        }
    };
    let near = |entered: f64| LEAST.max(SHARE * entered);
    if let OutlineBody::Measures {
        width, wide_point, ..
    } = design.outline.body
    {
        compare(Code::ShapeWidth, m.wide_point, width, m.width, near(width));
        let bound = MOVE * design.length;
        compare(
            Code::ShapeWidePoint,
            m.wide_point,
            wide_point,
            m.wide_point,
            bound,
        );
    }
    let points = design.foil.points(design.length);
    let thickest = points.iter().map(|p| p[1]).fold(0.0, f64::max);
    if m.thickness > thickest {
        let bound = near(thickest).max(SWELL * thickest);
        compare(
            Code::ShapeThickness,
            m.thick_point,
            thickest,
            m.thickness,
            bound,
        );
    }
    // A closed end rounds off, and a cleft has no centreline: points there are not measured.
    let inside = |x: f64| x >= TWELVE_INCHES.min(design.length / 4.0) && design.length - x >= 1.0;
    for &[x, entered] in points.iter().filter(|p| inside(p[0])) {
        let measured = shell.square_thickness(x);
        compare(Code::ShapeFoilPoint, x, entered, measured, near(entered));
    }
    let heights = match &design.rocker {
        Rocker::Points(points) => points.clone(),
        Rocker::Measures { nose, tail, .. } => vec![[0.0, *tail], [design.length, *nose]],
    };
    for [x, entered] in heights {
        compare(
            Code::ShapeRocker,
            x,
            entered,
            shell.centre_heights(x)[0],
            near(entered),
        );
    }
    found
}

fn changes(code: Code) -> Vec<Change> {
    match code {
        Code::ShapeWidth => vec![Change::LessEndWidths, Change::OutlinePoints],
        Code::ShapeWidePoint => vec![Change::LessEndWidths, Change::MoveWidePoint],
        Code::ShapeThickness => vec![Change::MoreFoilPoints, Change::LessRocker],
        Code::ShapeFoilPoint => vec![Change::FartherFoilPoints, Change::LessRocker],
        _ => vec![Change::RockerPoints],
    }
}
