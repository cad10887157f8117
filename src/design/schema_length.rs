//! The pattern of a length with a unit, for JSON Schema (ECMA-262).

/// A number: `19`, `19.5`, `3/4`, `19 3/4`, `19-3/4`, `19¾`.
const NUMBER: &str =
    r"(?:[½¼¾⅛⅜⅝⅞]|[0-9]*\.[0-9]+|[0-9]+[/⁄][0-9]+|[0-9]+(?:[½¼¾⅛⅜⅝⅞]|[\s-]+[0-9]+[/⁄][0-9]+)?)";

/// Signs of an inch.
const INCH: &str = "(?:[\"″“”]|['′‘’]{2}|[iI][nN](?:[cC][hH](?:[eE][sS])?)?)";

/// Signs of a foot.
const FOOT: &str = "(?:['′‘’]|[fF][tT]|[fF][oO][oO][tT]|[fF][eE][eE][tT])";

/// Signs of metric units.
const METRIC: &str = "(?:[mM][mM]?|[cC][mM])";

/// What [`parse_length`](super::units::parse_length) reads: a number, a number with a unit, or feet and inches.
pub(super) fn length_pattern() -> String {
    format!(
        r"^\s*[-+−]?\s*(?:{NUMBER}\s*(?:{METRIC}|{INCH}|{FOOT})?|[0-9]+(?:\.0+)?\s*{FOOT}\s*-?\s*{NUMBER}\s*{INCH}?)\s*$"
    )
}
