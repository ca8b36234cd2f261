//! General conditions for reading: what all lines share is said once.

/// What every line asks for, and what each asks for besides.
#[derive(Debug, PartialEq, Eq)]
pub(super) struct Factored {
    pub(super) common: String,
    pub(super) each: Vec<String>,
}

/// Takes out the parts that every line has. With one line there is nothing to share.
pub(super) fn factored(lines: &[String]) -> Factored {
    let split: Vec<Vec<&str>> = lines.iter().map(|line| parts(line)).collect();
    let unshared = || Factored {
        common: String::new(),
        each: lines.to_vec(),
    };
    let Some((first, others)) = split.split_first().filter(|(_, others)| !others.is_empty()) else {
        return unshared();
    };
    let shared: Vec<&str> = first
        .iter()
        .copied()
        .filter(|part| others.iter().all(|line| line.contains(part)))
        .collect();
    let besides = |line: &Vec<&str>| {
        let own = line.iter().copied().filter(|part| !shared.contains(part));
        own.collect::<Vec<&str>>().join(" and ")
    };
    let each: Vec<String> = split.iter().map(besides).collect();
    if shared.is_empty() || each.iter().any(String::is_empty) {
        return unshared();
    }
    Factored {
        common: shared.join(" and "),
        each,
    }
}

/// The parts of a line that `and` joins at its top: not within brackets, not those of `between`.
fn parts(line: &str) -> Vec<&str> {
    const AND: &str = " and ";
    let mut found = Vec::new();
    let mut start = 0;
    for (at, _) in line.match_indices(AND) {
        let before = line.get(start..at).unwrap_or("");
        let open = before.matches('(').count() != before.matches(')').count();
        let tail = before.rsplit(" between ").next().unwrap_or("");
        let within_between = tail.len() < before.len() && !tail.contains(AND);
        if !open && !within_between {
            found.push(before);
            start = at + AND.len();
        }
    }
    found.push(line.get(start..).unwrap_or(""));
    found
}

#[cfg(test)]
mod tests {
    use super::*;

    fn check(lines: &[&str], common: &str, each: &[&str]) {
        let lines: Vec<String> = lines.iter().map(|line| (*line).to_owned()).collect();
        let expected = Factored {
            common: common.to_owned(),
            each: each.iter().map(|line| (*line).to_owned()).collect(),
        };
        assert_eq!(factored(&lines), expected);
    }

    #[test]
    fn what_all_lines_share_is_said_once() {
        check(&["a and b", "c and a"], "a", &["b", "c"]);
        check(&["a and b"], "", &["a and b"]);
        check(&["a", "b"], "", &["a", "b"]);
        check(&["a", "a and b"], "", &["a", "a and b"]);
        check(&[], "", &[]);
    }

    #[test]
    fn brackets_and_between_hold_together() {
        check(
            &["n is between 1 and 5 and x", "y and n is between 1 and 5"],
            "n is between 1 and 5",
            &["x", "y"],
        );
        check(
            &["at least 1 of (a and b, c) and d", "d and e"],
            "d",
            &["at least 1 of (a and b, c)", "e"],
        );
    }
}
