//! The waterline at which weight and buoyancy balance.

use super::wetted::wetted;
use super::{AfloatError, Hull, Immersed, Water, Waterline};
use crate::geometry::curve::Vector;
use crate::geometry::solve::{bisect, newton};
use crate::shape::Shell;

/// A mass and where its centre of gravity lies, on the centre plane.
#[derive(Debug, Clone, Copy, PartialEq, serde::Serialize)]
pub struct Load {
    /// Mass, kg.
    pub mass: f64,
    /// (x, z) of its centre of gravity, mm from the tail and over the base plane.
    pub centre: [f64; 2],
}

impl Load {
    /// This load with `other`, such as a rider, on it.
    pub fn with(self, other: Self) -> Self {
        let mass = self.mass + other.mass;
        let mix = |k: usize| (self.mass * self.centre[k] + other.mass * other.centre[k]) / mass;
        Self {
            mass,
            centre: [mix(0), mix(1)],
        }
    }
}

/// A board at rest in water; lengths in mm.
#[derive(Debug, Clone, Copy, PartialEq, serde::Serialize)]
pub struct Afloat {
    /// Board and what it carries.
    pub load: Load,
    /// The water's surface.
    pub water: Waterline,
    /// Greatest depth of the board under water, square to its surface.
    pub draught: f64,
    /// Trim, radians, positive nose down, against the base line.
    pub trim: f64,
    /// Volume displaced, mm³.
    pub displaced: f64,
    /// Volume left above water, mm³.
    pub reserve: f64,
    /// Centre of buoyancy (x, z) in the board's coordinates.
    pub centre_of_buoyancy: [f64; 2],
    /// Waterplane area, in the water's plane, mm².
    pub waterplane: f64,
    /// x of the waterplane's centre (of flotation).
    pub centre_of_flotation: f64,
    /// Height of the transverse metacentre over the centre of buoyancy, square to the water.
    pub transverse_radius: f64,
    /// The same lengthwise.
    pub lengthwise_radius: f64,
    /// Height of the transverse metacentre over the centre of gravity: negative means the board does not lie upright by itself.
    pub transverse_height: f64,
    /// The same lengthwise.
    pub lengthwise_height: f64,
    /// Wetted surface, ends included, mm².
    pub wetted: f64,
}

/// Newton steps.
const STEPS: usize = 60;
/// Volume and moment balance within this share of the displacement (and of it times the length).
const BALANCE: f64 = 1e-12;
/// Steepest slope of water sought.
const STEEPEST: f64 = 1.0;

/// How `shell`, closed, lies in `water` under `load` (its own mass included), neither heeled nor moving.
///
/// Height and slope of the water are found by Newton's method on displaced volume and lengthwise moment, started from level trim
/// and safeguarded by halving steps that do not lessen the imbalance. Heel is not solved; see [`Afloat::transverse_height`].
///
/// # Errors
///
/// [`AfloatError::Sinks`] if the load is more than the whole board displaces; [`AfloatError::NoTrim`] if no trim below 45° balances
/// it; [`AfloatError::Given`] for a mass, place or density out of range.
pub fn afloat(shell: &Shell, load: Load, water: Water) -> Result<Afloat, AfloatError> {
    check(&load, water.density())?;
    float(&Hull::new(shell)?, shell, load, water)
}

/// As [`afloat`], with the shell's sections taken already.
pub(super) fn float(
    hull: &Hull,
    shell: &Shell,
    load: Load,
    water: Water,
) -> Result<Afloat, AfloatError> {
    let density = water.density();
    check(&load, density)?;
    // kg over kg/m³ gives m³.
    let wanted = load.mass / density * 1e9;
    if wanted >= hull.volume {
        let carries = hull.volume * 1e-9 * density;
        return Err(AfloatError::Sinks {
            mass: load.mass,
            carries,
            litres: (wanted - hull.volume) * 1e-6,
        });
    }
    let line = settle(hull, wanted, load.centre)?;
    let under = hull.immersed(&line);
    let steep = line.slope.hypot(1.0);
    let buoyancy = under.moment.map(|m| m / under.volume);
    let flotation = under.plane_moment / under.plane;
    let second = under.plane_second - under.plane_moment * flotation;
    // Lengths in the water's plane are longer than in plan by `steep`.
    let radius = [
        under.plane_across * steep / under.volume,
        second * steep.powi(3) / under.volume,
    ];
    // Centre of gravity over centre of buoyancy along the plumb line (−slope, 1).
    let rise = (load.centre[1] - buoyancy[1] - line.slope * (load.centre[0] - buoyancy[0])) / steep;
    Ok(Afloat {
        load,
        water: line,
        draught: hull.draught(&line),
        trim: line.slope.atan(),
        displaced: under.volume,
        reserve: hull.volume - under.volume,
        centre_of_buoyancy: buoyancy,
        waterplane: under.plane * steep,
        centre_of_flotation: flotation,
        transverse_radius: radius[0],
        lengthwise_radius: radius[1],
        transverse_height: radius[0] - rise,
        lengthwise_height: radius[1] - rise,
        wetted: wetted(shell, &line)?,
    })
}

