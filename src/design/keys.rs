//! The one table of all keys of the design file.
//!
//! Ranges and defaults are common practice with no published source: wide enough for any board a maker would build,
//! narrow enough to catch a slip of unit or decimal point.

use super::key::{
    Fallback::Nothing,
    Key,
    KeyKind::{Choice, Count, Degrees, Length, Number, Pairs, Places, Text},
    NAME, Narrowed, TableKeys,
};
use super::keys_fittings as fittings;
use super::keys_frame as frame;
use super::keys_skins as skins;
use super::keys_weight as weight;
use super::keys_wood as wood;

/// All tables of the design file, in the order a file has them.
pub const fn tables() -> &'static [TableKeys] {
    TABLES
}

/// The key called `name` of the table called `table`.
pub fn key(table: &str, name: &str) -> Option<&'static Key> {
    TABLES.iter().find(|keys| keys.path == table)?.key(name)
}

/// Names of the tails that end in a cut.
pub(super) const CUT_TAILS: &[&str] = &["square", "squash", "swallow"];

/// Least and greatest number that a key takes, in the unit of its kind.
pub fn key_range(table: &str, name: &str) -> Option<[f64; 2]> {
    key(table, name)?.range()
}

const TABLES: &[TableKeys] = &[
    TableKeys {
        path: "",
        most: 1,
        doc: "The board as a whole.",
        keys: TOP,
    },
    TableKeys {
        path: "outline",
        most: 1,
        doc: "The plan shape: by the trade's measures, or by points.",
        keys: OUTLINE,
    },
    TableKeys {
        path: "rocker",
        most: 1,
        doc: "The side view of the bottom's centreline: by its lift at the ends, or by points.",
        keys: ROCKER,
    },
    TableKeys {
        path: "foil",
        most: 1,
        doc: "The thickness along the board, square to the bottom: by measures, or by points.",
        keys: FOIL,
    },
    TableKeys {
        path: "section",
        most: 100,
        doc: "The section's character at one place; as many as wanted, blended between. With none, a section of defaults \
              stands at the centre.",
        keys: SECTION,
    },
    TableKeys {
        path: "construction",
        most: 1,
        doc: "How the board is built.",
        keys: CONSTRUCTION,
    },
    TableKeys {
        path: "construction.strip",
        most: 1,
        doc: "The finished bead-and-cove strip.",
        keys: STRIP,
    },
    TableKeys {
        path: "construction.starter",
        most: 1,
        doc: "The square strips each rail starts from.",
        keys: STARTER,
    },
    TableKeys {
        path: "construction.holes",
        most: 1,
        doc: "Lightening holes in ribs and spine, which also let the bays breathe.",
        keys: frame::HOLES,
    },
    TableKeys {
        path: "construction.cutter",
        most: 1,
        doc: "What ribs and spine are cut with.",
        keys: frame::CUTTER,
    },
    TableKeys {
        path: "construction.sheet",
        most: 1,
        doc: "The sheet that ribs and spine are cut from.",
        keys: frame::SHEET,
    },
    TableKeys {
        path: "skins",
        most: 1,
        doc: "How bottom and deck panels are glued up, and the limits of their wood.",
        keys: skins::SKINS,
    },
    TableKeys {
        path: "blocks",
        most: 1,
        doc: "The solid blocks at nose and tail.",
        keys: fittings::BLOCKS,
    },
    TableKeys {
        path: "fins",
        most: 1,
        doc: "The fins and the pads that hold them.",
        keys: fittings::FINS,
    },
    TableKeys {
        path: "fins.fin",
        most: 20,
        doc: "A fin at a place of your own, or a pair of them, besides those of `set`.",
        keys: fittings::FIN,
    },
    TableKeys {
        path: "plug",
        most: 1,
        doc: "The leash plug.",
        keys: fittings::PLUG,
    },
    TableKeys {
        path: "vent",
        most: 1,
        doc: "The vent, by which the hollow breathes.",
        keys: fittings::VENT,
    },
    TableKeys {
        path: "bed",
        most: 1,
        doc: "The building bed: cradles that hold the bottom skin to its shape.",
        keys: fittings::BED,
    },
    TableKeys {
        path: "timber",
        most: 1,
        doc: "The wood of the parts.",
        keys: wood::TIMBER,
    },
    TableKeys {
        path: "timber.species",
        most: 100,
        doc: "A species of your own, or your own figures for one.",
        keys: wood::SPECIES,
    },
    TableKeys {
        path: "shop",
        most: 1,
        doc: "How strips are cut from planks.",
        keys: wood::SHOP,
    },
    TableKeys {
        path: "shop.kerf",
        most: 1,
        doc: "Widths of cut.",
        keys: wood::KERF,
    },
    TableKeys {
        path: "shop.allowance",
        most: 1,
        doc: "What each machine takes.",
        keys: wood::ALLOWANCE,
    },
    TableKeys {
        path: "shop.plank",
        most: 100,
        doc: "Planks of one size, on hand or to buy; with a table for each size, and `count` for how many there are of it. With none, planks of 50 by 150 by 3000 mm are \
              assumed, as many as it takes.",
        keys: wood::PLANK,
    },
    TableKeys {
        path: "finish",
        most: 1,
        doc: "What goes on the surface and into the joints.",
        keys: weight::FINISH,
    },
    TableKeys {
        path: "fitting",
        most: 100,
        doc: "Something fitted to the board that is to be weighed with it.",
        keys: weight::FITTING,
    },
    TableKeys {
        path: "rider",
        most: 1,
        doc: "Who rides it, to see how it lies in the water; without a mass the board floats alone.",
        keys: weight::RIDER,
    },
];

