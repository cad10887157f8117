//! Every kind of fault is reported at its place, with its remedy, and all in one run.
#![allow(clippy::unwrap_used, clippy::panic)]

use boardwright::design::{Fault, parse, starter};

const LEAST: &str = "name = 'Least'\n[outline]\nlength = 2000\nwidth = 500\n[foil]\ncentre = 65\n";

fn faults(text: &str) -> Vec<Fault> {
    match parse(text, "board.toml") {
        Ok(design) => panic!("no fault was found: {design:?}"),
        Err(faults) => faults.into_iter().collect(),
    }
}

/// The one fault of a text.
#[track_caller]
fn only(text: &str) -> Fault {
    let all = faults(text);
    assert_eq!(all.len(), 1, "{all:#?}");
    all.into_iter().next().unwrap()
}

/// Checks the one fault of the least file with these lines added: its place counted from the first added line.
#[track_caller]
fn added(lines: &str, place: (usize, usize), offending: &str, message: &str, remedy: &str) {
    let fault = only(&format!("{LEAST}{lines}"));
    assert_eq!((fault.line - 6, fault.column), place, "{fault}");
    assert_eq!(fault.offending, offending);
    assert_eq!(fault.message, message);
    assert_eq!(fault.remedy, remedy);
}

/// Checks the one fault of the least file with a text replaced: the place, offending text and message.
#[track_caller]
fn changed(from: &str, to: &str, place: (usize, usize), offending: &str, message: &str) -> Fault {
    assert!(LEAST.contains(from));
    let fault = only(&LEAST.replacen(from, to, 1));
    assert_eq!((fault.line, fault.column), place, "{fault}");
    assert_eq!(fault.offending, offending);
    assert_eq!(fault.message, message);
    fault
}

#[test]
fn unknown_keys_with_the_nearest_or_their_home() {
    added(
        "nose_tpi = 20",
        (1, 1),
        "nose_tpi",
        "[foil] has no key `nose_tpi`",
        "did you mean `nose_tip`?",
    );
    added(
        "rib_spacing = 200",
        (1, 1),
        "rib_spacing",
        "[foil] has no key `rib_spacing`",
        "`rib_spacing` belongs to [construction]",
    );
    added(
        "colour = 'red'",
        (1, 1),
        "colour",
        "[foil] has no key `colour`",
        "take it out; `boardwright keys` lists every key",
    );
    added(
        "[rockr]",
        (1, 2),
        "rockr",
        "the top of the file has no key `rockr`",
        "did you mean `rocker`?",
    );
    added(
        "[strip]\nwidth = 12",
        (1, 2),
        "strip",
        "the top of the file has no key `strip`",
        "write its header as [construction.strip]",
    );
    added(
        "[construction.starter]\nsizes = 9",
        (2, 1),
        "sizes",
        "[construction.starter] has no key `sizes`",
        "did you mean `size`?",
    );
}

#[test]
fn missing_keys_at_their_header() {
    let fault = changed(
        "length = 2000\n",
        "",
        (2, 1),
        "[outline]",
        "`length` is missing from [outline]",
    );
    let remedy = "add a line such as `length = \"6' 4\\\"\"`";
    assert_eq!(fault.remedy, remedy);
    changed(
        "width = 500\n",
        "",
        (2, 1),
        "[outline]",
        "`width` is missing from [outline]",
    );
    changed(
        "centre = 65\n",
        "",
        (5, 1),
        "[foil]",
        "`centre` is missing from [foil]",
    );
    changed(
        "[foil]\ncentre = 65\n",
        "",
        (1, 1),
        "",
        "[foil] with its `centre` is missing",
    );
    changed(
        "name = 'Least'\n",
        "",
        (1, 1),
        "",
        "`name` is missing from the top of the file",
    );
    added(
        "[[section]]",
        (1, 1),
        "[[section]]",
        "`at` is missing from [[section]]",
        "add a line such as `at = 965`",
    );
    let messages: Vec<String> = faults("").into_iter().map(|f| f.message).collect();
    assert_eq!(
        messages,
        [
            "`name` is missing from the top of the file",
            "[outline] with its `length` is missing",
            "[outline] with its `width` is missing",
            "[foil] with its `centre` is missing",
        ]
    );
}

