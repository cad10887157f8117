//! Keys of how ribs and spine are lightened and cut.
//!
//! Defaults and ranges are common practice with no published source.

use super::key::{
    Key,
    KeyKind::{Choice, Count, Length},
};

pub(super) const HOLES: &[Key] = &[
    Key::new(
        "pattern",
        Choice(&["contour", "round", "none"]),
        "\"contour\"",
    )
    .or_word("contour")
    .doc("Holes that follow the part's contour, round ones for a hole saw, or none"),
    Key::new("web", Length(3.0, 100.0), "10")
        .or_number(10.0)
        .doc("Least wood between a hole and the edges under the skins"),
    Key::new("rail_web", Length(3.0, 150.0), "15")
        .or_number(15.0)
        .doc("Least wood between a hole and the rib's ends at the rail, or the spine's at the blocks"),
    Key::new("lap_web", Length(5.0, 150.0), "20")
        .or_number(20.0)
        .doc("Least wood each side of a slot, over the part's whole height; names and arrows stand there"),
    Key::new("bridge", Length(3.0, 150.0), "10")
        .or_rule("`web`")
        .doc("Least wood between two holes"),
    Key::new("corner", Length(1.0, 100.0), "8")
        .or_number(8.0)
        .doc("Least radius of a hole's corners, and so half its least height; never below the cutter's"),
    Key::new("span", Length(20.0, 2000.0), "90")
        .or_rule("three times the height there is")
        .instead_of("count")
        .commented()
        .doc("Longest hole that is not divided by a bridge"),
    Key::new("count", Count(1, 20), "2")
        .or_rule("as many as `span` asks for")
        .commented()
        .doc("Holes in each half rib and in each bay of the spine, where there is room"),
    Key::new("breather", Length(2.0, 40.0), "8")
        .or_number(8.0)
        .doc("Diameter of the air hole in a rib or a bay of the spine that would seal the air in"),
];

pub(super) const CUTTER: &[Key] = &[
    // The thinnest ribs and spine the keys take are 3 mm: the default cutter goes into every slot.
    Key::new("diameter", Length(0.5, 30.0), "3")
        .or_number(3.0)
        .doc("Diameter of the cutter that ribs and spine are cut with; it must go into their slots"),
    Key::new("relief", Choice(&["none", "corner", "wall"]), "\"none\"")
        .or_word("none")
        .doc(
            "Relief for the cutter in inside corners: none for work by hand, a round bite into the corner itself, or one into \
             the side of it so that the end stays clean",
        ),
];

pub(super) const SHEET: &[Key] = &[
    Key::new("length", Length(300.0, 10_000.0), "2440")
        .or_number(2440.0)
        .doc("Length of the sheet or machine bed; a longer spine is made in pieces"),
    Key::new("width", Length(100.0, 5000.0), "1220")
        .or_number(1220.0)
        .doc("Width of the sheet or machine bed"),
    Key::new("joint", Choice(&["key", "scarf"]), "\"key\"")
        .or_word("key")
        .doc("How the spine's pieces are joined: a key that locks into the other piece, or a scarf glued over its length"),
];
