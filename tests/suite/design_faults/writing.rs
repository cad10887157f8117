//! Faults of the TOML writing itself.

use super::{LEAST, changed, faults, only};

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
