//! Keys of the skins: planks, overhang, and the limits of their wood.
//!
//! Defaults are common practice with no published source; the limits' own sources stand with
//! [`SkinLimits`](crate::design::SkinLimits).

use super::key::{
    Key,
    KeyKind::{Choice, Length, Number},
};

pub(super) const SKINS: &[Key] = &[
    Key::new("plank_width", Length(20.0, 1500.0), "90")
        .or_number(90.0)
        .doc("Greatest width of the planks a panel is glued up of"),
    Key::new("plank_length", Length(300.0, 10_000.0), "2400")
        .or_rule("as long as the panel")
        .commented()
        .doc("Longest plank or sheet to be had; longer ones are joined"),
    Key::new("joint", Choice(&["scarf", "key"]), "\"scarf\"")
        .or_word("scarf")
        .doc("How the panel is made longer than its planks: planks scarfed one by one and staggered, or the whole panel cut across into pieces that key into each other"),
    Key::new("centre", Choice(&["seam", "plank"]), "\"seam\"")
        .or_word("seam")
        .doc("What lies on the centreline: a seam, so that planks may be book-matched, or the middle of a plank"),
    Key::new("overhang", Length(0.0, 100.0), "10")
        .or_number(10.0)
        .doc("How far a panel reaches past the finished outline, to be trimmed when it is on"),
    Key::new("dry_strain_along", Number(0.0, 2.0), "0.1")
        .or_number(0.1)
        .doc("Limit of the strain in the sheet along the grain for a dry panel, percent"),
    Key::new("soaked_strain_along", Number(0.0, 3.0), "0.3")
        .or_number(0.3)
        .doc("The same, soaked or steamed; beyond it the panel is split"),
    Key::new("dry_strain_across", Number(0.0, 3.0), "0.3")
        .or_number(0.3)
        .doc("Limit of the strain across the grain for a dry panel, percent"),
    Key::new("soaked_strain_across", Number(0.0, 5.0), "1")
        .or_number(1.0)
        .doc("The same, soaked or steamed; beyond it the panel is split"),
    Key::new("dry_bend", Number(10.0, 1000.0), "125")
        .or_number(125.0)
        .doc("Least radius over thickness to which a dry panel bends"),
    Key::new("soaked_bend", Number(10.0, 1000.0), "75")
        .or_number(75.0)
        .doc("The same, soaked or steamed; bent tighter it is relieved"),
];
