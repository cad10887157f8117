//! Rules between keys, each broken in a file: its place, message and remedy.

use super::{added, changed};

#[test]
fn outlines_that_do_not_fit_the_board() {
    let with = |line: &str| format!("width = 500\n{line}");
    changed(
        "width = 500",
        &with("wide_point = 1800"),
        (5, 14),
        "1800",
        "`wide_point` must lie between 304.8 mm and 1695.2 mm, more than 12 in from both ends",
    );
    changed(
        "width = 500",
        &with("nose_width = 501"),
        (5, 14),
        "501",
        "`nose_width` must not be more than the greatest width, 500 mm",
    );
    changed(
        "width = 500",
        &with("tail_width = 501"),
        (5, 14),
        "501",
        "`tail_width` must not be more than the greatest width, 500 mm",
    );
    changed(
        "width = 500",
        &with("tail = 'square'\ntail_width = 300\ntail_end_width = 310"),
        (7, 18),
        "310",
        "`tail_end_width` must not be more than the width 12 in ahead, 300 mm",
    );
    changed(
        "width = 500",
        &with("tail = 'squash'\ntail_end_width = 150\ntail_corner = 80"),
        (7, 15),
        "80",
        "`tail_corner` must not be more than half of `tail_end_width`, 75 mm",
    );
    let points = |list: &str| format!("points = [{list}]");
    changed(
        "width = 500",
        &points("[300, 180], [1000, 250]"),
        (4, 10),
        "[[300, 180], [1000, 250]]",
        "`points` must hold at least three points",
    );
    changed(
        "width = 500",
        &points("[300, 180], [1000, 250], [1700, 150], [2000, 1]"),
        (4, 50),
        "2000",
        "a point must lie between the ends, 0 and 2000 mm",
    );
    changed(
        "width = 500",
        &points("[300, 180], [1000, 250], [999, 150]"),
        (4, 37),
        "999",
        "the places of `points` must rise by at least 1 mm from one to the next",
    );
    changed(
        "width = 500",
        &points("[300, 180], [1000, 500], [1700, 150]"),
        (4, 30),
        "500",
        "`half-width` must be from 1 mm to 450 mm, but this is 500 mm",
    );
}

#[test]
fn rockers_and_foils_that_do_not_fit_the_board() {
    added(
        "[rocker]\npoints = [[10, 50], [900, 0], [2000, 120]]",
        (2, 12),
        "10",
        "the first of `points` must be at 0 mm",
        "move it to 0 mm, or add a point there",
    );
    added(
        "[rocker]\npoints = [[0, 50], [900, 0], [1990, 120]]",
        (2, 31),
        "1990",
        "the last of `points` must be at 2000 mm",
        "move it to 2000 mm, or add a point there",
    );
    added(
        "[rocker]\npoints = [[0, 50], [900, 3], [2000, 120]]",
        (2, 10),
        "[[0, 50], [900, 3], [2000, 120]]",
        "the lowest of the rocker's `points` must be at height 0, on the base plane",
        "take 3 mm from every height",
    );
    added(
        "[rocker]\nflat = [700, 2000]",
        (2, 14),
        "2000",
        "`flat` must lie between the ends, 0 and 2000 mm",
        "give a place between the ends, or check `length`",
    );
    added(
        "[rocker]\nflat = [900, 700]",
        (2, 14),
        "700",
        "the places of `flat` must rise by at least 1 mm from one to the next",
        "put them in order from the tail, and leave out what comes twice",
    );
    added(
        "nose = 70",
        (1, 8),
        "70",
        "`nose` must not be thicker than `centre`, 65 mm",
        "give a lesser `nose`, or a greater `centre`",
    );
    added(
        "tail_tip = 50",
        (1, 12),
        "50",
        "`tail_tip` must not be thicker than `tail`, 40.3 mm",
        "give a lesser `tail_tip`, or a greater `tail`",
    );
    added(
        "[construction]\nbottom_skin = 8\ndeck_skin = 8\n[rocker]\nnose = true",
        (5, 8),
        "true",
        "`nose` must be a length, but this is true or false",
        "write a number of mm, or text such as \"19 3/4 in\"",
    );
    let fault = changed(
        "centre = 65",
        "points = [[0, 15], [1000, 17.5], [2000, 15]]",
        (6, 10),
        "[[0, 15], [1000, 17.5], [2000, 15]]",
        "the board must leave 10 mm between its skins at the centre, but its 17.5 mm leave 9.5 mm",
    );
    assert_eq!(
        fault.remedy,
        "make the board thicker there, or the skins thinner"
    );
}