#[test]
fn wrong_types() {
    let fault = changed(
        "500",
        "true",
        (4, 9),
        "true",
        "`width` must be a length, but this is true or false",
    );
    let remedy = "write a number of mm, or text such as \"19 3/4 in\"";
    assert_eq!(fault.remedy, remedy);
    changed(
        "500",
        "[500]",
        (4, 9),
        "[500]",
        "`width` must be a length, but this is a list",
    );
    changed(
        "500",
        "1979-05-27",
        (4, 9),
        "1979-05-27",
        "`width` must be a length, but this is a date or time",
    );
    let fault = changed(
        "'Least'",
        "7",
        (1, 8),
        "7",
        "`name` must be a text, but this is a number",
    );
    assert_eq!(fault.remedy, "put it in quotes");
    changed(
        "'Least'",
        "'  '",
        (1, 8),
        "'  '",
        "`name` must not be empty",
    );
    changed(
        "[foil]\ncentre = 65",
        "[[foil]]\ncentre = 65",
        (5, 1),
        "[[foil]]",
        "expected the table [foil], but this is a list",
    );
    added(
        "[section]\nat = 900",
        (1, 1),
        "[section]",
        "`section` may come several times",
        "write its header as [[section]]",
    );
    added(
        "[construction]\nskin_turn = '25 deg'",
        (2, 13),
        "'25 deg'",
        "`skin_turn` must be a number of degrees, but this is a text",
        "write a number without quotes and without a unit",
    );
    added(
        "[construction.starter]\ncount = 1.5",
        (2, 9),
        "1.5",
        "`count` must be a whole number",
        "write 1 or 2",
    );
    added(
        "[rocker]\nflat = [700, 800, 900]",
        (2, 8),
        "[700, 800, 900]",
        "`flat` must be a pair [from, to]",
        "write two lengths in brackets, such as [700, 1100]",
    );
    added(
        "[rocker]\npoints = 3",
        (2, 10),
        "3",
        "`points` must be a list of [place, height] pairs",
        "write each pair in brackets and brackets round all: [[place, height], [place, height]]",
    );
    added(
        "[rocker]\npoints = [[0, 50], 7, [2000, 100]]",
        (2, 20),
        "7",
        "each of `points` must be a pair [place, height]",
        "write two lengths in brackets, such as [900, 60]",
    );
}

#[test]
fn lengths_that_are_none_at_the_offending_character() {
    changed(
        "500",
        r#""19 3/0\"""#,
        (4, 15),
        r#"0\"""#,
        "`width` is not a length: expected a denominator other than zero",
    );
    changed(
        "2000",
        "'6 furlongs'",
        (3, 13),
        "furlongs'",
        "`length` is not a length: expected a unit: mm, cm, m, in or ft",
    );
    // Columns count characters, and an escape is as wide as it is written.
    changed(
        "2000",
        r#""6′ 13\u2033""#,
        (3, 14),
        r#"13\u2033""#,
        "`length` is not a length: expected less than 12 inches after feet",
    );
}