const TOP: &[Key] = &[
    Key::new("name", Text(NAME), "\"first board\"")
        .doc("The board's name, printed on every template"),
    Key::new("notes", Text(1000), "\"\"")
        .or(Nothing)
        .doc("Free notes"),
    Key::new("unit", Choice(&["mm", "cm", "m", "in", "ft"]), "\"mm\"")
        .or_word("mm")
        .doc("The unit of lengths that are plain numbers"),
    Key::new("report", Choice(&["mm", "in"]), "\"mm\"")
        .or_rule("`mm` if `unit` is metric, else `in`")
        .doc("The unit reports are printed in; `in` prints feet, inches and fractions"),
];

const OUTLINE: &[Key] = &[
    Key::new("length", Length(1200.0, 4500.0), "\"6' 4\\\"\"")
        .usually(1650.0, 3000.0)
        .doc("Length from tail to nose along the base line"),
    Key::new("width", Length(250.0, 900.0), "\"20 1/4 in\"")
        .unless("points")
        .usually(470.0, 620.0)
        .doc("Greatest width"),
    Key::new("wide_point", Length(300.0, 4200.0), "\"38 3/4 in\"")
        .or_rule("0.52 of the length")
        .instead_of("points")
        .usual_share("length", 0.45, 0.56)
        .doc("Place of the greatest width, from the tail"),
    Key::new("nose_width", Length(20.0, 850.0), "\"11 3/4 in\"")
        .or_rule("0.58 of the width for a pointed nose, 0.8 for a round one")
        .instead_of("points")
        .usual_share("width", 0.55, 0.75)
        .doc("Full width 12 in (304.8 mm) from the nose"),
    Key::new("tail_width", Length(20.0, 850.0), "\"14 1/4 in\"")
        .or_rule("0.6 of the width for a pin, 0.7 for a round tail, 0.72 for others")
        .instead_of("points")
        .usual_share("width", 0.66, 0.8)
        .doc("Full width 12 in (304.8 mm) from the tail"),
    Key::new(
        "points",
        Pairs("half-width", 1.0, 450.0),
        "[[300, 181], [985, 257], [1630, 149]]",
    )
    .or(Nothing)
    .commented()
    .doc("The plan shape's half-width at places from the tail, strictly between the ends; at least three"),
    Key::new("nose", Choice(&["pointed", "round"]), "\"pointed\"")
        .or_word("pointed")
        .doc("How the outline closes at the nose"),
    Key::new("nose_angle", Degrees(15.0, 85.0), "55")
        .or_number(55.0)
        .only("nose", &["pointed"])
        .usually(45.0, 65.0)
        .doc("Angle between one side of the nose's point and the centreline"),
    Key::new(
        "tail",
        Choice(&["pin", "round", "square", "squash", "swallow"]),
        "\"round\"",
    )
    .or_word("round")
    .doc("How the outline closes at the tail"),
    Key::new("tail_angle", Degrees(15.0, 85.0), "50")
        .or_number(50.0)
        .only("tail", &["pin"])
        .commented()
        .usually(40.0, 60.0)
        .doc("Angle between one side of the tail's point and the centreline"),
    Key::new("tail_end_width", Length(30.0, 700.0), "150")
        .or_rule("0.5 of the width 12 in from the tail, 0.6 for a swallow tail")
        .only("tail", CUT_TAILS)
        .commented()
        .usual_share("width", 0.25, 0.42)
        .doc("Width of the cut; of a squash tail where its corners would meet, of a swallow tail from tip to tip"),
    Key::new("tail_corner", Length(5.0, 250.0), "40")
        .or_rule("a quarter of `tail_end_width`")
        .only("tail", &["squash"])
        .commented()
        .usual_share("tail_end_width", 0.15, 0.4)
        .doc("Radius of the corners"),
    Key::new("tail_cleft", Length(20.0, 300.0), "110")
        .or_rule("0.45 of `tail_end_width`")
        .only("tail", &["swallow"])
        .commented()
        .usual_share("tail_end_width", 0.35, 0.6)
        .doc("Depth of the cleft"),
];

