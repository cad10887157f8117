//! Where a course cannot hold, and what to change.

use serde::Serialize;

use super::Rail;
use super::courses::{Kind, Stack};
use super::joint::open_at;
use super::margins::Margins;
use super::solve::Site;
use crate::design::{Construction, Strip};
use crate::shell::{Shell, ShellError};

/// Limits a joint is held to (common practice, no published source).
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Limits {
    /// Depth to which a lip may be crushed or eased, mm: what counts as fair to the eye.
    pub dig_in: f64,
    /// Opening of a joint where the finished surface crosses it, mm: what still passes for a glue line.
    pub mouth_gap: f64,
    /// Angle to which a flat base is planed, radians; past it too little of the strip is left.
    pub bevel: f64,
}

impl Default for Limits {
    fn default() -> Self {
        Self {
            dig_in: 0.5,
            mouth_gap: 0.2,
            bevel: 40.0_f64.to_radians(),
        }
    }
}

/// What is wrong at a rib.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum Trouble {
    /// Too little wood behind the finished rail.
    Cover,
    /// The strips do not stand proud of the finished rail.
    Proud,
    /// A lip enters the strip below too deeply.
    DigIn,
    /// A joint opens too far.
    MouthGap,
    /// A flat base must be planed too steeply.
    Bevel,
    /// The stack does not reach the deck.
    Open,
}

/// A course that cannot hold at a rib.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Warning {
    /// Number of the rib, from the tail, starting with 1.
    pub rib: usize,
    /// Its place, mm from the tail.
    pub x: f64,
    /// Number of the course, from the bottom skin, starting with 1.
    pub course: usize,
    /// What the course is.
    pub kind: Kind,
    /// What is wrong.
    pub trouble: Trouble,
    /// The value found, mm (for a bevel, degrees).
    pub value: f64,
    /// Its limit.
    pub limit: f64,
    /// What to change.
    pub remedy: String,
}

impl std::fmt::Display for Warning {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        let what = match self.trouble {
            Trouble::Cover => "wood left behind the finished rail",
            Trouble::Proud => "stock proud of the finished rail",
            Trouble::DigIn => "lip digs in",
            Trouble::MouthGap => "joint opens on the finished rail",
            Trouble::Bevel => "base planed to",
            Trouble::Open => "top stays below the deck's inner face by",
        };
        let unit = if self.trouble == Trouble::Bevel {
            "°"
        } else {
            " mm"
        };
        write!(
            f,
            "rib {} (x = {:.0} mm), course {}: {what} {:.2}{unit}, limit {:.2}{unit}; {}",
            self.rib, self.x, self.course, self.value, self.limit, self.remedy
        )
    }
}

/// Warnings at the ribs whose centre planes are given; the rail must have been solved there.
///
/// When joints roll too far the narrower strip that would serve is found by solving the ribs anew with strips narrower by half
/// a millimetre at a time.
pub fn warnings(
    shell: &Shell,
    construction: &Construction,
    rail: &Rail,
    limits: &Limits,
) -> Result<Vec<Warning>, ShellError> {
    let mut found = check(construction, rail, limits);
    let rolls = |w: &Warning| matches!(w.trouble, Trouble::DigIn | Trouble::MouthGap);
    if found.iter().any(rolls) {
        let advice = match narrower(shell, construction, rail.depth, limits)? {
            Some(width) => format!("a strip {width:.1} mm wide holds at every rib"),
            None => "no narrower strip of this thickness serves at every rib; bevel these joints with a plane, \
                     or give the section there a larger bend"
                .into(),
        };
        for warning in found.iter_mut().filter(|w| rolls(w)) {
            warning.remedy.clone_from(&advice);
        }
    }
    Ok(found)
}

