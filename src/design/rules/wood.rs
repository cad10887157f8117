//! Rules of the wood and the shop.

use super::{Rule, key};
use crate::design::model::Draft;
use crate::design::place::KeyPlace;
use crate::design::rule_break::RuleBreak;
use crate::design::scalar::plain;
use crate::design::timber::Species;

/// The table's species break at 0.5 to 0.95 %; a slip of unit is off by far more.
const BREAKS_AT: std::ops::RangeInclusive<f64> = 0.001..=0.05;

/// Code of the rule that a species' figures must be those of wood.
const WOOD_STRAIN: &str = "wood-strain";

pub(super) const RULES: &[Rule] = &[
    Rule {
        code: WOOD_STRAIN,
        keys: &["timber.species.rupture", "timber.species.modulus"],
        rests_on: &[],
        says: "`rupture` over `modulus` must be a strain at which wood breaks, near 0.7 %",
        breaks: |draft, breaks| {
            for (row, wood) in woods(draft).into_iter().enumerate() {
                breaks.found.extend(species_break(wood, row));
            }
        },
    },
    Rule {
        code: "wood-figures",
        keys: &[
            "timber.rail",
            "timber.frame",
            "timber.skins",
            "timber.blocks",
        ],
        rests_on: &[],
        says: "a species' figures must be those of a wood",
        breaks: |draft, breaks| {
            let keys = [
                "timber.rail",
                "timber.frame",
                "timber.skins",
                "timber.blocks",
            ];
            for (name, wood) in keys.into_iter().zip(woods(draft)) {
                if let Err(error) = wood.check() {
                    let message = format!("no wood is like this: {error}");
                    breaks.add_plain(&[key(name)], &message, "check the species' figures");
                }
            }
        },
    },
    Rule {
        code: "planks-missing",
        keys: &["shop.plank.length"],
        rests_on: &[],
        says: "there must be planks of at least one size",
        breaks: |draft, breaks| {
            if draft.shop.planks.is_empty() {
                breaks.add_plain(
                    &[key("shop.plank.length")],
                    "the shop must have planks of at least one size",
                    "add planks",
                );
            }
        },
    },
];

fn woods(draft: &Draft) -> [&Species; 4] {
    let timber = &draft.timber;
    [&timber.rail, &timber.frame, &timber.skins, &timber.blocks]
}

/// The break of the rule that a species' figures must be those of wood, in the `row`th table of species.
pub(in crate::design) fn species_break(species: &Species, row: usize) -> Option<RuleBreak> {
    let strain = species.rupture / species.true_modulus();
    (!BREAKS_AT.contains(&strain)).then(|| {
        let places = ["timber.species.rupture", "timber.species.modulus"]
            .map(|name| KeyPlace::in_row(name, row));
        let limit = if strain < *BREAKS_AT.start() {
            BREAKS_AT.start()
        } else {
            BREAKS_AT.end()
        };
        RuleBreak::new(
            WOOD_STRAIN,
            places.to_vec(),
            format!(
                "`rupture` over `modulus` gives a breaking strain of {} %; wood breaks near 0.7 %",
                plain(100.0 * strain)
            ),
            "check the units of both: they are in MPa",
        )
        .figures(strain, *limit)
    })
}
