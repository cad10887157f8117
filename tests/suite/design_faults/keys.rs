//! Faults of single keys: unknown or missing ones, wrong types, words and ranges, keys that contradict each other.

use super::{LEAST, added, changed, faults, only};

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
