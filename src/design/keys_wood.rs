//! Keys of the wood and of the shop.
//!
//! Defaults are those of [`Shop`](super::Shop); ranges are common practice with no published source.

use super::key::{
    Fallback::Nothing,
    Key,
    KeyKind::{Choice, Count, Length, Number, Text},
    NAME,
};

pub(super) const TIMBER: &[Key] = &[
    Key::new("rail", Text(NAME), "\"western redcedar\"")
        .or_word("western redcedar")
        .doc("Species of the rail's strips: a built-in one, or your own"),
    Key::new("frame", Text(NAME), "\"okoume\"")
        .or_word("okoume")
        .doc("Species of ribs and spine; plywood is treated as the wood of its veneers"),
    Key::new("skins", Text(NAME), "\"western redcedar\"")
        .or_rule("that of `rail`")
        .commented()
        .doc("Species of bottom and deck skin"),
    Key::new("blocks", Text(NAME), "\"western redcedar\"")
        .or_rule("that of `rail`")
        .commented()
        .doc("Species of blocks and pads"),
    Key::new("working_strain", Number(0.05, 1.0), "0.75")
        .or_number(0.75)
        .usually(0.5, 0.9)
        .doc("Greatest strain to which strips may be bent and twisted, as a share of the strain that breaks clear wood"),
    Key::new("softening", Choice(&["none", "starters", "strips", "all"]), "\"none\"")
        .or_word("none")
        .commented()
        .doc("Which of the rail's strips are soaked or steamed before bending; the limit of softened wood then holds for their bends, not for their twist"),
    Key::new("moisture", Number(0.0, 30.0), "10")
        .or_number(10.0)
        .usually(6.0, 16.0)
        .doc("Moisture content the wood is weighed at, percent of its dry mass"),
];

pub(super) const SPECIES: &[Key] = &[
    Key::new("name", Text(NAME), "\"orchard alder\"").doc("What you call it; it overrides a built-in species of the same name"),
    Key::new("wood", Choice(&["softwood", "hardwood"]), "\"softwood\"")
        .or_word("softwood")
        .doc("Conifer or broad-leaved, as the bending rule of glued beams divides them"),
    Key::new("specific_gravity", Number(0.05, 1.4), "0.41")
        .usually(0.25, 0.7)
        .doc("Dry mass over that of water, on the volume named by `basis`"),
    Key::new("basis", Choice(&["twelve-percent", "green"]), "\"twelve-percent\"")
        .or_word("twelve-percent")
        .doc("Volume that the specific gravity is based on"),
    Key::new("modulus", Number(100.0, 40_000.0), "9500").usually(6000.0, 14000.0)
        .doc("Modulus of elasticity along the grain, MPa"),
    Key::new("loading", Choice(&["centre", "pure"]), "\"centre\"")
        .or_word("centre")
        .doc("How the modulus was tested: by a load at the centre, as in most tables, so that the true one is a tenth more; or free of shear"),
    Key::new("rupture", Number(1.0, 400.0), "68").usual_share("modulus", 0.0055, 0.0095)
        .doc("Modulus of rupture, MPa"),
    Key::new("shear", Number(0.1, 60.0), "7.4")
        .or(Nothing)
        .usual_share("rupture", 0.09, 0.14)
        .doc("Shear strength along the grain, MPa; without it twist has no limit"),
    Key::new("shear_ratio", Number(0.005, 0.5), "0.06")
        .or_rule("1/16")
        .usually(0.04, 0.09)
        .doc("Shear modulus over modulus of elasticity"),
    Key::new("source", Text(200), "\"tested on offcuts\"")
        .or(Nothing)
        .doc("Where the figures come from"),
];

