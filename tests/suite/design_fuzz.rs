//! Whatever the text, the parser returns a sound design or faults with places inside the text.
#![allow(clippy::unwrap_used, clippy::panic)]

use boardwright::design::{Design, parse, starter};
use proptest::prelude::*;

const EXAMPLES: [&str; 3] = [
    include_str!("../../examples/round-tail-6ft4.toml"),
    include_str!("../../examples/noserider-9ft4.toml"),
    include_str!("../../examples/twin-5ft8.toml"),
];

/// Checks what the parser returned for a text, and its printing.
fn check(text: &str) -> Result<(), TestCaseError> {
    match parse(text, "fuzz.toml") {
        Ok(design) => sound(&design),
        Err(faults) => {
            prop_assert!(!faults.list().is_empty());
            let lines = text.split('\n').count();
            for fault in &faults {
                prop_assert!((1..=lines).contains(&fault.line), "{fault}");
                let line = text.split('\n').nth(fault.line - 1).unwrap();
                prop_assert!(
                    (1..=line.chars().count() + 1).contains(&fault.column),
                    "{fault}"
                );
                prop_assert!(text.contains(&fault.offending));
            }
            prop_assert!(!faults.to_string().is_empty());
            Ok(())
        }
    }
}

/// What later stages rely on.
fn sound(design: &Design) -> Result<(), TestCaseError> {
    let built = &design.construction;
    prop_assert!((1200.0..=4500.0).contains(&design.length));
    prop_assert!(!design.sections.is_empty());
    prop_assert!(design.sections.is_sorted_by(|a, b| a.x + 1.0 <= b.x));
    prop_assert!(
        design
            .sections
            .iter()
            .all(|s| (0.0..=design.length).contains(&s.x))
    );
    prop_assert!(!built.rib_stations.is_empty());
    prop_assert!(built.rib_stations.is_sorted_by(|a, b| a + built.rib <= *b));
    prop_assert!(built.rib_stations.iter().all(|&x| built.tail_block < x));
    prop_assert!(
        built
            .rib_stations
            .iter()
            .all(|&x| x < design.length - built.nose_block)
    );
    prop_assert!(built.strip.bead_radius >= built.strip.thickness / 2.0);
    prop_assert!(built.strip.cove_radius >= built.strip.bead_radius);
    let points = design.foil.points(design.length);
    prop_assert!(points.is_sorted_by(|a, b| a[0] < b[0]));
    prop_assert_eq!(points[0][0], 0.0);
    prop_assert_eq!(points[points.len() - 1][0], design.length);
    // No number of the design is beyond reason, and so none is infinite or no number.
    let rail = &design.timber.rail;
    prop_assert!(
        rail.shear
            .iter()
            .chain(&rail.shear_ratio)
            .all(|n| n.is_finite())
    );
    prop_assert!(rail.check().is_ok() && design.shop.check().is_ok());
    let planks = design.shop.planks.iter();
    prop_assert!(
        planks
            .flat_map(|p| p.nominal.iter().flatten())
            .all(|n| n.is_finite())
    );
    // What may be absent is looked at where it is there; all else is a number, which JSON writes as null where it is none.
    let shown = format!("{design:?}");
    for bad in [
        "Some(NaN",
        "Some(inf",
        "Some(-inf",
        "Some([NaN",
        "Some([inf",
    ] {
        prop_assert!(!shown.contains(bad), "{bad}");
    }
    let mut json = serde_json::to_string(design).unwrap();
    for absent in [
        "beam",
        "count",
        "crown",
        "from_centre",
        "from_tail",
        "nominal",
        "plank_length",
        "plug",
        "rider",
        "shear",
        "shear-ratio",
        "shrinkage",
        "span",
        "stations",
        "vent",
        "volumetric",
        "width",
        "x",
    ] {
        json = json.replace(&format!("\"{absent}\":null"), "");
    }
    prop_assert!(!json.contains("null"), "{json}");
    Ok(())
}

/// A sound file: the starter or an example.
fn sound_file() -> impl Strategy<Value = String> {
    let [a, b, c] = EXAMPLES;
    prop::sample::select(vec![starter(), a, b, c]).prop_map(str::to_owned)
}

/// What may be put in a value's place.
const VALUES: [&str; 16] = [
    "nan",
    "-inf",
    "1e308",
    "-1",
    "0",
    "''",
    "'6 ft'",
    "\"6' 13\\\"\"",
    "[]",
    "[[0, 1]]",
    "[1, [2, 3]]",
    "{ a = 1 }",
    "true",
    "07:32:00",
    "0xffff_ffff_ffff_ffff",
    "\"\"\"\n1 mm\"\"\"",
];

proptest! {
    #![proptest_config(ProptestConfig::with_cases(512))]

    #[test]
    fn arbitrary_text(text in any::<String>()) {
        check(&text)?;
    }

    #[test]
    fn toml_like_text(text in "(\\[\\[?[a-z.]{0,9}\\]?\\]?|[a-z_]{0,7} ?=? ?[-0-9.'\"\\[\\]{},a-z\\\\]{0,9}|#.{0,3}|\n|\r\n){0,12}") {
        check(&text)?;
    }

    #[test]
    fn bytes_put_in_and_taken_out(
        file in sound_file(),
        edits in prop::collection::vec((any::<prop::sample::Index>(), 0_usize..4, "[-\\[\\]{}=\"'#.,0-9a-z\n\t′é]{0,3}"), 1..5),
    ) {
        let mut chars: Vec<char> = file.chars().collect();
        for (at, gone, put) in edits {
            let at = at.index(chars.len());
            let end = (at + gone).min(chars.len());
            chars.splice(at..end, put.chars());
        }
        check(&chars.into_iter().collect::<String>())?;
    }

    #[test]
    fn values_and_lines_exchanged(
        file in sound_file(),
        edits in prop::collection::vec((any::<prop::sample::Index>(), any::<prop::sample::Index>(), 0_usize..20), 1..6),
    ) {
        let mut lines: Vec<String> = file.lines().map(str::to_owned).collect();
        for (at, other, what) in edits {
            let at = at.index(lines.len());
            let other = other.index(lines.len());
            match VALUES.get(what) {
                Some(value) => {
                    let key = lines[at].split('=').next().unwrap_or("").to_owned();
                    lines[at] = format!("{key}= {value}");
                }
                None => lines.swap(at, other),
            }
        }
        check(&lines.join("\n"))?;
    }

    #[test]
    fn numbers_scaled(file in sound_file(), at in any::<prop::sample::Index>(), by in 0.3..3.0_f64) {
        // One number of the file changed: most such files are sound, so the design itself is tried.
        let starts: Vec<usize> = file
            .match_indices(|c: char| c.is_ascii_digit())
            .map(|(i, _)| i)
            .filter(|&i| i == 0 || !file[..i].ends_with(|c: char| c.is_ascii_digit() || c == '.'))
            .collect();
        let start = starts[at.index(starts.len())];
        let rest = &file[start..];
        let end = rest.find(|c: char| !c.is_ascii_digit() && c != '.').unwrap_or(rest.len());
        let number: f64 = rest[..end].trim_end_matches('.').parse().unwrap();
        let text = format!("{}{:.3}{}", &file[..start], number * by, &rest[end..]);
        check(&text)?;
    }
}
