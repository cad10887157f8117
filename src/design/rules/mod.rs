//! The rules between keys: one table, from which the parser, drafts, changes that are offered, and the key reference take them.

mod construction;
mod fittings;
mod outline;
mod points;
mod strip;
mod wood;

pub(super) use wood::species_break;

use super::model::Draft;
use super::place::KeyPlace;
use super::rule_break::RuleBreak;

/// How near a point at an end must be to it, mm; it is then set on it.
pub(super) const END: f64 = 0.05;

/// Slack for radii and depths typed in rounded figures, mm.
pub(super) const ROUNDED: f64 = 0.005;

/// A rule between keys of the design file.
#[derive(Debug, Clone, Copy)]
pub struct Rule {
    /// Its stable code.
    pub code: &'static str,
    /// The keys it binds, each with its table's name before it.
    pub keys: &'static [&'static str],
    /// Further keys from which these take their defaults.
    pub rests_on: &'static [&'static str],
    /// What must hold, in a sentence without a full stop.
    pub says: &'static str,
    /// Where a draft breaks it.
    breaks: fn(&Draft, &mut Breaks),
}

impl Rule {
    /// Where a draft breaks it.
    pub(super) fn breaks_in(&self, draft: &Draft) -> Vec<RuleBreak> {
        let mut breaks = Breaks {
            code: self.code,
            found: Vec::new(),
        };
        (self.breaks)(draft, &mut breaks);
        breaks.found
    }

    /// The places a break of it depends on: its own, and the rule's keys of tables that come once.
    pub(super) fn places<'b>(
        &self,
        broken: &'b RuleBreak,
    ) -> impl Iterator<Item = KeyPlace> + use<'b> {
        let own = &broken.places;
        let all = self.keys.iter().chain(self.rests_on);
        let others = all.clone().map(|name| KeyPlace::of(name));
        let others = others.filter(|key| own.iter().all(|place| place.table != key.table));
        let same = all.flat_map(move |name| {
            let rows = own
                .iter()
                .filter(move |place| place.table == KeyPlace::of(name).table);
            rows.map(move |place| KeyPlace::in_row(name, place.row))
        });
        own.iter().copied().chain(others).chain(same)
    }
}

/// Collects the breaks of one rule.
struct Breaks {
    code: &'static str,
    found: Vec<RuleBreak>,
}

impl Breaks {
    /// Notes a break at the likeliest of these places, with the value and its limit.
    fn add(
        &mut self,
        places: &[KeyPlace],
        [value, limit]: [f64; 2],
        message: String,
        remedy: impl Into<String>,
    ) {
        let broken = RuleBreak::new(self.code, places.to_vec(), message, remedy);
        self.found.push(broken.figures(value, limit));
    }

    /// Notes a break that has no figures.
    fn add_plain(&mut self, places: &[KeyPlace], message: &str, remedy: &str) {
        self.found
            .push(RuleBreak::new(self.code, places.to_vec(), message, remedy));
    }
}

/// The key of this dotted name, in the first of its tables.
fn key(name: &'static str) -> KeyPlace {
    KeyPlace::of(name)
}

/// Every rule between keys, in the order of the keys in a file.
pub fn rules() -> impl Iterator<Item = &'static Rule> {
    [
        outline::RULES,
        points::RULES,
        construction::RULES,
        strip::RULES,
        fittings::RULES,
        wood::RULES,
    ]
    .into_iter()
    .flatten()
}
