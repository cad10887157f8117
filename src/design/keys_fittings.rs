//! Keys of blocks, fins, leash plug, vent and building bed.
//!
//! Ranges and defaults are common practice with no published source.

use super::key::{
    Key,
    KeyKind::{Choice, Count, Degrees, Length, Places},
};

pub(super) const BLOCKS: &[Key] = &[
    Key::new("layer", Length(4.0, 60.0), "20")
        .or_number(20.0)
        .usually(12.0, 40.0)
        .doc("Thickness of the boards the end blocks are laid up from"),
    Key::new("oversize", Length(0.0, 20.0), "3")
        .or_number(3.0)
        .usually(1.0, 6.0)
        .doc("Wood outside the finished outline on every layer, to be shaped away"),
];

pub(super) const FINS: &[Key] = &[
    Key::new(
        "set",
        Choice(&["none", "single", "twin", "three", "five"]),
        "\"none\"",
    )
    .or_word("none")
    .doc("Fins at the usual places; `none` for a board without, or with places of your own"),
    Key::new("from_rail", Length(10.0, 120.0), "30")
        .or_number(30.0)
        .usually(25.0, 45.0)
        .doc("Fins beside the rail, from the outline to the centre of their base; the inner pair of five stands half as far again in"),
    Key::new("base", Length(40.0, 350.0), "115")
        .or_rule("180 mm for a single, 140 mm for a twin, else 115 mm")
        .doc("Length of a fin's base"),
    Key::new("cut", Choice(&["box", "tabs"]), "\"box\"")
        .or_word("box")
        .doc("What is cut out of the bottom for a fin: one box, or a row of holes for its tabs"),
    Key::new("cut_length", Length(5.0, 360.0), "125")
        .or_rule("of a box the base and 10 mm, of a tab's hole a quarter of the base")
        .commented()
        .usual_share("base", 0.2, 0.3)
        .doc("Length of a cut-out"),
    Key::new("cut_width", Length(3.0, 60.0), "12")
        .or_rule("25 mm for a single, else 12 mm")
        .usually(6.0, 20.0)
        .doc("Width of a cut-out"),
    Key::new("cut_depth", Length(4.0, 60.0), "14")
        .or_number(14.0)
        .usually(10.0, 18.0)
        .doc("Depth of a cut-out from the finished bottom"),
    Key::new("tabs", Count(2, 4), "2")
        .or_number(2.0)
        .only("cut", &["tabs"])
        .commented()
        .doc("How many tabs a fin has"),
    Key::new("tab_spacing", Length(10.0, 200.0), "57")
        .or_rule("half of the base")
        .only("cut", &["tabs"])
        .commented()
        .usual_share("base", 0.42, 0.6)
        .doc("From the centre of one tab to the centre of the next"),
    Key::new("margin", Length(3.0, 60.0), "12")
        .or_number(12.0)
        .doc("Width of the pad all round the cut-outs"),
    Key::new("floor", Length(0.0, 30.0), "4")
        .or_number(4.0)
        .usually(2.0, 6.0)
        .doc("Least wood between a cut-out and the hollow"),
];

pub(super) const FIN: &[Key] = &[
    Key::new("from_tail", Length(0.0, 1500.0), "125")
        .usually(70.0, 400.0)
        .doc("Trailing end of the base, from the tail"),
    Key::new("from_centre", Length(0.0, 400.0), "0")
        .or_number(0.0)
        .usually(0.0, 140.0)
        .doc("Centre of the base, from the centreline; 0 is one fin, more is one each side"),
    Key::new("toe", Degrees(0.0, 15.0), "0")
        .or_number(0.0)
        .usually(0.0, 5.0)
        .doc("Angle by which the leading end points to the centreline"),
    Key::new("cant", Degrees(0.0, 30.0), "0")
        .or_number(0.0)
        .usually(0.0, 8.0)
        .doc("Angle by which the fin leans outward"),
    Key::new("base", Length(40.0, 350.0), "180")
        .or_rule("that of `[fins]`")
        .doc("Length of its base"),
    Key::new("cut_length", Length(5.0, 360.0), "190")
        .or_rule("as in `[fins]`")
        .commented()
        .usual_share("base", 0.8, 1.1)
        .doc("Length of a cut-out"),
    Key::new("cut_width", Length(3.0, 60.0), "25")
        .or_rule("as in `[fins]`")
        .usually(6.0, 25.0)
        .doc("Width of a cut-out"),
    Key::new("cut_depth", Length(4.0, 60.0), "14")
        .or_rule("that of `[fins]`")
        .doc("Depth of a cut-out from the finished bottom"),
];