#[test]
fn out_of_range() {
    let fault = changed(
        "500",
        "20.5",
        (4, 9),
        "20.5",
        "`width` must be from 250 mm to 900 mm, but this is 20.5 mm",
    );
    assert_eq!(
        fault.remedy,
        "plain numbers here are millimetres; did you mean \"20.5 in\"?"
    );
    let fault = changed(
        "500",
        "'50 m'",
        (4, 9),
        "'50 m'",
        "`width` must be from 250 mm to 900 mm, but this is 50000 mm",
    );
    assert_eq!(fault.remedy, "give at most 900 mm");
    added(
        "[[section]]\nat = 900\nedge_radius = 0.2",
        (3, 15),
        "0.2",
        "`edge_radius` must be from 0.5 mm to 80 mm, but this is 0.2 mm",
        "plain numbers here are millimetres; did you mean \"0.2 cm\"?",
    );
    added(
        "[[section]]\nat = 900\napex = 0.9",
        (3, 8),
        "0.9",
        "`apex` must be a number from 0.15 to 0.6",
        "give at most 0.6",
    );
    added(
        "[construction]\nskin_turn = 80",
        (2, 13),
        "80",
        "`skin_turn` must be a number of degrees from 5 to 60",
        "give at most 60",
    );
    added(
        "[construction.starter]\ncount = 9",
        (2, 9),
        "9",
        "`count` must be a whole number from 1 to 4",
        "give at most 4",
    );
    let text = format!(
        "unit = 'in'\n{}",
        LEAST.replace("2000", "78").replace("65", "2.5")
    );
    assert_eq!(
        only(&text).message,
        "`width` must be from 250 mm to 900 mm (9.843 in to 35.433 in), but this is 12700 mm"
    );
}

#[test]
fn no_number_at_all() {
    for value in [
        "nan",
        "-nan",
        "inf",
        "+inf",
        "1e999",
        "99999999999999999999999",
    ] {
        let text = LEAST.replacen("500", value, 1);
        let fault = only(&text);
        assert_eq!(
            (fault.line, fault.column, fault.offending.as_str()),
            (4, 9, value)
        );
        assert_eq!(fault.message, "`width` must be a finite number");
    }
    let text = format!("{LEAST}[[section]]\nat = 900\nfullness = nan\n");
    assert_eq!(only(&text).message, "`fullness` must be a finite number");
}

#[test]
fn words_not_known_with_the_nearest() {
    added(
        "[[section]]\nat = 900\ncontour = 'concav'",
        (3, 11),
        "'concav'",
        "`contour` must be one of \"flat\", \"roll\", \"concave\", \"double-concave\", \"vee\"",
        "did you mean \"concave\"?",
    );
    added(
        "[construction.starter]\narrangement = 3",
        (2, 15),
        "3",
        "`arrangement` must be one of \"side-by-side\", \"stacked\"",
        "write one of these words, in quotes",
    );
    let text = format!("unit = 'furlong'\n{LEAST}");
    assert_eq!(only(&text).offending, "'furlong'");
}

#[test]
fn keys_that_contradict() {
    let text = LEAST.replace(
        "width = 500",
        "points = [[300, 180], [1000, 250], [1700, 150]]\nwidth = 500",
    );
    let fault = only(&text);
    assert_eq!(
        (fault.line, fault.column, fault.offending.as_str()),
        (5, 1, "width")
    );
    assert_eq!(
        fault.message,
        "`width` and `points` contradict: each says the same in its own way"
    );
    assert_eq!(fault.remedy, "keep one of them");

    added(
        "[construction]\nrib_spacing = 200\nrib_stations = [500, 900]",
        (2, 1),
        "rib_spacing",
        "`rib_spacing` and `rib_stations` contradict: each says the same in its own way",
        "keep one of them",
    );
    let fault = changed(
        "width = 500",
        "width = 500\ntail = 'pin'\ntail_cleft = 100",
        (6, 1),
        "tail_cleft",
        "`tail_cleft` belongs to `tail` \"swallow\", but `tail` is \"pin\"",
    );
    assert_eq!(fault.remedy, "leave `tail_cleft` out, or change `tail`");
    changed(
        "width = 500",
        "width = 500\ntail_end_width = 100",
        (5, 1),
        "tail_end_width",
        "`tail_end_width` belongs to `tail` \"square\", \"squash\", \"swallow\", but `tail` is \"round\" by default",
    );
    changed(
        "width = 500",
        "width = 500\nnose = 'round'\nnose_angle = 40",
        (6, 1),
        "nose_angle",
        "`nose_angle` belongs to `nose` \"pointed\", but `nose` is \"round\"",
    );
    added(
        "[[section]]\nat = 900\nedge = 'hard'\nedge_radius = 30",
        (4, 15),
        "30",
        "the radius of a hard edge must be at most 10 mm",
        "change `edge`, or leave it out",
    );
    added(
        "[[section]]\nat = 900\nedge = 'soft'\nedge_radius = 2",
        (4, 15),
        "2",
        "the radius of a soft edge must be at least 5 mm",
        "change `edge`, or leave it out",
    );
    added(
        "[[section]]\nat = 900\ncontour_depth = 3",
        (3, 1),
        "contour_depth",
        "`contour_depth` belongs to `contour` \"roll\", \"concave\", \"double-concave\", \"vee\", but `contour` is \"flat\" by default",
        "leave `contour_depth` out, or change `contour`",
    );
}

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