fn check(load: &Load, density: f64) -> Result<(), AfloatError> {
    let refuse = |what, value, wanted| {
        Err(AfloatError::Given {
            what,
            value,
            wanted,
        })
    };
    if !(load.mass > 0.0 && load.mass.is_finite()) {
        return refuse("mass, kg,", load.mass, "a mass above 0");
    }
    if !(density > 0.0 && density.is_finite()) {
        return refuse("density of the water, kg/m³,", density, "a density above 0");
    }
    for (what, value) in [
        ("centre of gravity's x, mm,", load.centre[0]),
        ("centre of gravity's z, mm,", load.centre[1]),
    ] {
        if !value.is_finite() {
            return refuse(what, value, "a number");
        }
    }
    Ok(())
}

/// Imbalance of volume and of moment about the centre of gravity along the water, as shares.
fn imbalance(
    under: &Immersed,
    line: &Waterline,
    wanted: f64,
    g: [f64; 2],
    length: f64,
) -> [f64; 2] {
    let moment = under.moment[0] - g[0] * under.volume
        + line.slope * (under.moment[1] - g[1] * under.volume);
    [(under.volume - wanted) / wanted, moment / (wanted * length)]
}

fn settle(hull: &Hull, wanted: f64, g: [f64; 2]) -> Result<Waterline, AfloatError> {
    let length = hull.reach.1 - hull.reach.0;
    let line = |p: &Vector<2>| Waterline {
        height: p.x,
        slope: p.y,
    };
    let size = |p: &Vector<2>| {
        if p.y.abs() > STEEPEST {
            return f64::INFINITY;
        }
        let line = line(p);
        let [volume, moment] = imbalance(&hull.immersed(&line), &line, wanted, g, length);
        volume.hypot(moment)
    };
    let step = |p: &Vector<2>| {
        let line = line(p);
        let under = hull.immersed(&line);
        let miss = imbalance(&under, &line, wanted, g, length);
        // Derivatives by height and slope; a lift of the water by dz adds the waterplane's slice.
        let high = line.height;
        let (a, ax, axx) = (under.plane, under.plane_moment, under.plane_second);
        let lever = |plain: f64, first: f64| {
            // ∬ ((x − gx) + s (z − gz)) dA with z = height + s x.
            (1.0 + line.slope * line.slope) * first + (line.slope * (high - g[1]) - g[0]) * plain
        };
        let by = [
            [a / wanted, ax / wanted],
            [
                lever(a, ax) / (wanted * length),
                (lever(ax, axx) + under.moment[1] - g[1] * under.volume) / (wanted * length),
            ],
        ];
        let det = by[0][0] * by[1][1] - by[0][1] * by[1][0];
        let step = Vector::from([
            -(miss[0] * by[1][1] - miss[1] * by[0][1]) / det,
            -(miss[1] * by[0][0] - miss[0] * by[1][0]) / det,
        ]);
        let size = miss[0].hypot(miss[1]);
        // A negative determinant is trim that would run away; nothing beyond it is at rest.
        let steps = det > 0.0 && step.iter().all(|s| s.is_finite());
        (size < BALANCE || steps).then_some((size, step))
    };
    let level = level(hull, wanted);
    let start = Vector::from([level.height, level.slope]);
    let found = newton(start, BALANCE, STEPS, step, size);
    // Rounding may leave nothing to gain a little earlier.
    if found.change < 1e3 * BALANCE {
        Ok(line(&found.value))
    } else {
        Err(AfloatError::NoTrim { x: g[0], z: g[1] })
    }
}

/// The level waterline that displaces `wanted`, by bisection to a thousandth of the height: a start for Newton's method.
fn level(hull: &Hull, wanted: f64) -> Waterline {
    let [low, high] = hull.heights();
    let at = |height: f64| Waterline { height, slope: 0.0 };
    let short = |height: f64| hull.immersed(&at(height)).volume < wanted;
    let [low, high] = bisect(low, high, 12, short);
    at((low + high) / 2.0)
}
