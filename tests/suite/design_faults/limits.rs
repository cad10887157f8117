//! Greatest numbers and lengths: texts, tables, points, messages.

use boardwright::design::{Fault, parse};

use super::{LEAST, changed, faults, only};

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
