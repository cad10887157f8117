//! Where a course cannot hold, and what to change.

use super::joint::visible_gap_at;
use super::margins::Margins;
use super::problem::{RailContext, RailProblem};
use super::solve::Rail;
use super::stack::Stack;
use crate::design::finding::{Change, Code, Finding, Part, Place, group};
use crate::design::{Arrangement, Construction, Strip};
use crate::geometry::curve::Vector;
use crate::shape::{Shell, ShellError};

/// Limits a joint is held to (common practice, no published source).
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct RailLimits {
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

impl Default for RailLimits {
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

/// What is wrong along the whole rail: of each code and remedy one finding, whose places are the worst of a course in each rib's share of the length.
///
/// When joints turn too far the narrower strip that would serve is found by solving the rail anew, in planes 50 mm apart, with strips narrower by
/// half a millimetre at a time.
pub fn rail_findings(
    shell: &Shell,
    context: &RailContext,
    construction: &Construction,
    rail: &Rail,
    limits: &RailLimits,
) -> Result<Vec<Finding>, ShellError> {
    let mut found = check(construction, rail, limits);
    if found.iter().any(of_joint) {
        let changes = match narrower(shell, context, construction, rail, limits)? {
            Some(width) => vec![Change::StripWidth(width)],
            None => vec![Change::BevelJoints, Change::LargerBend],
        };
        for finding in found.iter_mut().filter(|f| of_joint(f)) {
            *finding = finding.clone().remedies(changes.clone());
        }
    }
    Ok(group(found))
}

/// Whether narrower strips serve against it.
fn of_joint(finding: &Finding) -> bool {
    matches!(finding.code, Code::LipOverlap | Code::JointGap)
}

/// Findings without remedies for joints, one for each place: of every code of a course the worst place in each rib's share of the length, which
/// reaches half way to its neighbours, and to the blocks.
fn check(construction: &Construction, rail: &Rail, limits: &RailLimits) -> Vec<Finding> {
    let ribs = &construction.rib_stations;
    let half_way: Vec<f64> = ribs.windows(2).map(|w| (w[0] + w[1]) / 2.0).collect();
    let mut found: Vec<Finding> = Vec::new();
    let moved = rail.convergence.movement;
    for (stack, margins) in rail.stacks.iter().zip(&rail.margins) {
        let index = half_way.partition_point(|x| *x < stack.x);
        let mut add = |course: usize, code: Code, value: f64, limit: f64, changes: &[Change]| {
            let place = Place {
                rib: Some(index + 1),
                course: Some(course + 1),
                ..Place::at(stack.x)
            };
            let finding = Finding::new(code, Part::Rail)
                .at(place)
                .measured(value, limit)
                .error_if(code == Code::WoodBehindRail && value <= 0.0)
                .remedies(changes.iter().cloned());
            let alike = |f: &&mut Finding| {
                let of = f.place.map(|p| (p.rib, p.course));
                f.code == code && of == Some((place.rib, place.course))
            };
            match found.iter_mut().find(alike) {
                Some(other) if other.value.is_none_or(|v| finding.worse_than(v)) => {
                    *other = finding
                }
                Some(_) => {}
                None => found.push(finding),
            }
        };
        margin_findings(construction, margins.as_ref(), &mut add);
        joint_findings(stack, &construction.strip, rail.depth, limits, &mut add);
        if moved.by > limits.settled && stack.x == moved.x {
            let changes = [Change::NarrowerStrips, Change::GentlerOutline];
            add(
                moved.course,
                Code::RailUnsettled,
                moved.by,
                limits.settled,
                &changes,
            );
        }
        if construction.starter.arrangement == Arrangement::SideBySide {
            starter_findings(stack, limits, &mut add);
        }
        if !(stack.reaches_deck || stack.starters_suffice || stack.courses.is_empty()) {
            let last = stack.courses.len() - 1;
            let gap = stack.faces[1].inside(&stack.courses[last].inner_face()[1]);
            let changes = [Change::FillCorner, Change::ThickerStrips];
            add(last, Code::RailOpen, gap, 0.0, &changes);
        }
    }
    found.sort_by_key(|f| f.place.and_then(|p| p.rib));
    found
}

fn margin_findings(
    c: &Construction,
    margins: Option<&Margins>,
    add: &mut impl FnMut(usize, Code, f64, f64, &[Change]),
) {
    // What the solver's own rounding may take from a margin, mm.
    const GRAIN: f64 = 1e-3;
    let Some(m) = margins else { return };
    if m.cover.least < c.cover - GRAIN {
        let changes = [Change::ThickerStrips, Change::LessCover];
        add(
            m.cover.course,
            Code::WoodBehindRail,
            m.cover.least,
            c.cover,
            &changes,
        );
    }
    if m.proud.least < c.proud - GRAIN {
        let changes = [
            Change::ThickerStrips,
            Change::NarrowerStrips,
            Change::LessProud,
        ];
        add(
            m.proud.course,
            Code::PlaningAllowance,
            m.proud.least,
            c.proud,
            &changes,
        );
    }
}

/// Starters abreast lie in one plane; a skin that bends under them leaves the inner ones.
fn starter_findings(
    stack: &Stack,
    limits: &RailLimits,
    add: &mut impl FnMut(usize, Code, f64, f64, &[Change]),
) {
    let starters = stack.courses.iter().enumerate();
    for (i, course) in starters.filter(|(_, c)| !c.is_moulded()) {
        let half = course.body().thickness / 2.0;
        let corner = |out: f64| course.body().frame.plane(Vector::<2>::new(out, 0.0));
        // A part bears with the corner that is the nearer.
        let gap = [-half, half].map(|out| stack.faces[0].inside(&corner(out)));
        let gap = gap[0].min(gap[1]);
        if gap > limits.off_skin {
            let changes = [
                Change::PlaneStarterBase,
                Change::FewerStarters,
                Change::LessSkinTurn,
            ];
            add(i, Code::OffSkin, gap, limits.off_skin, &changes);
        }
    }
}

fn joint_findings(
    stack: &Stack,
    strip: &Strip,
    depth: f64,
    limits: &RailLimits,
    add: &mut impl FnMut(usize, Code, f64, f64, &[Change]),
) {
    for (i, course) in stack.courses.iter().enumerate() {
        if let Some(joint) = course.joint() {
            if joint.dig_in > limits.dig_in {
                add(i, Code::LipOverlap, joint.dig_in, limits.dig_in, &[]);
            }
            // Heads lie on the guide, so the finished surface passes them at its depth.
            let open = visible_gap_at(strip, joint.roll, depth);
            if open > limits.mouth_gap {
                add(i, Code::JointGap, open, limits.mouth_gap, &[]);
            }
        }
        if course.bevel().abs() > limits.bevel {
            let changes = if !course.is_moulded() {
                [Change::StartersAbreast, Change::MoreTuckAngle]
            } else {
                [Change::MoreTuckAngle, Change::LessTuck]
            };
            add(
                i,
                Code::BaseBevel,
                course.bevel().abs(),
                limits.bevel,
                &changes,
            );
        }
    }
}

/// Greatest gap, mm, between the planes in which narrower strips are tried, ribs among them.
const TRIED: f64 = 50.0;

/// The widest strip, in half millimetres below the given one, with which no joint passes its limit.
fn narrower(
    shell: &Shell,
    context: &RailContext,
    construction: &Construction,
    rail: &Rail,
    limits: &RailLimits,
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
    let context = context.nearest_to(&planes);
    // Below this too little is left between bead and cove to hold the strip's shape.
    let least = trial.strip.least_width();
    let mut width = (trial.strip.width * 2.0).ceil() / 2.0 - 0.5;
    while width >= least {
        trial.strip.width = width;
        let rail = RailProblem::new(shell, &context, &trial).solve_planes(depth)?;
        depth = rail.depth;
        if !check(&trial, &rail, limits).iter().any(of_joint) {
            return Ok(Some(width));
        }
        width -= 0.5;
    }
    Ok(None)
}