pub(super) const SHOP: &[Key] = &[
    Key::new("spare", Number(0.0, 2.0), "0.15")
        .or_number(0.15)
        .usually(0.0, 0.3)
        .doc("Strips cut over and above those needed, as a share"),
    Key::new("end_allowance", Length(0.0, 500.0), "50")
        .or_number(50.0)
        .doc("Length added to a strip at each end, to be trimmed when it is fitted"),
    Key::new("shortest_offcut", Length(0.0, 5000.0), "600")
        .or_number(600.0)
        .doc("Shortest offcut worth keeping"),
    Key::new("scarf_ratio", Number(8.0, 50.0), "8")
        .or_number(8.0)
        .usually(8.0, 14.0)
        .doc("Length of a scarf over the thickness it joins"),
    Key::new("scarf_strain", Number(0.05, 1.0), "0.5")
        .or_number(0.5)
        .usually(0.3, 0.9)
        .doc("No scarf lies where a strip uses more than this share of a limit"),
    Key::new("stagger", Length(0.0, 5000.0), "300")
        .or_number(300.0)
        .doc("Least distance between scarfs of neighbouring courses"),
    Key::new("shortest_piece", Length(0.0, 5000.0), "400")
        .or_number(400.0)
        .doc("Shortest piece of a scarfed strip"),
    Key::new(
        "scarfing",
        Choice(&["when-short", "when-less"]),
        "\"when-short\"",
    )
    .or_word("when-short")
    .doc("Scarf only when no plank is long enough, or whenever that takes less wood"),
    Key::new("aim", Choice(&["planks", "price"]), "\"planks\"")
        .or_word("planks")
        .doc("What the cutting plan minimises"),
];

pub(super) const PLANK: &[Key] = &[
    Key::new("name", Text(NAME), "\"two by six\"")
        .or_rule("its size")
        .doc("What you call it"),
    Key::new("length", Length(300.0, 10_000.0), "3000")
        .usually(1800.0, 5000.0)
        .doc("Length as bought"),
    Key::new("width", Length(20.0, 600.0), "145")
        .usually(90.0, 250.0)
        .doc("Width as bought"),
    Key::new("thickness", Length(5.0, 150.0), "45")
        .usually(25.0, 65.0)
        .doc("Thickness as bought"),
    Key::new("count", Count(0, 1000), "4")
        .or_rule("as many as it takes")
        .commented()
        .usually(1.0, 12.0)
        .doc("How many there are"),
    Key::new("price", Number(0.0, 1e6), "0")
        .or_number(0.0)
        .usually(0.0, 60.0)
        .doc("Price of one, in your money; 0 if it is on hand"),
    Key::new("nominal_thickness", Length(5.0, 200.0), "\"2 in\"")
        .or_rule("`thickness`")
        .commented()
        .usual_share("thickness", 1.0, 1.25)
        .doc("Thickness it is sold by, for board feet"),
    Key::new("nominal_width", Length(20.0, 700.0), "\"6 in\"")
        .or_rule("`width`")
        .commented()
        .usual_share("width", 1.0, 1.15)
        .doc("Width it is sold by, for board feet"),
];

pub(super) const KERF: &[Key] = &[
    Key::new("resaw", Length(0.0, 20.0), "1.5")
        .or_number(1.5)
        .doc("Kerf of the saw that cuts planks into leaves (resawn boards)"),
    Key::new("rip", Length(0.0, 20.0), "2.5")
        .or_number(2.5)
        .doc("Kerf of the saw that rips leaves into strips"),
    Key::new("crosscut", Length(0.0, 20.0), "3")
        .or_number(3.0)
        .doc("Kerf of the saw that cuts strips to length"),
];

pub(super) const ALLOWANCE: &[Key] = &[
    Key::new("dress_face", Length(0.0, 50.0), "2")
        .or_number(2.0)
        .doc("Taken off a plank's thickness when a face is dressed"),
    Key::new("dress_edge", Length(0.0, 50.0), "3")
        .or_number(3.0)
        .doc("Taken off a plank's width when an edge is dressed"),
    Key::new("sand_leaf", Length(0.0, 20.0), "2")
        .or_number(2.0)
        .doc("Sanded off the thickness of a leaf (a resawn board), both faces together"),
    Key::new("sand_square", Length(0.0, 20.0), "2")
        .or_number(2.0)
        .doc("Sanded off a square starter each way, both faces together"),
    Key::new("mould", Length(0.0, 20.0), "0.3")
        .or_number(0.3)
        .doc("Moulded off a strip's width, bead and cove together, at crown and lips"),
    Key::new("ends", Length(0.0, 2000.0), "50")
        .or_number(50.0)
        .doc("Trimmed off a plank's length, both ends together, for splits and snipe"),
];
