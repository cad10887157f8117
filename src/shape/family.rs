//! The family of half sections that a design describes.

use super::deck::MOST_CROWN;
use super::foil::FoilLine;
use super::half_section::{Character, Frame};
use super::station_blend::StationBlend;
use super::{End, Family, HalfSection, Mark, PlanShape, RockerLine, ShellError};
use crate::design::{Design, Section};
use crate::geometry::curve::Vector;

/// Outline, rocker, foil and blended sections of a design: the exact shape that the loft approximates.
#[derive(Debug, Clone, PartialEq)]
pub struct BoardFamily {
    plan: PlanShape,
    rocker: RockerLine,
    foil: FoilLine,
    characters: StationBlend<9>,
    rows: Vec<f64>,
    breaks: Vec<f64>,
    /// Most segments of a deck.
    deck_segments: usize,
}

impl BoardFamily {
    /// Draws the curves of `design` and checks that sections can be drawn all along.
    pub fn new(design: &Design) -> Result<Self, ShellError> {
        let plan = PlanShape::new(design)?;
        let rocker = RockerLine::new(&design.rocker, design.length)?;
        let closed = plan.ends().map(|end| end == End::Closed);
        let foil = FoilLine::new(&design.foil, &rocker, design.length, closed)?;
        let mut stations = Vec::new();
        for section in &design.sections {
            let thickness = foil.body(section.x);
            if thickness <= 0.0 {
                return Err(ShellError::Foil {
                    thickness,
                    x: section.x,
                });
            }
            let character = Character::of(section, thickness);
            check_crown(&character, thickness, section.x)?;
            stations.push((section.x, character.to_array()));
        }
        let cleft = plan.cleft_depth().map(|depth| plan.locate(depth));
        let mut breaks = vec![0.0, 1.0];
        breaks.extend(cleft);
        breaks.sort_by(f64::total_cmp);
        // Rows where third derivatives jump: the outline's knots and the section stations.
        let mut rows: Vec<f64> = plan
            .curve()
            .knots()
            .breaks()
            .iter()
            .map(|s| plan.locate(plan.curve().point(*s).x))
            .chain(design.sections.iter().map(|s| plan.locate(s.x)))
            .chain((1..8).map(|i| f64::from(i) / 8.0))
            .collect();
        // A row next to an end would only unsettle the spline there.
        rows.retain(|u| (0.01..0.99).contains(u));
        rows.sort_by(f64::total_cmp);
        rows.dedup_by(|a, b| (*a - *b).abs() < 0.01);
        let mut family = Self {
            plan,
            rocker,
            foil,
            characters: StationBlend::new(&stations),
            rows,
            breaks,
            deck_segments: 1,
        };
        family.deck_segments = family.check(&design.sections)?;
        Ok(family)
    }

    /// The plan shape.
    pub fn plan(&self) -> &PlanShape {
        &self.plan
    }

    /// The bottom's centreline.
    pub fn rocker(&self) -> &RockerLine {
        &self.rocker
    }

    /// The exact half section in the plane at `x`.
    pub fn section_at(&self, x: f64) -> HalfSection {
        self.half_section(self.plan.locate(x))
    }

    fn frame(&self, u: f64) -> (f64, Frame) {
        let p = self.plan.point(u);
        let frame = Frame {
            half_width: p.y.max(0.0),
            inner: self.plan.inner(p.x).min(p.y.max(0.0)),
            base: self.rocker.height(p.x)[0],
            thickness: self.foil.thickness(p.x),
        };
        (p.x, frame)
    }

    fn half_section(&self, u: f64) -> HalfSection {
        let (x, frame) = self.frame(u);
        HalfSection::new(&Character::from_array(self.characters.at(x)), &frame)
    }

    /// Checks that sections can be drawn all along; returns the most segments of a deck.
    fn check(&self, sections: &[Section]) -> Result<usize, ShellError> {
        const STEPS: usize = 120;
        let even = (1..STEPS).map(|i| i as f64 / STEPS as f64);
        let stations = sections.iter().map(|s| self.plan.locate(s.x));
        let mut segments = 1;
        // Stations at the very tips have no size.
        for u in even.chain(stations.filter(|u| (0.001..0.999).contains(u))) {
            let (x, frame) = self.frame(u);
            if frame.thickness <= 0.0 || self.foil.body(x) <= 0.0 {
                return Err(ShellError::Foil {
                    thickness: frame.thickness,
                    x,
                });
            }
            let section = self.half_section(u);
            segments = segments.max(section.deck_segments());
            let p = section.points();
            // Heights must rise from the edge to the apex and on to the deck.
            if p[9].y <= p[6].y {
                return Err(ShellError::Section {
                    x,
                    fault: format!("its edge lies {:.1} mm above the apex", p[6].y - p[9].y),
                    remedy: "raise `apex` or lessen `contour_depth`".into(),
                });
            }
        }
        Ok(segments)
    }
}

/// Refuses a crown that no convex deck can have, naming the greatest.
fn check_crown(c: &Character, thickness: f64, x: f64) -> Result<(), ShellError> {
    let Some([crown, most]) = crown_over(c, thickness) else {
        return Ok(());
    };
    Err(ShellError::Section {
        x,
        fault: format!("no convex deck falls {crown:.1} mm half way out there"),
        remedy: format!("give a `crown` of at most {most:.1} mm"),
    })
}

/// The crown and the greatest one, mm, of a section that asks for more.
fn crown_over(c: &Character, thickness: f64) -> Option<[f64; 2]> {
    // What a message names as the greatest to a tenth of a millimetre must pass when it is entered.
    let height = thickness * (1.0 - c.apex);
    let most = (MOST_CROWN * height * 10.0).floor() / 10.0;
    let crown = c.crown * height;
    (c.crown > MOST_CROWN).then_some([crown, most])
}

/// Every section with more crown than a convex deck can have: its number from the tail, its crown and the greatest, mm.
pub(super) fn crowns_over(design: &Design) -> Result<Vec<(usize, [f64; 2])>, ShellError> {
    let rocker = RockerLine::new(&design.rocker, design.length)?;
    let closed = PlanShape::closed(&design.outline).map(|end| end == End::Closed);
    let foil = FoilLine::new(&design.foil, &rocker, design.length, closed)?;
    let over = |(row, section): (usize, &Section)| {
        let thickness = foil.body(section.x);
        let character = (thickness > 0.0).then(|| Character::of(section, thickness))?;
        Some((row, crown_over(&character, thickness)?))
    };
    Ok(design
        .sections
        .iter()
        .enumerate()
        .filter_map(over)
        .collect())
}

impl Family for BoardFamily {
    fn breaks(&self) -> Vec<f64> {
        self.breaks.clone()
    }

    fn rows(&self) -> Vec<f64> {
        self.rows.clone()
    }

    fn marks(&self) -> Vec<f64> {
        Mark::ALL.map(Mark::v).to_vec()
    }

    fn least_spans(&self) -> Vec<usize> {
        vec![1, 1, 1, self.deck_segments]
    }

    fn section(&self, u: f64, v: &[f64]) -> Vec<Vector<3>> {
        let x = self.plan.point(u).x;
        let section = self.half_section(u);
        v.iter()
            .map(|&v| {
                let p = section.point(v);
                Vector::<3>::new(x, p.x, p.y)
            })
            .collect()
    }

    fn ends(&self) -> [End; 2] {
        self.plan.ends()
    }

    fn apex(&self) -> f64 {
        Mark::Apex.v()
    }

    fn cleft(&self) -> bool {
        self.plan.cleft_depth().is_some()
    }
}
