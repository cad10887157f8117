//! Warnings grouped by what is wrong and what to do about it, so that one remedy is read once.

use serde::Serialize;

use crate::design::units::{self, Unit, list};
use crate::rail::{CourseKind, Trouble, Warning};

/// One course near one rib that cannot hold.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct Instance {
    /// Number of the nearest rib from the tail, starting with 1.
    pub rib: usize,
    /// Where it is worst, mm from the tail.
    pub x: f64,
    /// Number of the course from the bottom skin, starting with 1.
    pub course: usize,
    /// What the course is.
    pub kind: CourseKind,
    /// The value found.
    pub value: f64,
}

/// One trouble with one remedy, wherever it occurs.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Advice {
    /// What is wrong.
    pub trouble: Trouble,
    /// Its limit.
    pub limit: f64,
    /// Unit of value and limit, `mm` or `degrees`.
    pub unit: &'static str,
    /// What to change.
    pub remedy: String,
    /// Every place, from the tail.
    pub places: Vec<Instance>,
}

/// The warnings in groups, each group where its first warning stood.
pub fn advice(warnings: &[Warning]) -> Vec<Advice> {
    let mut groups: Vec<Advice> = Vec::new();
    for w in warnings {
        let place = Instance {
            rib: w.rib,
            x: w.x,
            course: w.course,
            kind: w.kind,
            value: w.value,
        };
        let known = groups
            .iter_mut()
            .find(|g| (g.trouble, g.remedy.as_str()) == (w.trouble, w.remedy.as_str()));
        match known {
            Some(group) => group.places.push(place),
            None => groups.push(Advice {
                trouble: w.trouble,
                limit: w.limit,
                unit: if w.trouble == Trouble::Bevel {
                    "degrees"
                } else {
                    "mm"
                },
                remedy: w.remedy.clone(),
                places: vec![place],
            }),
        }
    }
    groups
}

impl Advice {
    /// What is wrong and the limit, in words.
    pub fn headline(&self) -> String {
        let limit = self.number(self.limit);
        match self.trouble {
            Trouble::Cover => format!("less than {limit} of wood left behind the finished rail"),
            Trouble::Proud => format!("less than {limit} of stock proud of the finished rail"),
            Trouble::DigIn => format!("a lip digs in deeper than {limit}"),
            Trouble::MouthGap => format!("a joint opens wider than {limit} on the finished rail"),
            Trouble::Bevel => format!("a flat base is planed steeper than {limit}"),
            Trouble::Open => "the top strip stays below the deck's inner face".into(),
            Trouble::OffSkin => format!("a starter stands more than {limit} off the bottom skin"),
            Trouble::Unsettled => "the strips' paths could not be worked out exactly".into(),
        }
    }

    /// The worst place.
    pub fn worst(&self) -> Option<&Instance> {
        let wanted_more = matches!(self.trouble, Trouble::Cover | Trouble::Proud);
        self.places.iter().min_by(|a, b| {
            let order = a.value.total_cmp(&b.value);
            if wanted_more { order } else { order.reverse() }
        })
    }

    /// Where, and how bad at worst: `near ribs 1 to 4 and 6, at worst 2.31 mm in course 5, 820 mm from the tail`.
    pub fn extent(&self, unit: Unit) -> String {
        let mut ribs: Vec<usize> = self.places.iter().map(|p| p.rib).collect();
        ribs.dedup();
        let named = if ribs.len() == 1 { "rib" } else { "ribs" };
        let worst = self.worst().map_or(String::new(), |w| {
            format!(
                ", at worst {} in course {}, {} from the tail",
                self.number(w.value),
                w.course,
                units::place(w.x, unit)
            )
        });
        format!("near {named} {}{worst}", list(&ribs))
    }

    /// One line a rib: its number, and its courses with their worst values and where those are.
    pub fn lines(&self, unit: Unit) -> Vec<(usize, String)> {
        let mut lines: Vec<(usize, String)> = Vec::new();
        for place in &self.places {
            let text = format!(
                "course {}: {} at {}",
                place.course,
                self.number(place.value),
                units::place(place.x, unit)
            );
            match lines.last_mut() {
                Some((rib, line)) if *rib == place.rib => {
                    line.push_str(", ");
                    line.push_str(&text);
                }
                _ => lines.push((place.rib, text)),
            }
        }
        lines
    }

    /// A value with its unit.
    fn number(&self, value: f64) -> String {
        match self.trouble {
            Trouble::Bevel => format!("{value:.1}°"),
            _ => format!("{value:.2} mm"),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn one_remedy_is_one_group() {
        let warning = |rib, course, trouble, value, remedy: &str| Warning {
            rib,
            x: 100.0 * rib as f64,
            course,
            kind: CourseKind::BeadAndCove,
            trouble,
            value,
            limit: 1.0,
            remedy: remedy.into(),
        };
        let groups = advice(&[
            warning(1, 4, Trouble::DigIn, 1.5, "a"),
            warning(1, 5, Trouble::DigIn, 2.5, "a"),
            warning(1, 5, Trouble::Cover, 0.5, "b"),
            warning(3, 2, Trouble::DigIn, 1.25, "a"),
            warning(3, 2, Trouble::Cover, 0.75, "b"),
        ]);
        assert_eq!(groups.len(), 2);
        assert_eq!(
            groups[0].extent(Unit::Mm),
            "near ribs 1 and 3, at worst 2.50 mm in course 5, 100 mm from the tail"
        );
        assert_eq!(
            groups[1].extent(Unit::In),
            "near ribs 1 and 3, at worst 0.50 mm in course 5, 3 15/16\" from the tail"
        );
        assert_eq!(
            groups[0].lines(Unit::Mm),
            [
                (
                    1,
                    "course 4: 1.50 mm at 100 mm, course 5: 2.50 mm at 100 mm".to_owned()
                ),
                (3, "course 2: 1.25 mm at 300 mm".to_owned())
            ]
        );
    }
}
