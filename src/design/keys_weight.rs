//! Keys of what a board weighs beside its wood, and of who rides it.
//!
//! Defaults are common practice with no published source.

use super::key::{
    Fallback::Nothing,
    Key,
    KeyKind::{Choice, Length, Number, Text},
    NAME,
};

pub(super) const FINISH: &[Key] = &[
    Key::new("kind", Choice(&["oil", "sheath", "none"]), "\"oil\"")
        .or_word("oil")
        .doc("Oil or varnish, or a sheath of light glass cloth and epoxy"),
    Key::new("mass", Number(0.0, 3000.0), "60")
        .or_rule("60 for oil, 400 for a sheath")
        .commented()
        .usually(40.0, 500.0)
        .doc("What stays on the board, grams to a square metre of its surface"),
    Key::new("glue", Number(0.0, 1000.0), "200")
        .or_number(200.0)
        .doc("Glue that stays in the joints, grams to a square metre glued"),
];

pub(super) const FITTING: &[Key] = &[
    Key::new("name", Text(NAME), "\"fins\"").doc("What it is: fins, a leash plug, a vent"),
    Key::new("mass", Number(0.0, 10.0), "0.25")
        .usually(0.02, 1.0)
        .doc("Its mass, kilograms"),
    Key::new("at", Length(0.0, 4500.0), "180")
        .usual_share("outline.length", 0.02, 0.95)
        .doc("Place of its weight, from the tail"),
    Key::new("face", Choice(&["bottom", "deck"]), "\"bottom\"")
        .or_word("bottom")
        .doc("Which face it sits on"),
];

pub(super) const RIDER: &[Key] = &[
    Key::new("mass", Number(1.0, 250.0), "75")
        .or(Nothing)
        .commented()
        .usually(45.0, 110.0)
        .doc("The rider's mass, kilograms, to see how the board lies under it"),
    Key::new("at", Length(0.0, 4500.0), "900")
        .or_rule("at the board's centre of volume")
        .commented()
        .usual_share("outline.length", 0.35, 0.55)
        .doc("Place of the rider's weight, from the tail"),
    Key::new("height", Length(0.0, 2000.0), "120")
        .or_number(120.0)
        .commented()
        .usually(100.0, 1000.0)
        .doc("Height of the rider's centre of gravity over the deck: about 120 mm lying, 900 mm standing"),
];