#[test]
fn all_faults_in_one_run_in_order() {
    let text = "name = 'Many'\nuint = 'in'\n[outline]\nlength = '6 ft 14 in'\nwidth = 5\ntail = 'sqash'\n\
        [foil]\ncentre = nan\n[[section]]\n[construction]\nrib = 'thick'\nrib_spacing = 9000\n";
    let found: Vec<_> = faults(text).iter().map(|f| (f.line, f.column)).collect();
    assert_eq!(
        found,
        [
            (2, 1),
            (4, 16),
            (5, 9),
            (6, 8),
            (8, 10),
            (9, 1),
            (11, 8),
            (12, 15)
        ]
    );
}

#[test]
fn a_faulty_value_is_not_reported_again_by_what_depends_on_it() {
    // Everything depends on the length.
    let text = starter().replace("length = \"6' 4\\\"\"", "length = '6 yards'");
    assert_eq!(only(&text).offending, "yards'");
    let text = starter().replace("thickness = 6", "thickness = 'x'");
    assert_eq!(only(&text).offending, "x'");
}

#[test]
fn bad_syntax_has_its_place_and_what_else_is_known() {
    let text = LEAST.replace("500", "").replace("65", "650");
    let all = faults(&text);
    let places: Vec<_> = all.iter().map(|f| (f.line, f.column)).collect();
    assert_eq!(places, [(4, 9), (6, 10)], "{all:#?}");
    assert!(all[0].message.starts_with("not valid TOML: "), "{}", all[0]);
    assert!(
        all[1].message.starts_with("`centre` must be from"),
        "{}",
        all[1]
    );

    let text = LEAST.replace("'Least'", "'Least").replace("65", "6 5");
    let lines: Vec<_> = faults(&text).iter().map(|f| f.line).collect();
    assert_eq!(lines, [1, 6]);

    // At a broken header nothing else is guessed at.
    let text = LEAST.replace("[outline]", "[outline").replace("65", "650");
    let all = faults(&text);
    assert!(
        all.iter()
            .all(|f| f.message.starts_with("not valid TOML: ")),
        "{all:#?}"
    );
    assert_eq!(all[0].line, 2);
}

