//! From a string's value back to its writing in the file.

/// Where the byte `offset` of a one-line string's value lies in its `raw` writing, quotes and escapes included.
///
/// For multi-line strings, where lines may have been joined, it is the start.
pub(super) fn raw_offset(raw: &str, offset: usize) -> usize {
    let one_line = !raw.starts_with("\"\"\"") && !raw.starts_with("'''");
    if raw.starts_with('\'') && one_line {
        return 1 + offset;
    }
    if !raw.starts_with('"') || !one_line {
        return 0;
    }
    let (mut at, mut decoded) = (1, 0);
    while decoded < offset {
        let Some(rest) = raw.get(at..) else { break };
        let mut chars = rest.chars();
        let (written, meant) = match (chars.next(), chars.next()) {
            (Some('\\'), Some(kind)) => {
                let digits = match kind {
                    'x' => 2,
                    'u' => 4,
                    'U' => 8,
                    _ => 0,
                };
                let code = rest.get(2..2 + digits).unwrap_or("");
                let c = u32::from_str_radix(code, 16).ok().and_then(char::from_u32);
                (2 + digits, c.map_or(1, char::len_utf8))
            }
            (Some(c), _) => (c.len_utf8(), c.len_utf8()),
            (None, _) => break,
        };
        at += written;
        decoded += meant;
    }
    at
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn offsets_survive_quotes_and_escapes() {
        assert_eq!(raw_offset("'6 ft x'", 5), 6);
        assert_eq!(raw_offset(r#""6' 4\" x""#, 6), 8);
        assert_eq!(raw_offset(r#""\u2032x""#, 3), 7);
        assert_eq!(raw_offset(r#""\x41x""#, 1), 5);
        assert_eq!(raw_offset("\"\"\"\nx\"\"\"", 1), 0);
        assert_eq!(raw_offset("\"", 9), 1);
    }
}