const ROCKER: &[Key] = &[
    Key::new("nose", Length(10.0, 450.0), "120")
        .or_number(120.0)
        .instead_of("points")
        .usually(60.0, 150.0)
        .doc("Height of the bottom at the nose above the base line"),
    Key::new("tail", Length(0.0, 300.0), "55")
        .or_number(55.0)
        .instead_of("points")
        .usually(20.0, 70.0)
        .doc("Height of the bottom at the tail above the base line"),
    Key::new("flat", Places(2, 2), "[700, 1100]")
        .or_rule("from 0.36 to 0.56 of the length")
        .instead_of("points")
        .doc("Where the flat starts and ends, from the tail"),
    Key::new(
        "points",
        Pairs("height", 0.0, 450.0),
        "[[0, 55], [450, 13], [900, 0], [1450, 25], [\"6' 4\\\"\", 120]]",
    )
    .or(Nothing)
    .commented()
    .doc("Heights of the bottom from tail to nose, both ends included; the lowest is 0"),
];

const FOIL: &[Key] = &[
    Key::new("centre", Length(25.0, 150.0), "\"2 5/8 in\"")
        .unless("points")
        .usually(55.0, 85.0)
        .doc("Thickness half way along the board"),
    Key::new("nose", Length(10.0, 150.0), "38")
        .or_rule("0.57 of `centre`")
        .instead_of("points")
        .usual_share("centre", 0.5, 0.68)
        .doc("Thickness 12 in (304.8 mm) from the nose"),
    Key::new("tail", Length(10.0, 150.0), "42")
        .or_rule("0.62 of `centre`")
        .instead_of("points")
        .usual_share("centre", 0.55, 0.72)
        .doc("Thickness 12 in (304.8 mm) from the tail"),
    Key::new("nose_tip", Length(3.0, 100.0), "20")
        .or_rule("half of `nose`")
        .instead_of("points")
        .usual_share("nose", 0.4, 0.6)
        .doc("Thickness at the nose, just before the tip rounds off"),
    Key::new("tail_tip", Length(3.0, 100.0), "22")
        .or_rule("half of `tail`")
        .instead_of("points")
        .usual_share("tail", 0.4, 0.6)
        .doc("Thickness at the tail, just before the tip rounds off"),
    Key::new(
        "points",
        Pairs("thickness", 3.0, 150.0),
        "[[0, 22], [305, 42], [965, 67], [1625, 38], [\"6' 4\\\"\", 20]]",
    )
    .or(Nothing)
    .commented()
    .doc("Thickness at places from tail to nose, both ends included"),
];