#[test]
fn noses_thicker_at_the_tip_and_points_too_near() {
    added(
        "nose = 30\nnose_tip = 31",
        (2, 12),
        "31",
        "`nose_tip` must not be thicker than `nose`, 30 mm",
        "give a lesser `nose_tip`, or a greater `nose`",
    );
    added(
        "[rocker]\npoints = [[0, 50], [900, 0], [900.9, 1], [2000, 90]]",
        (2, 31),
        "900.9",
        "the places of `points` must rise by at least 1 mm from one to the next",
        "put them in order from the tail, and leave out what comes twice",
    );
}

#[test]
fn sections_outside_or_at_one_place() {
    added(
        "[[section]]\nat = 2001",
        (2, 6),
        "2001",
        "`at` must not lie beyond the board's length, 2000 mm",
        "give a place of at most 2000 mm, or check `length`",
    );
    added(
        "[[section]]\nat = 900\n[[section]]\nat = 900.4",
        (4, 6),
        "900.4",
        "another section is at 900.4 mm already",
        "keep one of them, or put one elsewhere",
    );
}

#[test]
fn frames_that_do_not_fit_the_hollow() {
    added(
        "[construction]\nrib_stations = [92, 500, 1800]",
        (2, 17),
        "92",
        "a rib must stand between the blocks, from 93 mm to 1877 mm",
        "give a place between these, or leave this rib out",
    );
    added(
        "[construction]\nrib_stations = [500, 505]",
        (2, 22),
        "505",
        "ribs of 6 mm overlap here",
        "put this rib at least 6 mm from the one before, or leave it out",
    );
    added(
        "[construction]\nrib_stations = []",
        (2, 16),
        "[]",
        "`rib_stations` must be a list of 1 to 60 places",
        "write 1 to 60 lengths in brackets, such as [400, 800]",
    );
    changed(
        "length = 2000\nwidth = 500",
        "length = 1300\nwidth = 500\n[construction]\ntail_block = 500\nnose_block = 550",
        (6, 14),
        "500",
        "the blocks must leave at least 300 mm of hollow, but they leave 250 mm",
    );
    changed(
        "width = 500",
        "width = 500\ntail = 'swallow'\ntail_cleft = 120\n[construction]\ntail_block = 125",
        (8, 14),
        "125",
        "`tail_block` must reach past the cleft, so it must be at least 130 mm",
    );
}

#[test]
fn strips_that_do_not_nest() {
    let strip = |lines: &str, place, offending: &str, message: &str, remedy: &str| {
        added(
            &format!("[construction.strip]\n{lines}"),
            place,
            offending,
            message,
            remedy,
        );
    };
    strip(
        "bead_radius = 2.5",
        (2, 15),
        "2.5",
        "`bead_radius` must be at least half the thickness, 3 mm: a smaller arc does not span the strip",
        "give at least 3 mm, or leave `bead_radius` out",
    );
    strip(
        "bead_radius = 4\ncove_radius = 3.5",
        (3, 15),
        "3.5",
        "`cove_radius` must be at least that of the bead, 4 mm: a tighter cove rocks on its lips",
        "give at least 4 mm, or leave `cove_radius` out",
    );
    strip(
        "cove_depth = 3.1",
        (2, 14),
        "3.1",
        "`cove_depth` must not be more than 3 mm, where its arc meets the strip's faces",
        "give at most 3 mm, or leave `cove_depth` out",
    );
    // An arc of 5 over a chord of 6 is 1 high, shallower than a half-round bead.
    strip(
        "cove_radius = 5\ncove_depth = 1.1",
        (3, 14),
        "1.1",
        "`cove_depth` must not be more than 1 mm, where its arc meets the strip's faces",
        "give at most 1 mm, or leave `cove_depth` out",
    );
    strip(
        "thickness = 8\nwidth = 9",
        (3, 9),
        "9",
        "`width` must be at least 9.5 mm, to leave 2 mm between cove and bead",
        "give at least 9.5 mm, or a lesser `thickness` or `cove_depth`",
    );
    added(
        "[construction.starter]\nsize = 7\nlaminations = 4",
        (3, 15),
        "4",
        "starters of 7 mm give 3 laminations at most: one must be 2 mm thick or more",
        "give at most 3 `laminations`, or a greater `size`",
    );
    added(
        "[construction.starter]\nsize = 5",
        (2, 8),
        "5",
        "`size` must be at least the thickness of the strip it carries, 6 mm",
        "give at least 6 mm, or a thinner strip",
    );
}
