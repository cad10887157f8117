//! Printing lengths, volumes and masses; never by locale.

use super::Unit;

/// What stands for a number that is none.
const NONE: &str = "–";

/// `value` with so many decimals, and without the sign of a zero; a dash where it is no number.
fn decimal(value: f64, decimals: usize) -> String {
    if !value.is_finite() {
        return NONE.to_owned();
    }
    let text = format!("{value:.decimals$}");
    match text.strip_prefix('-') {
        Some(rest) if rest.chars().all(|c| matches!(c, '0' | '.')) => rest.to_owned(),
        _ => text,
    }
}

/// A length in millimetres with so many decimals: `1930.4 mm`.
pub fn mm(mm: f64, decimals: usize) -> String {
    format!("{} mm", decimal(mm, decimals))
}

/// `value` to two decimals at most, for printing without idle zeros; halves go up, whichever side of one the nearest binary number lies.
pub fn hundredths(value: f64) -> f64 {
    (100.0 * value + 1e-6).round() / 100.0
}

/// A length in decimal inches: `20.25 in`.
pub fn inches(mm: f64, decimals: usize) -> String {
    format!("{} in", decimal(Unit::In.from_mm(mm), decimals))
}

/// A length in feet, inches and the nearest sixteenth: `6' 4 1/2"`, below a foot `4 1/2"`.
///
/// Halves of a sixteenth go away from zero. A length beyond about 10⁹ km, or no number, is printed plainly.
pub fn feet_inches(mm: f64) -> String {
    in_sixteenths(mm, true)
}

fn in_sixteenths(mm: f64, with_feet: bool) -> String {
    let sixteenths = (Unit::In.from_mm(mm).abs() * 16.0).round();
    if !sixteenths.is_finite() || sixteenths >= 9e15 {
        return inches(mm, 0);
    }
    // Exact: a whole number below 2^53.
    let sixteenths = sixteenths as u64;
    let sign = if mm < 0.0 && sixteenths > 0 { "-" } else { "" };
    let (feet, rest) = if with_feet {
        (sixteenths / 192, sixteenths % 192)
    } else {
        (0, sixteenths)
    };
    let (whole, part) = (rest / 16, rest % 16);
    let fraction = match part {
        0 => String::new(),
        _ => {
            let shift = part.trailing_zeros();
            format!("{}/{}", part >> shift, 16_u64 >> shift)
        }
    };
    let inches = match (whole, part) {
        (_, 0) => format!("{whole}\""),
        (0, _) => format!("{fraction}\""),
        _ => format!("{whole} {fraction}\""),
    };
    match feet {
        0 => format!("{sign}{inches}"),
        _ => format!("{sign}{feet}' {inches}"),
    }
}

/// A length as reports in `unit` show it: metric to a tenth of a millimetre, inches and feet as [`feet_inches`].
pub fn length(mm: f64, unit: Unit) -> String {
    let decimals = match unit {
        Unit::Mm => 1,
        Unit::Cm => 2,
        Unit::M => 4,
        Unit::In | Unit::Ft => return feet_inches(mm),
    };
    format!("{} {}", decimal(unit.from_mm(mm), decimals), unit.symbol())
}

/// A width, a thickness or a place along the board as reports in `unit` show it: like [`length`], but in inches however
/// long, as the trade quotes them: `20 1/4"`, not `1' 8 1/4"`.
pub fn size(mm: f64, unit: Unit) -> String {
    match unit {
        Unit::In | Unit::Ft => in_sixteenths(mm, false),
        _ => length(mm, unit),
    }
}

/// Where something is, as precisely as one looks for it: to the millimetre, or to the sixteenth of an inch ([`size`]).
pub fn place(mm: f64, unit: Unit) -> String {
    match unit {
        Unit::In | Unit::Ft => size(mm, unit),
        _ => format!("{} mm", decimal(mm, 0)),
    }
}

/// A size that another must fit, such as a slot or a cutter: to the hundredth of a millimetre, or the thousandth of an inch, since a
/// sixteenth would hide which is wider.
pub fn fine_size(mm: f64, unit: Unit) -> String {
    match unit {
        Unit::In | Unit::Ft => inches(mm, 3),
        _ if mm.is_finite() => format!("{} mm", hundredths(mm)),
        _ => format!("{NONE} mm"),
    }
}

/// A volume of cubic millimetres in litres to a tenth: `33.4 L`.
pub fn litres(cubic_mm: f64) -> String {
    format!("{} L", decimal(cubic_mm / 1e6, 1))
}

/// A mass: in grams below a kilogram, in kilograms above; for a report in inches or feet, in pounds.
pub fn mass(kg: f64, report: Unit) -> String {
    /// The international pound, kg, exact by definition.
    const POUND: f64 = 0.453_592_37;
    if !report.is_metric() {
        format!("{} lb", decimal(kg / POUND, 2))
    } else if kg.abs() < 0.9995 {
        format!("{} g", decimal(kg * 1000.0, 0))
    } else {
        format!("{} kg", decimal(kg, 2))
    }
}

/// A force of newtons; for a report in inches or feet, in pounds-force.
pub fn force(newtons: f64, report: Unit) -> String {
    /// The pound-force, N, exact by definition.
    const POUND_FORCE: f64 = 4.448_221_615_260_5;
    if report.is_metric() {
        format!("{} N", decimal(newtons, 0))
    } else {
        format!("{} lbf", decimal(newtons / POUND_FORCE, 1))
    }
}
