//! Where, and how bad at worst.

use super::headline::ribs;
use super::numbers::{degrees, fine, percent, tenths};
use super::parts::{numbered, part_name, place_name};
use crate::design::finding::{Code, Dimension, Fact, Finding, Half, Part, SkinFault, Topic};
use crate::design::units::{self, Unit, fine_size, list, place};

/// Where, and how bad at worst; empty where the headline says it all.
pub(super) fn extent(f: &Finding, unit: Unit) -> String {
    let at = f.place.map(|p| place_name(&p, unit)).unwrap_or_default();
    let words = match f.code.topic() {
        Topic::Shape => shape(f, unit),
        Topic::Frame => frame(f, &at, unit),
        Topic::Rail => rail(f, unit),
        Topic::Strips => strips(f, &at, unit),
        Topic::Skins => skins(f, &at, unit),
        Topic::Fittings => fittings(f, &at, unit),
        Topic::Float => float(f, unit),
    };
    words.unwrap_or(at)
}

fn shape(f: &Finding, unit: Unit) -> Option<String> {
    let [measured, entered] = [f.value?, f.limit?].map(|mm| units::size(mm, unit));
    let x = units::size(f.place?.x?, unit);
    Some(if f.code == Code::ShapeWidePoint {
        format!("measured at {measured} from the tail, entered {entered}")
    } else {
        format!("measured {measured} at {x} from the tail, entered {entered}")
    })
}

fn frame(f: &Finding, at: &str, unit: Unit) -> Option<String> {
    Some(match f.code {
        Code::SlotNarrow => {
            let widths = f.facts.iter().filter_map(|fact| match fact {
                Fact::Slots { in_spine, width } => Some(format!(
                    "{} in the {}",
                    fine_size(*width, unit),
                    if *in_spine { "spine" } else { "ribs" }
                )),
                _ => None,
            });
            let widths: Vec<String> = widths.collect();
            format!("{}, at {}", widths.join(" and "), ribs(f)?)
        }
        Code::SlotUnrelieved => format!("at {}", ribs(f)?),
        Code::SpineShort => {
            let least = f.facts.iter().find_map(|fact| match fact {
                Fact::LeastHeight(mm) => Some(tenths(*mm, unit)),
                _ => None,
            })?;
            format!("at {at}, where the hollow gets lower than {least}")
        }
        Code::SpineScarfed | Code::SpineUndivided => {
            let [long, sheet] = [f.value?, f.limit?].map(|mm| place(mm, unit));
            format!("it is {long} long, the sheet {sheet}")
        }
        Code::BaySealed => {
            let of = |half: Half| {
                let here = f.places.iter().filter(|s| s.place.side == Some(half));
                let bays: Vec<usize> = here.filter_map(|s| s.place.bay).collect();
                (!bays.is_empty()).then(|| format!("{} to {}", list(&bays), half.name()))
            };
            let sides = [Half::Port, Half::Starboard].into_iter().filter_map(of);
            let sides: Vec<String> = sides.collect();
            let bays = if f.places.len() == 1 { "bay" } else { "bays" };
            format!("{bays} {}, counted from the tail", sides.join(", "))
        }
        _ => return None,
    })
}

/// A value of a rail's finding; a negative margin says which way it fails.
fn margin(code: Code, value: f64, unit: Unit) -> String {
    let size = fine(value.abs(), unit);
    match (code, value < 0.0) {
        _ if code.dimension() == Dimension::Angle => degrees(value),
        (Code::WoodBehindRail, true) => format!("open by {size}"),
        (Code::PlaningAllowance, true) => format!("{size} inside the finished rail"),
        _ => fine(value, unit),
    }
}

fn rail(f: &Finding, unit: Unit) -> Option<String> {
    let (worst, place) = (f.value?, f.place?);
    let near = ribs(f).or(place.rib.map(|rib| numbered("rib", &[rib])))?;
    Some(format!(
        "near {near}, at worst {}, course {}, {} from the tail",
        margin(f.code, worst, unit),
        place.course?,
        units::place(place.x?, unit)
    ))
}

/// One line a rib: its number, and its courses with their worst values and where those are.
pub(super) fn lines(f: &Finding, unit: Unit) -> Vec<(usize, String)> {
    let mut lines: Vec<(usize, String)> = Vec::new();
    for spot in &f.places {
        let p = spot.place;
        let (Some(rib), Some(course), Some(x), Some(value)) = (p.rib, p.course, p.x, spot.value)
        else {
            continue;
        };
        let text = format!(
            "course {course}: {} at {}",
            margin(f.code, value, unit),
            units::place(x, unit)
        );
        match lines.last_mut() {
            Some((last, line)) if *last == rib => {
                line.push_str(", ");
                line.push_str(&text);
            }
            _ => lines.push((rib, text)),
        }
    }
    lines
}

