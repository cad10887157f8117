//! Numbers of parts, as one says them.

/// Rising numbers in words: `1 to 4, 6 and 8`.
pub fn list(numbers: &[usize]) -> String {
    let mut runs: Vec<(usize, usize)> = Vec::new();
    for &n in numbers {
        match runs.last_mut() {
            Some((_, end)) if *end + 1 == n => *end = n,
            _ => runs.push((n, n)),
        }
    }
    let mut words: Vec<String> = Vec::new();
    for (a, b) in runs {
        match b - a {
            0 => words.push(a.to_string()),
            1 => words.extend([a.to_string(), b.to_string()]),
            _ => words.push(format!("{a} to {b}")),
        }
    }
    match words.pop() {
        None => String::new(),
        Some(last) if words.is_empty() => last,
        Some(last) => format!("{} and {last}", words.join(", ")),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn numbers_run_together() {
        assert_eq!(list(&[]), "");
        assert_eq!(list(&[3]), "3");
        assert_eq!(list(&[3, 4]), "3 and 4");
        assert_eq!(list(&[1, 2, 3, 4, 6, 8, 9]), "1 to 4, 6, 8 and 9");
    }
}
