//! "Did you mean": the nearest word by edit distance.

/// The candidate nearest to `word`, if it is near enough to be a slip of the pen.
pub(super) fn nearest<'c>(
    word: &str,
    candidates: impl IntoIterator<Item = &'c str>,
) -> Option<&'c str> {
    /// Longer words are no slip of any key.
    const LONGEST: usize = 40;
    let word: Vec<char> = word.to_lowercase().chars().take(LONGEST + 1).collect();
    if word.len() > LONGEST {
        return None;
    }
    candidates
        .into_iter()
        .map(|candidate| {
            let letters: Vec<char> = candidate.chars().collect();
            let limit = (letters.len().max(word.len()) / 3).max(1);
            (distance(&word, &letters), limit, candidate)
        })
        .filter(|&(distance, limit, _)| distance <= limit)
        .min_by_key(|&(distance, ..)| distance)
        .map(|(.., candidate)| candidate)
}

/// How many letters to insert, drop, change or swap with their neighbour to turn `a` into `b`
/// (optimal string alignment; time and space `O(|a|·|b|)`).
fn distance(a: &[char], b: &[char]) -> usize {
    let mut rows = vec![(0..=b.len()).collect::<Vec<usize>>()];
    for (i, x) in a.iter().enumerate() {
        let mut row = vec![i + 1];
        for (j, y) in b.iter().enumerate() {
            let change = rows[i][j] + usize::from(x != y);
            let mut best = change.min(rows[i][j + 1] + 1).min(row[j] + 1);
            if i > 0 && j > 0 && *x == b[j - 1] && a[i - 1] == *y {
                best = best.min(rows[i - 1][j - 1] + 1);
            }
            row.push(best);
        }
        rows.push(row);
    }
    rows[a.len()][b.len()]
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn slips_find_their_word_and_strangers_none() {
        let words = ["tail_width", "nose_width", "width", "length"];
        assert_eq!(nearest("tail_wdith", words), Some("tail_width"));
        assert_eq!(nearest("Lenght", words), Some("length"));
        assert_eq!(nearest("widt", words), Some("width"));
        assert_eq!(nearest("colour", words), None);
        assert_eq!(nearest("", words), None);
        assert_eq!(nearest(&"w".repeat(10_000), words), None);
    }

    #[test]
    fn distance_counts_edits() {
        let letters = |s: &str| s.chars().collect::<Vec<_>>();
        for (a, b, edits) in [
            ("", "abc", 3),
            ("abc", "abc", 0),
            ("abc", "acb", 1),
            ("kitten", "sitting", 3),
        ] {
            assert_eq!(distance(&letters(a), &letters(b)), edits, "{a} {b}");
            assert_eq!(distance(&letters(b), &letters(a)), edits, "{b} {a}");
        }
    }
}