fn strips(f: &Finding, at: &str, unit: Unit) -> Option<String> {
    let wood = f.facts.iter().find_map(|fact| match fact {
        Fact::Wood(name) => Some(name.as_str()),
        _ => None,
    });
    let strip = f.place.and_then(|p| p.strip);
    Some(match f.code {
        Code::BendEasyWay | Code::BendHardWay | Code::Twist => {
            let used = f.facts.iter().find_map(|fact| match fact {
                Fact::Used(ratio) => Some(ratio),
                _ => None,
            })?;
            let on = match &f.part {
                Part::Starters(numbers) | Part::Strips(numbers) if numbers.len() > 1 => {
                    format!(" on strip {}", strip?)
                }
                _ => String::new(),
            };
            format!(
                "{}, at worst {} ({used:.2} of the limit){on}, {at}",
                part_name(&f.part),
                percent(f.value?),
            )
        }
        Code::BendUnjudged => format!(
            "{}: the figures of {} do not say what it takes",
            part_name(&f.part),
            wood?
        ),
        Code::TwistUnjudged => format!(
            "{} has no shear strength with a source; at worst {} shear strain on strip {}, {at}",
            wood?,
            percent(f.value?),
            strip?
        ),
        _ => return planks(f, unit),
    })
}

fn planks(f: &Finding, unit: Unit) -> Option<String> {
    f.facts
        .iter()
        .find_map(|fact| match fact {
            Fact::Blank(section) => {
                let [a, b] = section.map(|mm| tenths(mm, unit));
                let of = f.facts.iter().find_map(|fact| match fact {
                    Fact::Profile(name) => Some(format!(" for a {name}")),
                    _ => None,
                });
                let of = of.unwrap_or_default();
                Some(format!("the blank{of} is {a} thick and {b} wide"))
            }
            Fact::Stagger(stagger) => {
                let [whole, piece] = [f.value?, f.limit?].map(|mm| place(mm, unit));
                let stagger = place(*stagger, unit);
                Some(format!(
                    "it is {whole} long, the planks give pieces up to {piece}, and its joints stay off the tight bends and {stagger} from its neighbours'"
                ))
            }
            Fact::Figure {
                name,
                value,
                range,
                length,
            } => {
                let number = |v: f64| {
                    if *length {
                        tenths(v, unit)
                    } else {
                        format!("{v}")
                    }
                };
                let [least, greatest] = range.map(number);
                let value = number(*value);
                Some(format!("{name} is {value}, not from {least} to {greatest}"))
            }
            _ => None,
        })
        .or_else(|| {
            let length = units::length(f.value?, unit);
            Some(format!("{length} of strip is needed"))
        })
}

fn skins(f: &Finding, at: &str, unit: Unit) -> Option<String> {
    f.facts.iter().find_map(|fact| match fact {
        Fact::ShareOver(share) => {
            let percent = 100.0 * share;
            let share = if percent < 0.05 {
                "less than 0.1 %".to_owned()
            } else {
                format!("{percent:.1} %")
            };
            let value = 100.0 * f.value?;
            Some(format!(
                "{value:+.2} %, {at}; over the limit on {share} of the panel"
            ))
        }
        Fact::Radius(radius) => Some(format!(
            "a radius of {}, {:.0} times its thickness, {at}",
            place(*radius, unit),
            f.value?
        )),
        Fact::StockLength(stock) => {
            let longest = f.facts.iter().find_map(|fact| match fact {
                Fact::LongestPlank(mm) => Some(*mm),
                _ => None,
            })?;
            let [longest, stock, piece] = [longest, *stock, f.value?].map(|mm| place(mm, unit));
            Some(format!(
                "planks up to {longest} long of stock of {stock} need a piece of {piece}"
            ))
        }
        Fact::Skin(fault) => Some(
            match fault {
                SkinFault::NoSurface => "nowhere does it follow the surface",
                SkinFault::Folds => "it folds over when laid flat",
                SkinFault::Unsettled => "its flat shape does not come to rest",
                SkinFault::Triangles => "its surface cannot be divided into flat pieces",
            }
            .to_owned(),
        ),
        _ => None,
    })
}

fn fittings(f: &Finding, at: &str, unit: Unit) -> Option<String> {
    f.facts.iter().find_map(|fact| match fact {
        Fact::Shared { along, across } => {
            let [along, across] = [along, across].map(|mm| tenths(*mm, unit));
            Some(format!(
                "{along} along the board and {across} across it, near {at}"
            ))
        }
        Fact::Depth(cut) => {
            let wood = f.facts.iter().find_map(|fact| match fact {
                Fact::WoodDepth(mm) => Some(tenths(*mm, unit)),
                _ => None,
            })?;
            let cut = tenths(*cut, unit);
            Some(format!("it is {cut} deep where the board has {wood}, {at}"))
        }
        _ => None,
    })
}

fn float(f: &Finding, unit: Unit) -> Option<String> {
    let load = f.facts.iter().find_map(|fact| match fact {
        Fact::Water { fresh, ridden } => Some(format!(
            "{}, {}",
            if *fresh { "fresh water" } else { "sea" },
            if *ridden {
                "with its rider"
            } else {
                "by itself"
            }
        )),
        _ => None,
    })?;
    let centre = f.facts.iter().find_map(|fact| match fact {
        Fact::Load([x, z]) => Some([x, z].map(|mm| place(*mm, unit))),
        _ => None,
    });
    Some(match (f.value.zip(f.limit), centre) {
        (Some((whole, carries)), _) => {
            let [whole, carries] = [whole, carries].map(|kg| units::mass(kg, unit));
            format!("{load}: {whole} in all, it carries {carries}")
        }
        (None, Some([x, z])) => format!(
            "{load}: no trim below 45° balances a centre of gravity {x} from the tail and {z} over the base plane"
        ),
        (None, None) => load,
    })
}