/// The largest radius that may be called hard and the smallest that may be called soft, mm (common practice, no published source).
const EDGE: Narrowed = Narrowed {
    by: "edge",
    words: &[("hard", 0.5, 10.0), ("soft", 5.0, 80.0)],
    what: "the radius of a {} edge",
};

const SECTION: &[Key] = &[
    Key::new("at", Length(0.0, 4500.0), "965")
        .usual_share("outline.length", 0.08, 0.92)
        .doc("Place, from the tail"),
    Key::new(
        "contour",
        Choice(&["flat", "roll", "concave", "double-concave", "vee"]),
        "\"concave\"",
    )
    .or_word("flat")
    .doc("Shape of the bottom across the board"),
    Key::new("contour_depth", Length(0.0, 25.0), "4")
        .or_number(4.0)
        .only("contour", &["roll", "concave", "double-concave", "vee"])
        .usually(1.0, 6.0)
        .doc("Depth of the contour"),
    Key::new("edge", Choice(&["hard", "soft"]), "\"soft\"")
        .or_word("soft")
        .doc("The bottom edge's character"),
    Key::new("edge_radius", Length(0.5, 80.0), "30")
        .or_rule("2 mm for a hard edge, 30 mm for a soft one")
        .narrowed(EDGE)
        .usually(12.0, 45.0)
        .doc("Radius of the bottom edge; a wooden edge cannot be kept sharper than 0.5 mm"),
    Key::new("tuck", Length(0.0, 120.0), "16")
        .or_rule("8 mm for a hard edge, 16 mm for a soft one")
        .usually(6.0, 24.0)
        .doc("How far the bottom edge lies inside the apex"),
    Key::new("tuck_angle", Degrees(20.0, 80.0), "45")
        .or_number(45.0)
        .usually(35.0, 60.0)
        .doc("Angle at which the tuck leaves the bottom"),
    Key::new("apex", Number(0.15, 0.6), "0.4")
        .or_number(0.4)
        .usually(0.32, 0.5)
        .doc("Height of the apex above the bottom's centre, as a fraction of the thickness"),
    Key::new("fullness", Number(0.0, 1.0), "0.5")
        .or_number(0.5)
        .usually(0.25, 0.75)
        .doc("Fullness of the upper rail: 0 thin, 1 boxy"),
    Key::new("crown", Length(0.0, 40.0), "4")
        .or_rule("a tenth of the deck's height over the apex")
        .usually(2.0, 8.0)
        .doc(
            "Fall of the deck from the centreline to half way out to the apex: 0 a flat deck, at most 0.45 of the \
             deck's height over the apex there",
        ),
];

