//! Where a course cannot hold, and what to change.

use serde::Serialize;

use super::Rail;
use super::courses::{Kind, Stack};
use super::joint::open_at;
use super::margins::Margins;
use super::solve::Site;
use crate::design::{Arrangement, Construction, Strip};
use crate::geometry::curve::Vector;
use crate::shape::{Shell, ShellError};

/// Limits a joint is held to (common practice, no published source).
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Limits {
    /// Depth to which a lip may be crushed or eased, mm: what counts as fair to the eye.
    pub dig_in: f64,
    /// Opening of a joint where the finished surface crosses it, mm: what still passes for a glue line.
    pub mouth_gap: f64,
    /// Angle to which a flat base is planed, radians; past it too little of the strip is left.
    pub bevel: f64,
    /// How far a starter may stand off the bottom skin, mm: what glue fills.
    pub off_skin: f64,
    /// What a strip may still move, mm, in the last round of the solution: a tenth of what can be seen at the bench.
    pub settled: f64,
}

impl Default for Limits {
    fn default() -> Self {
        Self {
            dig_in: 0.5,
            mouth_gap: 0.2,
            bevel: 40.0_f64.to_radians(),
            off_skin: 0.3,
            settled: 0.01,
        }
    }
}

/// What is wrong.
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
    /// A starter stands off the bottom skin.
    OffSkin,
    /// The stack does not reach the deck.
    Open,
    /// The strips' paths do not settle.
    Unsettled,
}

/// A course that cannot hold, and where it is worst in the share of a rib.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Warning {
    /// Number of the nearest rib, from the tail, starting with 1.
    pub rib: usize,
    /// The place, mm from the tail.
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

impl Warning {
    fn worse_than(&self, other: &Self) -> bool {
        match self.trouble {
            Trouble::Cover | Trouble::Proud => self.value < other.value,
            _ => self.value > other.value,
        }
    }
}

impl std::fmt::Display for Warning {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        let what = match self.trouble {
            Trouble::Cover => "wood left behind the finished rail",
            Trouble::Proud => "stock proud of the finished rail",
            Trouble::DigIn => "lip digs in",
            Trouble::MouthGap => "joint opens on the finished rail",
            Trouble::Bevel => "base planed to",
            Trouble::OffSkin => "base stands off the bottom skin by",
            Trouble::Open => "top stays below the deck's inner face by",
            Trouble::Unsettled => "path is uncertain by",
        };
        let unit = if self.trouble == Trouble::Bevel {
            "°"
        } else {
            " mm"
        };
        write!(
            f,
            "near rib {} (x = {:.0} mm), course {}: {what} {:.2}{unit}, limit {:.2}{unit}; {}",
            self.rib, self.x, self.course, self.value, self.limit, self.remedy
        )
    }
}

/// Warnings along the whole rail, the worst of each kind to a course and a rib.
///
/// When joints roll too far the narrower strip that would serve is found by solving the rail anew, in planes 50 mm apart, with strips narrower by
/// half a millimetre at a time.
pub fn warnings(
    shell: &Shell,
    construction: &Construction,
    rail: &Rail,
    limits: &Limits,
) -> Result<Vec<Warning>, ShellError> {
    let mut found = check(construction, rail, limits);
    let rolls = |w: &Warning| matches!(w.trouble, Trouble::DigIn | Trouble::MouthGap);
    if found.iter().any(rolls) {
        let advice = match narrower(shell, construction, rail, limits)? {
            Some(width) => format!("a strip {width:.1} mm wide holds along the whole rail"),
            None => "no narrower strip of this thickness serves; bevel these joints with a plane, \
                     or give the section there a larger bend"
                .into(),
        };
        for warning in found.iter_mut().filter(|w| rolls(w)) {
            warning.remedy.clone_from(&advice);
        }
    }
    Ok(found)
}

