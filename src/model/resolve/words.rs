//! Small pieces of the English that problems are told in.

/// As many names as a reader takes in at a glance.
const SHOWN: usize = 8;

/// Names in back quotes, one of which is meant: `a`, `b` or `c`. Long lists are cut, and say so.
pub(super) fn one_of<'a>(names: impl IntoIterator<Item = &'a str>) -> String {
    joined(names, "or")
}

/// Names in back quotes, all of which are meant: `a`, `b` and `c`. Long lists are cut, and say so.
pub(super) fn all_of<'a>(names: impl IntoIterator<Item = &'a str>) -> String {
    joined(names, "and")
}

fn joined<'a>(names: impl IntoIterator<Item = &'a str>, joiner: &str) -> String {
    let quoted: Vec<String> = names.into_iter().map(|name| format!("`{name}`")).collect();
    let (shown, left) = quoted.split_at(quoted.len().min(SHOWN));
    match (shown, left.len()) {
        ([], _) => "nothing".to_owned(),
        ([one], 0) => one.clone(),
        ([first @ .., last], 0) => format!("{} {joiner} {last}", first.join(", ")),
        (shown, more) => format!("{} {joiner} {more} more", shown.join(", ")),
    }
}

#[cfg(test)]
mod tests {
    use super::{all_of, one_of};

    #[test]
    fn lists_read_as_people_write_them() {
        assert_eq!(one_of(["a"]), "`a`");
        assert_eq!(one_of(["a", "b", "c"]), "`a`, `b` or `c`");
        assert_eq!(one_of(["a", "b"]), "`a` or `b`");
        assert_eq!(all_of(["a", "b"]), "`a` and `b`");
        let many: Vec<String> = (0..11).map(|n| n.to_string()).collect();
        let many = one_of(many.iter().map(String::as_str));
        assert_eq!(many, "`0`, `1`, `2`, `3`, `4`, `5`, `6`, `7` or 3 more");
    }
}