const CONSTRUCTION: &[Key] = &[
    Key::new("bottom_skin", Length(3.0, 8.0), "4")
        .or_number(4.0)
        .usually(3.0, 5.0)
        .doc("Thickness of the bottom skin"),
    Key::new("deck_skin", Length(3.0, 8.0), "4")
        .or_number(4.0)
        .usually(3.0, 5.0)
        .doc("Thickness of the deck skin"),
    Key::new("rib", Length(3.0, 12.0), "6")
        .or_number(6.0)
        .usually(4.0, 9.0)
        .doc("Thickness of the ribs"),
    Key::new("rib_spacing", Length(100.0, 500.0), "250")
        .or_number(250.0)
        .instead_of("rib_stations")
        .usually(180.0, 350.0)
        .doc("Distance between ribs; the remainder is shared between the two ends"),
    Key::new(
        "rib_stations",
        Places(1, 60),
        "[300, 550, 800, 1050, 1300, 1550]",
    )
    .or(Nothing)
    .commented()
    .doc("The ribs' centre planes, from the tail"),
    Key::new("spine", Length(3.0, 25.0), "6")
        .or_number(6.0)
        .usually(4.0, 12.0)
        .doc("Thickness of the spine"),
    Key::new("slot_clearance", Length(0.0, 1.0), "0.2")
        .or_number(0.2)
        .usually(0.1, 0.4)
        .doc("Clearance in the half-lap slots, over the partner's thickness"),
    Key::new("tail_block", Length(20.0, 600.0), "90")
        .or_rule("pin 120 mm, round 90 mm, square and squash 60 mm, swallow the cleft and 40 mm")
        .usually(60.0, 160.0)
        .doc("Length of the solid block at the tail, from the tail's end (swallow: from the tips)"),
    Key::new("nose_block", Length(20.0, 600.0), "120")
        .or_rule("120 mm for a pointed nose, 90 mm for a round one")
        .usually(70.0, 180.0)
        .doc("Length of the solid block at the nose"),
    Key::new("cover", Length(0.0, 10.0), "2")
        .or_number(2.0)
        .usually(1.0, 3.0)
        .doc("Cover: the least wood behind the finished rail, between it and the hollow"),
    Key::new("proud", Length(0.0, 10.0), "0.5")
        .or_number(0.5)
        .usually(0.3, 1.0)
        .doc("Planing allowance: the least wood that stands proud of the finished rail, outside it, to be planed away"),
    Key::new("skin_turn", Degrees(5.0, 60.0), "25")
        .or_number(25.0)
        .doc("A skin follows the surface until its normal has turned this far from the plumb line"),
    Key::new("skin_bend_radius", Length(20.0, 1000.0), "120")
        .or_number(120.0)
        .doc("A skin does not bend tighter than this radius"),
];

const STRIP: &[Key] = &[
    Key::new("thickness", Length(3.0, 15.0), "6")
        .or_number(6.0)
        .doc("Thickness, across the rail"),
    Key::new("width", Length(8.0, 30.0), "12.7")
        .or_number(12.7)
        .usually(10.0, 20.0)
        .doc("Width, from lip plane to bead crown"),
    Key::new("bead_radius", Length(1.5, 60.0), "3")
        .or_rule("half the thickness: a half-round")
        .usual_share("thickness", 0.5, 0.8)
        .doc("Radius of the bead; at least half the thickness"),
    Key::new("cove_radius", Length(1.5, 60.0), "3")
        .or_rule("that of the bead")
        .usual_share("bead_radius", 1.0, 1.2)
        .doc("Radius of the cove; at least the bead's"),
    Key::new("cove_depth", Length(0.2, 10.0), "2.5")
        .or_rule("0.5 mm less than the arc's full depth, so that the lips keep wood")
        .usual_share("thickness", 0.1, 0.35)
        .doc("Depth of the cove; at most the depth of its arc across the full thickness"),
];

const STARTER: &[Key] = &[
    Key::new("size", Length(4.0, 25.0), "8")
        .or_number(8.0)
        .usual_share("construction.strip.thickness", 1.1, 1.8)
        .doc("Side of the square; at least the strip's thickness"),
    Key::new("count", Count(1, 4), "2")
        .or_number(2.0)
        .usually(1.0, 3.0)
        .doc("How many to each rail"),
    Key::new(
        "arrangement",
        Choice(&["side-by-side", "stacked"]),
        "\"side-by-side\"",
    )
    .or_word("side-by-side")
    .doc("How several are arranged: side by side on the bottom skin, or one on the other"),
    Key::new("laminations", Count(1, 4), "1")
        .or_number(1.0)
        .commented()
        .usually(1.0, 2.0)
        .doc("How many laminations each is bent as, to be glued together on the frame"),
    Key::new(
        "lamination_plane",
        Choice(&["vertical", "horizontal"]),
        "\"vertical\"",
    )
    .or_word("vertical")
    .commented()
    .doc("Plane of its laminations: vertical, side by side, which bend easily round the outline; or horizontal, one on the other, which bend easily up and down"),
];