/// Warnings without advice on joints: of every trouble of a course the worst place in each rib's share of the length, which reaches half way to
/// its neighbours, and to the blocks.
fn check(construction: &Construction, rail: &Rail, limits: &Limits) -> Vec<Warning> {
    let ribs = &construction.rib_stations;
    let half_way: Vec<f64> = ribs.windows(2).map(|w| (w[0] + w[1]) / 2.0).collect();
    let mut found: Vec<Warning> = Vec::new();
    let moved = rail.settled;
    for (stack, margins) in rail.stacks.iter().zip(&rail.margins) {
        let index = half_way.partition_point(|x| *x < stack.x);
        let mut add = |course: usize, trouble, value: f64, limit, remedy: &str| {
            let warning = Warning {
                rib: index + 1,
                x: stack.x,
                course: course + 1,
                kind: stack.courses.get(course).map_or(Kind::Starter, |c| c.kind),
                trouble,
                value,
                limit,
                remedy: remedy.into(),
            };
            let known = found
                .iter_mut()
                .find(|w| (w.rib, w.trouble, w.course) == (index + 1, trouble, course + 1));
            match known {
                Some(known) if warning.worse_than(known) => *known = warning,
                Some(_) => {}
                None => found.push(warning),
            }
        };
        margin_troubles(construction, margins.as_ref(), &mut add);
        joint_troubles(stack, &construction.strip, rail.depth, limits, &mut add);
        if moved.by > limits.settled && stack.x == moved.x {
            add(
                moved.course,
                Trouble::Unsettled,
                moved.by,
                limits.settled,
                "give the outline a gentler bend there, or use narrower strips",
            );
        }
        if construction.starter.arrangement == Arrangement::SideBySide {
            starter_troubles(stack, limits, &mut add);
        }
        if !(stack.closed || stack.filled || stack.courses.is_empty()) {
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
    found.sort_by_key(|w| w.rib);
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

/// Starters abreast lie in one plane; a skin that bends under them leaves the inner ones.
fn starter_troubles(
    stack: &Stack,
    limits: &Limits,
    add: &mut impl FnMut(usize, Trouble, f64, f64, &str),
) {
    let starters = stack.courses.iter().enumerate();
    for (i, course) in starters.filter(|(_, c)| c.kind == Kind::Starter) {
        let half = course.thickness / 2.0;
        let corner = |out: f64| course.frame.plane(Vector::<2>::new(out, 0.0));
        // A part bears with the corner that is the nearer.
        let gap = [-half, half].map(|out| stack.faces[0].inside(&corner(out)));
        let gap = gap[0].min(gap[1]);
        if gap > limits.off_skin {
            let remedy = "plane the starters' base to the skin there, take one starter less (`count`), or let the skin go on straight sooner (less `skin_turn`)";
            add(i, Trouble::OffSkin, gap, limits.off_skin, remedy);
        }
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

/// Greatest gap, mm, between the planes in which narrower strips are tried, ribs among them.
const TRIED: f64 = 50.0;

/// The widest strip, in half millimetres below the given one, with which no joint passes its limit.
fn narrower(
    shell: &Shell,
    construction: &Construction,
    rail: &Rail,
    limits: &Limits,
) -> Result<Option<f64>, ShellError> {
    let (mut trial, mut depth) = (construction.clone(), rail.depth);
    let mut planes = construction.rib_stations.clone();
    if let (Some(first), Some(last)) = (rail.stacks.first(), rail.stacks.last()) {
        let gaps = ((last.x - first.x) / TRIED).ceil().max(1.0);
        planes.extend((0..=gaps as usize).map(|k| first.x + (last.x - first.x) * k as f64 / gaps));
    }
    planes.sort_by(f64::total_cmp);
    // Planes closer than this tell nothing more.
    planes.dedup_by(|a, b| *a - *b < 0.1 * TRIED);
    let site = Site::new(shell, construction, &planes)?;
    // Below this too little is left between bead and cove to hold the strip's shape.
    let least = trial.strip.bead_sagitta() + trial.strip.cove_depth + 2.0;
    let mut width = (trial.strip.width * 2.0).ceil() / 2.0 - 0.5;
    while width >= least {
        trial.strip.width = width;
        let rail = site.rail(&trial, depth)?;
        depth = rail.depth;
        let bad = |w: &Warning| matches!(w.trouble, Trouble::DigIn | Trouble::MouthGap);
        if !check(&trial, &rail, limits).iter().any(bad) {
            return Ok(Some(width));
        }
        width -= 0.5;
    }
    Ok(None)
}