/// Warnings without advice on joints.
fn check(construction: &Construction, rail: &Rail, limits: &Limits) -> Vec<Warning> {
    let mut found = Vec::new();
    for (index, &x) in construction.rib_stations.iter().enumerate() {
        let Some((stack, margins)) = rail.at(x) else {
            continue;
        };
        let mut add = |course: usize, trouble, value: f64, limit, remedy: &str| {
            let kind = stack.courses.get(course).map_or(Kind::Starter, |c| c.kind);
            let remedy = remedy.into();
            found.push(Warning {
                rib: index + 1,
                x,
                course: course + 1,
                kind,
                trouble,
                value,
                limit,
                remedy,
            });
        };
        margin_troubles(construction, margins, &mut add);
        joint_troubles(stack, &construction.strip, rail.depth, limits, &mut add);
        if !stack.closed && !stack.courses.is_empty() {
            let last = stack.courses.len() - 1;
            let gap = stack.faces[1].inside(&stack.courses[last].inner_face()[1]);
            add(
                last,
                Trouble::Open,
                gap,
                0.0,
                "fill the corner with a tapered strip, or use thicker strips",
            );
        }
    }
    found
}

fn margin_troubles(
    c: &Construction,
    margins: Option<&Margins>,
    add: &mut impl FnMut(usize, Trouble, f64, f64, &str),
) {
    // What the solver's own rounding may take from a margin, mm.
    const GRAIN: f64 = 1e-3;
    let Some(m) = margins else { return };
    if m.cover.least < c.cover - GRAIN {
        let remedy = "use a thicker strip, or ask for less `cover`";
        add(
            m.cover.course,
            Trouble::Cover,
            m.cover.least,
            c.cover,
            remedy,
        );
    }
    if m.proud.least < c.proud - GRAIN {
        let remedy = "use a thicker or narrower strip, or ask for less `proud`";
        add(
            m.proud.course,
            Trouble::Proud,
            m.proud.least,
            c.proud,
            remedy,
        );
    }
}

fn joint_troubles(
    stack: &Stack,
    strip: &Strip,
    depth: f64,
    limits: &Limits,
    add: &mut impl FnMut(usize, Trouble, f64, f64, &str),
) {
    for (i, course) in stack.courses.iter().enumerate() {
        if let Some(joint) = course.joint {
            if joint.dig_in > limits.dig_in {
                add(i, Trouble::DigIn, joint.dig_in, limits.dig_in, "");
            }
            // Heads lie on the guide, so the finished surface passes them at its depth.
            let open = open_at(strip, joint.roll, depth);
            if open > limits.mouth_gap {
                add(i, Trouble::MouthGap, open, limits.mouth_gap, "");
            }
        }
        if course.bevel.abs() > limits.bevel {
            let remedy = if course.kind == Kind::Starter {
                "lay the starters abreast, or give the section more `tuck_angle`"
            } else {
                "give the section more `tuck_angle` or less `tuck`, so that the rail stands steeper there"
            };
            let (value, limit) = (course.bevel.abs().to_degrees(), limits.bevel.to_degrees());
            add(i, Trouble::Bevel, value, limit, remedy);
        }
    }
}

/// The widest strip, in half millimetres below the given one, with which no joint at any rib passes its limit.
fn narrower(
    shell: &Shell,
    construction: &Construction,
    mut depth: f64,
    limits: &Limits,
) -> Result<Option<f64>, ShellError> {
    let mut trial = construction.clone();
    let site = Site::new(shell, construction, &construction.rib_stations)?;
    // Below this too little is left between bead and cove to hold the strip's shape.
    let least = trial.strip.bead_sagitta() + trial.strip.cove_depth + 2.0;
    let mut width = (trial.strip.width * 2.0).ceil() / 2.0 - 0.5;
    while width >= least {
        trial.strip.width = width;
        let (rail, _) = site.rail(shell, &trial, depth);
        depth = rail.depth;
        let bad = |w: &Warning| matches!(w.trouble, Trouble::DigIn | Trouble::MouthGap);
        if !check(&trial, &rail, limits).iter().any(bad) {
            return Ok(Some(width));
        }
        width -= 0.5;
    }
    Ok(None)
}