const SIDES: Key = Key::new("through", Choice(&["deck", "bottom", "none"]), "\"deck\"")
    .or_word("deck")
    .doc("The skin it is let into; `none` to do without");

const FROM_CENTRE: Key = Key::new("from_centre", Length(-400.0, 400.0), "33")
    .or_rule("0 in a block, else so that its pad lies against the spine")
    .doc("Its centre, from the centreline to starboard");

pub(super) const PLUG: &[Key] = &[
    SIDES,
    Key::new("from_tail", Length(0.0, 4500.0), "60")
        .or_rule("in the middle of the tail block if that is long enough, else with its pad against the block")
        .commented()
        .usual_share("outline.length", 0.03, 0.2)
        .doc("Its centre, from the tail"),
    FROM_CENTRE.commented(),
    Key::new("diameter", Length(5.0, 80.0), "28")
        .or_number(28.0)
        .doc("Diameter of its hole"),
    Key::new("depth", Length(3.0, 60.0), "14")
        .or_number(14.0)
        .doc("Depth of its hole from the finished surface"),
    Key::new("margin", Length(3.0, 60.0), "10")
        .or_number(10.0)
        .doc("Width of the pad all round"),
    Key::new("floor", Length(0.0, 30.0), "4")
        .or_number(4.0)
        .doc("Least wood under it"),
];

pub(super) const VENT: &[Key] = &[
    SIDES,
    Key::new("from_tail", Length(0.0, 4500.0), "1350")
        .or_rule("in the middle of the bay nearest to 0.7 of the length")
        .commented()
        .usual_share("outline.length", 0.3, 0.8)
        .doc("Its centre, from the tail"),
    FROM_CENTRE.commented(),
    Key::new("diameter", Length(3.0, 80.0), "16")
        .or_number(16.0)
        .doc("Diameter of its hole, which opens into the hollow"),
    Key::new("depth", Length(3.0, 60.0), "18")
        .or_number(18.0)
        .doc("Thickness of skin and pad together"),
    Key::new("margin", Length(3.0, 60.0), "12")
        .or_number(12.0)
        .doc("Width of the pad all round"),
];

pub(super) const BED: &[Key] = &[
    Key::new("stations", Places(1, 80), "[45, 300, 600, 900, 1200, 1500, 1850]")
        .or_rule("at every rib and under the middle of either block")
        .commented()
        .doc("The cradles' centre planes, from the tail"),
    Key::new("thickness", Length(3.0, 60.0), "18")
        .or_number(18.0)
        .doc("Thickness of a cradle"),
    Key::new("base_height", Length(20.0, 1500.0), "80")
        .or_number(80.0)
        .doc("Height of the lowest place of the bed over the table"),
    Key::new("width", Length(60.0, 900.0), "400")
        .or_rule("as far as the bottom skin follows the surface")
        .commented()
        .usually(250.0, 450.0)
        .doc("Greatest width of a cradle"),
    Key::new("stands_on", Choice(&["table", "beam"]), "\"table\"")
        .or_word("table")
        .doc("What the cradles stand on: a flat table, or a table with a beam along its middle that they straddle"),
    Key::new("beam_width", Length(5.0, 300.0), "90")
        .or_number(90.0)
        .only("stands_on", &["beam"])
        .commented()
        .doc("Width of the beam and of the notch for it"),
    Key::new("beam_height", Length(5.0, 1400.0), "45")
        .or_number(45.0)
        .only("stands_on", &["beam"])
        .commented()
        .usual_share("base_height", 0.4, 0.75)
        .doc("Height of the beam over the table; at least 15 mm less than `base_height`"),
    Key::new("sight_hole", Length(0.0, 30.0), "6")
        .or_number(6.0)
        .usually(0.0, 10.0)
        .doc("Diameter of the hole on the centreline for a string or a light, at one height in every cradle; 0 for none"),
];
