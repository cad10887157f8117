//! The report as a whole: all faults in one run, in order, none twice, each with its line.

use boardwright::design::{parse, starter};

use super::{LEAST, faults, only};

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