#[test]
fn texts_without_quotes_decimal_commas_and_open_lists() {
    let fault = changed(
        "2000",
        "6' 4\" # long",
        (3, 10),
        "6' 4\"",
        "not valid TOML: expected a number, a list, or a text in quotes",
    );
    assert_eq!(fault.remedy, r#"write "6' 4\"""#);
    let fault = changed(
        "500",
        "20,5",
        (4, 11),
        ",",
        "not valid TOML: unexpected comma",
    );
    let remedy = "write decimals with a point, and lists in brackets";
    assert_eq!(fault.remedy, remedy);
    let fault = changed(
        "width = 500",
        "points = [[300, 200]",
        (5, 1),
        "",
        "not valid TOML: the list or table opened above goes on to here",
    );
    assert_eq!(fault.remedy, "close it above");
}

#[test]
fn one_slip_is_not_reported_twice() {
    // The key or table is missing only because its name is misspelt.
    assert_eq!(only(&LEAST.replace("length", "lenght")).line, 3);
    assert_eq!(only(&LEAST.replace("centre", "center")).line, 6);
    assert_eq!(only(&LEAST.replace("[foil]", "[foill]")).offending, "foill");
    // Lengths in a unit that is not known cannot be out of range; others can.
    let text = format!(
        "unit = 'inch'\n{}",
        LEAST.replace("500", "20").replace("65", "'2 1/2'")
    );
    let fault = only(&text);
    assert_eq!(fault.remedy, "did you mean \"in\"?");
    let text = text.replace("= 20\n", "= '20 m'\n");
    let lines: Vec<_> = faults(&text).iter().map(|f| f.line).collect();
    assert_eq!(lines, [1, 5]);
}

#[test]
fn duplicates() {
    let fault = changed(
        "width = 500",
        "width = 500\nwidth = 510",
        (5, 1),
        "width",
        "not valid TOML: duplicate key",
    );
    let remedy = "each key and each table may come once; keep one of them";
    assert_eq!(fault.remedy, remedy);
    let fault = only(&format!("{LEAST}[outline]\n"));
    assert_eq!((fault.line, fault.column), (7, 2));
}

#[test]
fn places_count_characters_and_survive_carriage_returns() {
    let text = "name = 'Möwe' # ≈ 6′\r\n[outline]\r\nlength = 2000\r\nwidth = 500\r\n[foil]\r\n\
        centre = 65 \r\n[rocker]\r\npoints = [['0 ″', 50], [900, 0], ['2 km', 100]]\r\n";
    let found: Vec<_> = faults(text)
        .into_iter()
        .map(|f| (f.line, f.column, f.excerpt.ends_with('\r')))
        .collect();
    assert_eq!(found, [(8, 38, false)]);
}

#[test]
fn the_report_shows_the_line_with_carets_and_the_remedy() {
    let text = format!("{LEAST}\tnose_tpi = 20\ncrown = 4\n");
    let shown = parse(&text, "board.toml").unwrap_err().to_string();
    assert_eq!(
        shown,
        "board.toml:7:2: [foil] has no key `nose_tpi`\n\
         7 | \tnose_tpi = 20\n  \
           | \t^^^^^^^^\n  \
           = did you mean `nose_tip`?\n\
         \n\
         board.toml:8:1: [foil] has no key `crown`\n\
         8 | crown = 4\n  \
           | ^^^^^\n  \
           = `crown` belongs to [[section]]"
    );
}

#[test]
fn control_characters_do_not_reach_the_terminal() {
    let text = LEAST.replace("500", "'\u{1b}[31m'");
    let shown = parse(&text, "board.toml").unwrap_err().to_string();
    assert!(!shown.contains('\u{1b}'), "{shown:?}");
}

#[test]
fn faults_serialise() {
    let faults = parse(&format!("{LEAST}nose_tpi = 20"), "board.toml").unwrap_err();
    let json = serde_json::to_value(&faults).unwrap();
    assert_eq!(
        json,
        serde_json::json!([{
            "file": "board.toml",
            "line": 7,
            "column": 1,
            "offending": "nose_tpi",
            "message": "[foil] has no key `nose_tpi`",
            "remedy": "did you mean `nose_tip`?",
            "excerpt": "nose_tpi = 20",
        }])
    );
}

/// Numbers in a power of ten are quoted as such, not with three hundred digits; ordinary ones with theirs.
#[test]
fn huge_numbers_are_quoted_in_few_characters() {
    for (written, quoted) in [
        ("1e308", "1e308"),
        ("-1e308", "-1e308"),
        ("1234567890123", "1.235e12"),
        ("'5e0 m'", "not a length"),
        ("999999.5", "999999.5"),
        ("'999999999 m'", "1e12"),
    ] {
        let fault = only(&LEAST.replacen("500", written, 1));
        assert!(fault.message.contains(quoted), "{fault}");
        assert!(
            fault.message.len() < 120 && fault.remedy.len() < 120,
            "{fault}"
        );
    }
}

/// Long names and values are quoted by their beginning.
#[test]
fn no_message_grows_with_the_file() {
    let long = "q".repeat(100_000);
    for text in [
        format!("{LEAST}{long} = 1\n"),
        format!("{LEAST}[timber]\nrail = '{long}'\n"),
        format!("{LEAST}[timber.{long}]\n"),
        format!("{LEAST}tail = {long}\n"),
        format!("{LEAST}tail = [{long}]\n"),
        format!("{LEAST}tail = '{long}'\n"),
        format!("{LEAST}[construction.starter]\narrangement = '{long}'\n"),
        format!("{LEAST}tail = {}\n", "9".repeat(100_000)),
        LEAST.replace("Least", &long),
    ] {
        for fault in faults(&text) {
            assert!(fault.to_string().len() < 1000, "{fault}");
        }
    }
}

/// Names and other texts have a greatest length, which the key reference says.
#[test]
fn texts_past_their_length_are_refused() {
    let long = |n: usize| "ß".repeat(n);
    let fault = changed(
        "Least",
        &long(61),
        (1, 8),
        &format!("'{}'", long(61)),
        "`name` must be at most 60 characters long, but this is 61",
    );
    assert_eq!(fault.remedy, "shorten it to 60 characters");
    assert!(parse(&LEAST.replace("Least", &long(60)), "x").is_ok());
    let reference = boardwright::design::reference();
    let mut texts = 0;
    for table in boardwright::design::tables() {
        for key in table.keys {
            let boardwright::design::KeyKind::Text(most) = key.kind else {
                continue;
            };
            texts += 1;
            let said = format!("| `{}` | Text, up to {most} characters", key.name);
            assert!(reference.contains(&said), "{said}");
            let header = match table.path {
                "" => String::new(),
                _ => table.header(),
            };
            let line = format!("{header}\n{} = '{}'\n", key.name, long(most + 1));
            let text = match (table.path, key.name) {
                ("", "name") => LEAST.replace("Least", &long(most + 1)),
                ("", _) => line + LEAST,
                _ => format!("{LEAST}{line}"),
            };
            let message = format!("`{}` must be at most {most} characters long", key.name);
            let found = faults(&text);
            assert!(
                found.iter().any(|f| f.message.starts_with(&message)),
                "{found:?}"
            );
        }
    }
    assert!(texts >= 9, "{texts}");
}

/// Tables that repeat, and lists of points, have a greatest number, which the key reference says.
#[test]
fn more_tables_or_points_than_anybody_needs_are_refused_at_the_first_too_many() {
    let reference = boardwright::design::reference();
    for table in boardwright::design::tables()
        .iter()
        .filter(|t| t.repeated())
    {
        let said = format!("May come up to {} times.", table.most);
        assert!(reference.contains(&said), "{said}");
        let header = table.header();
        let text = format!("{LEAST}{}", format!("{header}\n").repeat(table.most + 5));
        let found = faults(&text);
        let message = format!(
            "{header} may come {} times at most, but it comes {} times",
            table.most,
            table.most + 5
        );
        let fault = found
            .iter()
            .find(|f| f.message == message)
            .unwrap_or_else(|| panic!("{found:?}"));
        assert_eq!(
            (fault.line, fault.offending.as_str()),
            (7 + table.most, header.as_str())
        );
        // Those past the limit are not looked at.
        assert!(found.iter().all(|f| f.line <= fault.line));
    }
    let points: Vec<String> = (0..201).map(|i| format!("[{}, 20]", 10 * i)).collect();
    for (table, what) in [
        ("outline", "half-width"),
        ("foil", "thickness"),
        ("rocker", "height"),
    ] {
        let said = format!("List of up to 200 [place, {what}]");
        assert!(reference.contains(&said), "{said}");
        let list = |n: usize| format!("points = [{}]\n", points[..n].join(", "));
        let text = |n: usize| match table {
            "outline" => LEAST.replace("width = 500\n", &list(n)),
            "foil" => LEAST.replace("centre = 65\n", &list(n)),
            _ => format!("{LEAST}[rocker]\n{}", list(n)),
        };
        assert_eq!(
            only(&text(201)).message,
            "`points` may hold at most 200 points, but this holds 201"
        );
        let about_points = |f: &Fault| f.message.contains("at most 200");
        let fewer = parse(&text(200), "x").map_err(|all| all.list().iter().any(about_points));
        assert_ne!(fewer.err(), Some(true));
    }
}

/// Every key on one line of nearly a megabyte, each with a fault: the places agree with a count by hand. The time this takes grew with
/// the square of the line (2.0 s for 25 000 keys, 6.4 s for 50 000 when measured; 0.4 and 0.6 s now), as `design::columns` tests by
/// counting.
#[test]
fn many_faults_on_one_long_line_have_their_columns() {
    let keys: Vec<String> = (0..60_000).map(|i| format!("k½{i}")).collect();
    let quoted: Vec<String> = keys.iter().map(|k| format!("\"{k}\" = 1")).collect();
    let text = format!("rocker = {{ {} }}\n{LEAST}", quoted.join(", "));
    let all = faults(&text);
    assert_eq!(all.len(), keys.len());
    let mut column = "rocker = { ".chars().count() + 1;
    for (fault, (key, quoted)) in all.iter().zip(keys.iter().zip(&quoted)) {
        assert_eq!((fault.line, fault.column), (1, column));
        assert_eq!(fault.offending, format!("\"{key}\""));
        assert_eq!(
            fault.excerpt.chars().count().min(200),
            fault.excerpt.chars().count()
        );
        let at = fault.column - fault.excerpt_column;
        let shown: String = fault.excerpt.chars().skip(at).collect();
        assert!(shown.starts_with(&fault.offending), "{fault}");
        column += quoted.chars().count() + 2;
    }
}

/// A fault of every kind there is says what to do; that none is without is a matter of its type, this is that it says something.
#[test]
fn every_fault_of_writing_has_a_remedy() {
    for (added, remedy) in [
        ("[rocker", "close the header: [name]"),
        ("[[section]", "close the header: [[name]]"),
        ("tail = [1, 2", "close the list with ]"),
        ("tail = 'x", "put the text in quotes"),
        ("tail = \"x", "put the text in quotes"),
        ("tail = \"C:\\wood\"", "single quotes"),
        ("tail = 1_", "plain digits"),
        ("tail = 01", "plain digits"),
        ("tail = 1 2", "write \"1 2\""),
        ("tail =", "write a value here"),
        ("tail", "`key = value`"),
        ("= 3", "`key = value`"),
        ("tail = [1,,2]", "one comma"),
        ("tail = [1 2]", "put commas"),
        ("# \u{1}", "cannot be seen"),
        ("tail = \"\\u12\"", "single quotes"),
    ] {
        let all = faults(&format!("{LEAST}{added}\n"));
        let first = &all[0];
        assert!(first.remedy.contains(remedy), "{added}: {first}");
        assert!(all.iter().all(|f| !f.remedy.is_empty()));
    }
    let deep = faults(&format!("{LEAST}tail = {}\n", "[".repeat(1000)));
    assert!(deep[0].remedy.contains("brackets"), "{}", deep[0]);
}
