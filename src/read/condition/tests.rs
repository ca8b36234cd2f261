//! Conditions as they are read, as data: the text, and the draft or the problem it becomes.

#![allow(
    clippy::expect_used,
    clippy::panic,
    clippy::too_many_lines,
    reason = "tests; a long list of cases is one thing"
)]

use super::read;
use crate::problem::Problem;
use crate::read::draft::{
    Amount, Comparison, Expr, ExprKind, Included, Operand, Sum, SumPart, Words,
};
use crate::read::scalar::Mapped;
use crate::source::SourceId;
use proptest::prelude::*;

fn reading(text: &str) -> (Option<Expr>, Vec<Problem>) {
    let mapped = Mapped::verbatim(text, 0, SourceId::default());
    let mut problems = Vec::new();
    let reading = read(&mapped, &mut problems);
    (reading.expr, problems)
}

/// A condition in one fixed notation, every bracket written.
fn shown(expr: &Expr) -> String {
    let not = |negated: bool| if negated { " not" } else { "" };
    let list = |words: &[Words]| {
        let names: Vec<&str> = words.iter().map(|word| word.value.as_str()).collect();
        format!("({})", names.join(", "))
    };
    let parts = |parts: &[Expr]| parts.iter().map(shown).collect::<Vec<_>>().join(", ");
    match &expr.kind {
        ExprKind::Always => "always".to_owned(),
        ExprKind::Name(name) => name.clone(),
        ExprKind::Not(part) => format!("not[{}]", shown(part)),
        ExprKind::All(of) => format!("all[{}]", parts(of)),
        ExprKind::Any(of) => format!("any[{}]", parts(of)),
        ExprKind::NoneOf(of) => format!("none[{}]", parts(of)),
        ExprKind::Count { amount, of } => format!("{}[{}]", counted(amount), parts(of)),
        ExprKind::Compare {
            left,
            comparison,
            right,
        } => {
            let word = match comparison {
                Comparison::Is => "=",
                Comparison::IsNot => "/=",
                Comparison::AtLeast => ">=",
                Comparison::AtMost => "<=",
                Comparison::MoreThan => ">",
                Comparison::LessThan => "<",
            };
            format!("{} {word} {}", summed(left), summed(right))
        }
        ExprKind::Between {
            left,
            negated,
            low,
            high,
        } => format!(
            "{}{} in {}..{}",
            summed(left),
            not(*negated),
            summed(low),
            summed(high)
        ),
        ExprKind::OneOf {
            left,
            negated,
            values,
        } => format!("{}{} in {}", left.value, not(*negated), list(values)),
        ExprKind::SameAs {
            left,
            negated,
            right,
        } => format!("{}{} same {}", left.value, not(*negated), right.value),
        ExprKind::Includes {
            left,
            amount,
            items,
        } => {
            let amount = match amount {
                Included::All => "all".to_owned(),
                Included::Any => "any".to_owned(),
                Included::None => "none".to_owned(),
                Included::Count(amount) => counted(amount),
            };
            format!("{} has {amount} {}", left.value, list(items))
        }
        ExprKind::Empty { left, negated } => format!("{}{} empty", left.value, not(*negated)),
        ExprKind::Only {
            left,
            negated,
            items,
        } => format!("{}{} only {}", left.value, not(*negated), list(items)),
    }
}

fn counted(amount: &Amount) -> String {
    match amount {
        Amount::AtLeast(number) => format!(">={}", number.value),
        Amount::Exactly(number) => format!("={}", number.value),
        Amount::AtMost(number) => format!("<={}", number.value),
    }
}

fn summed(sum: &Sum) -> String {
    let part = |part: &SumPart| {
        let sign = if part.negative { "-" } else { "" };
        let factor = part
            .factor
            .as_ref()
            .map_or_else(String::new, |factor| format!("{}*", factor.value));
        let operand = match &part.operand {
            Operand::Name(name) => name.value.clone(),
            Operand::Number { digits, unit: None } => format!("#{}", digits.value),
            Operand::Number {
                digits,
                unit: Some(unit),
            } => format!("#{}~{}", digits.value, unit.value),
        };
        format!("{sign}{factor}{operand}")
    };
    sum.parts.iter().map(part).collect::<Vec<_>>().join("+")
}

#[test]
fn every_form_is_read() {
    let check = |text: &str, expect: &str| {
        let (expr, problems) = reading(text);
        assert_eq!(problems, [], "{text}");
        assert_eq!(shown(&expr.expect(text)), expect, "{text}");
    };
    check("deliberate", "deliberate");
    check("always", "always");
    check("not always", "not[always]");
    check("phase is ground", "phase = ground");
    check("phase is not ground", "phase /= ground");
    check(
        "phase is one of (ground, transition)",
        "phase in (ground, transition)",
    );
    check("rank is not one of (1, 2)", "rank not in (1, 2)");
    check(
        "first_grip is same as second_grip",
        "first_grip same second_grip",
    );
    check(
        "first_grip is not same as second_grip",
        "first_grip not same second_grip",
    );
    check("force at least firm", "force >= firm");
    check("force is at most firm", "force <= firm");
    check("force is more than light", "force > light");
    check("force less than full", "force < full");
    check("seconds_held is 20", "seconds_held = #20");
    check(
        "seconds_held is between 10 and 20",
        "seconds_held in #10..#20",
    );
    check(
        "a is not between b and 2 * c and d",
        "all[a not in b..2*c, d]",
    );
    check("leader - trailer at least 2", "leader+-trailer >= #2");
    check("leader-trailer at least -2", "leader+-trailer >= -#2");
    check("weight less than least_weight", "weight < least_weight");
    check(
        "2 * a + 3 kg - b is at most 7.26 kg",
        "2*a+#3~kg+-b <= #7.26~kg",
    );
    check("- 3 more than 2 * 7 s", "-#3 > 2*#7~s");
    check("3 less than a", "#3 < a");
    check("3 s more than a", "#3~s > a");
    check(
        "wind at most 2.0 m/s and legal",
        "all[wind <= #2.0~m/s, legal]",
    );
    check("share more than 50 %", "share > #50~%");
    check("touching includes knee", "touching has all (knee)");
    check(
        "touching includes any of (hand, knee)",
        "touching has any (hand, knee)",
    );
    check("touching includes all of (hand)", "touching has all (hand)");
    check(
        "touching includes none of (hand, knee)",
        "touching has none (hand, knee)",
    );
    check(
        "touching includes at least 3 of (a, b, c)",
        "touching has >=3 (a, b, c)",
    );
    check(
        "touching includes exactly 1 of (a, b)",
        "touching has =1 (a, b)",
    );
    check(
        "touching includes at most 1 of (a, b)",
        "touching has <=1 (a, b)",
    );
    check("touching is empty", "touching empty");
    check("touching is not empty", "touching not empty");
    check("touching is only hand", "touching only (hand)");
    check(
        "touching is only (hand, knee)",
        "touching only (hand, knee)",
    );
    check("touching is not only hand", "touching not only (hand)");
    check("at least 2 of (a, b is c, not d)", ">=2[a, b = c, not[d]]");
    check("exactly 1 of (a, (b and c))", "=1[a, all[b, c]]");
    check("at most 1 of (a)", "<=1[a]");
    check("not at_home and b", "all[not[at_home], b]");
    check("a and b and c", "all[a, b, c]");
    check(
        "a or (b and not (c or d))",
        "any[a, all[b, not[any[c, d]]]]",
    );
    check("((a))", "a");
    check("a\n  and b", "all[a, b]");
    // Words that mean something only in their place may name values.
    check("penalty is none", "penalty = none");
    check("grip is same", "grip = same");
    check(
        "count is more and hit is less",
        "all[count = more, hit = less]",
    );
    check("x includes any", "x has all (any)");
    check("x is more than more", "x > more");
    check("größe is 身長", "größe = 身長");
    check("पकड़ is भूमि", "पकड़ = भूमि");
    check("a1 is 5a", "a1 = 5a");
    check("a is not same", "a /= same");
}

#[test]
fn places_are_the_words_that_said_it() {
    let text = "a and (phase is one of (x, y)) and leader - 2 * b at least 7.26 kg";
    let (expr, _) = reading(text);
    let ExprKind::All(parts) = expr.expect("reads").kind else {
        panic!("joined by `and`");
    };
    let words = |span: crate::source::Span| &text[span.start as usize..span.end as usize];
    assert_eq!(
        parts
            .iter()
            .map(|part| words(part.span))
            .collect::<Vec<_>>(),
        [
            "a",
            "phase is one of (x, y)",
            "leader - 2 * b at least 7.26 kg"
        ]
    );
    let ExprKind::Compare { left, right, .. } = &parts[2].kind else {
        panic!("a comparison");
    };
    assert_eq!(
        (words(left.span), words(right.span)),
        ("leader - 2 * b", "7.26 kg")
    );
}

#[test]
fn what_is_no_condition_says_what_to_write() {
    let check = |text: &str, underlined: &str, headline: &str, help: &str| {
        let (expr, problems) = reading(text);
        assert!(expr.is_none(), "{text}");
        let [problem] = problems.as_slice() else {
            panic!("one problem in `{text}`, found {problems:#?}");
        };
        let words = &text[problem.span.start as usize..problem.span.end as usize];
        assert_eq!(words, underlined, "{text}");
        assert_eq!(problem.headline, headline, "{text}");
        let said = problem.help.as_deref().unwrap_or_default();
        assert!(said.contains(help), "{text}: {said}");
    };
    let sides = "`and` and `or` stand side by side without brackets";
    check(
        "a and b or c",
        "or",
        sides,
        "write `(a and b) or c` or `a and (b or c)`",
    );
    check(
        "a or b and c or d",
        "and",
        sides,
        "write `(a or b) and (c or d)` or `a or (b and c) or d`",
    );
    let before = "`not` stands before a whole comparison";
    check(
        "not a is b",
        "not a is b",
        before,
        "write `a is not b`, or `not (a is b)`",
    );
    check(
        "not a at least 3 and c",
        "not a at least 3",
        before,
        "`a less than 3`, or `not (a at least 3)`",
    );
    check(
        "not at least 2 of (a, b)",
        "not at least 2 of (a, b)",
        before,
        "write `not (at least 2 of (a, b))`",
    );
    check("not not a", "not not a", before, "write `not (not a)`");
    let sign = |sign: &str| format!("`{sign}` stands in a condition");
    check("a >= 3", ">=", &sign(">="), "write `at least`");
    check("a ≥ 3", "≥", &sign("≥"), "write `at least`");
    check("a <= 3", "<=", &sign("<="), "write `at most`");
    check("a < 3", "<", &sign("<"), "write `less than`");
    check("a > 3", ">", &sign(">"), "write `more than`");
    check("a = b", "=", &sign("="), "write `is`");
    check("a == b", "==", &sign("=="), "write `is`");
    check("a != b", "!=", &sign("!="), "write `is not`");
    check("a && b", "&&", &sign("&&"), "write `and`");
    check("a || b", "||", &sign("||"), "write `or`");
    check("!a", "!", &sign("!"), "write `not`");
    check("a AND b", "AND", &sign("AND"), "write `and`");
    check("a is \"b c\"", "\"b c\"", &sign("\"b c\""), "write `b_c`");
    check("a is [b]", "[", &sign("["), "round brackets");
    check(
        "a is not at least 3",
        "is not at least",
        &sign("is not at least"),
        "write `less than`",
    );
    check("a not b", "not", &sign("not"), "write `is not`");
    check(
        "seconds held is 3",
        "seconds held",
        "two words stand side by side in a condition: `seconds held`",
        "`seconds_held`",
    );
    check(
        "a Is b",
        "a Is",
        "two words stand side by side in a condition: `a Is`",
        "`is` in small letters",
    );
    check(
        "a equals b",
        "equals",
        "`equals` stands where a comparison was expected",
        "write `is`",
    );
    check(
        "a greater than 3",
        "greater",
        "`greater` stands where a comparison was expected",
        "write `more than`",
    );
    check(
        "a is greater than 3",
        "greater",
        "`greater` stands where a comparison was expected",
        "write `more than`",
    );
    check(
        "a is in (b, c)",
        "in",
        "`in` stands where a comparison was expected",
        "write `is one of (...)`",
    );
    check(
        "a between 1 and 3",
        "between",
        "`between` stands where a comparison was expected",
        "is between",
    );
    check(
        "a is between 1 to 3",
        "to",
        "`to` stands between the two ends of `between`",
        "is between 10 and 20",
    );
    check(
        "a is one of b",
        "b",
        "`b` stands where a list was expected",
        "(a, b, c)",
    );
    check("a is one of ()", "()", "a bracket has nothing in it", "");
    check(
        "a is one of (b, )",
        ")",
        "a bracket closes where something was still expected",
        "comma",
    );
    check(
        "a is one of (b or c)",
        "or",
        "`or` stands between the items of a list",
        "",
    );
    check(
        "a includes (b, c)",
        "includes (",
        "`includes` stands before a list without saying how many of it",
        "any of",
    );
    check(
        "a includes not b",
        "includes not",
        "`includes not` stands in a condition",
        "none of",
    );
    check(
        "(a and b",
        "(",
        "a bracket in a condition is never closed",
        "add `)`",
    );
    check(
        "a is one of (b, c",
        "(",
        "a bracket in a condition is never closed",
        "add `)`",
    );
    check(
        "a and b)",
        ")",
        "a bracket is closed that was never opened",
        "quotes",
    );
    check(
        "a and",
        "and",
        "a condition ends too early, behind `and`",
        "",
    );
    check("not", "not", "a condition ends too early, behind `not`", "");
    check(
        "a, b",
        ",",
        "a comma stands in a condition outside a list",
        "and",
    );
    check(
        "a at least 7,26 kg",
        ",",
        "a comma stands in a condition outside a list",
        "`7.26`",
    );
    check(
        "a at least 7.26kg",
        "7.26kg",
        "`7.26kg` is neither a number nor a name",
        "`7.26 kg`",
    );
    check(
        "(a) at least 2",
        "(a)",
        "a bracket stands in a comparison",
        "without brackets",
    );
    check(
        "(a - b) at least 2",
        "(a - b)",
        "a bracket stands in a comparison",
        "without brackets",
    );
    check(
        "a - (b + c) at least 2",
        "(",
        "a bracket stands in a sum",
        "a - b - c",
    );
    check(
        "a * 2 at least 2",
        "* 2",
        "a factor stands behind what it multiplies, or is no number",
        "`2 * a`",
    );
    check(
        "1.5 * a at least 2",
        "1.5",
        "the factor `1.5` is not a whole number",
        "whole number",
    );
    check(
        "a - b is one of (c)",
        "a - b",
        "a number or a sum stands before `is one of`",
        "is between",
    );
    check(
        "at least two of (a, b)",
        "two",
        "`two` stands where a count was expected",
        "at least 2 of",
    );
    check(
        "at least 2",
        "at least 2",
        "`at least 2` has nothing before it to compare, and no `of` behind it to count",
        "name at least 2",
    );
    check("20", "20", "`20` stands alone in a condition", "at least");
    check(
        "a is not not b",
        "not",
        "`not` stands where a name was expected",
        "",
    );
    check(
        "always is b",
        "always",
        "`always` stands where a name was expected",
        "",
    );
    check("a is b: c", ":", "`:` stands in a condition", "");
    check(
        "a does not include b",
        "does",
        "`does` stands where a comparison was expected",
        "none of",
    );
}

proptest! {
    /// Whatever is read, nothing panics, and what is refused names a place in the text.
    #[test]
    fn any_words_are_read_or_refused_with_a_place(text in words()) {
        let (expr, problems) = reading(&text);
        prop_assert!(expr.is_none() != problems.is_empty() || text.trim().is_empty());
        for problem in problems {
            let (start, end) = (problem.span.start as usize, problem.span.end as usize);
            let words = text.get(start..end);
            prop_assert!(words.is_some_and(|words| !words.is_empty() && words.trim() == words), "{problem:?}");
        }
    }

    #[test]
    fn any_text_is_read_or_refused_with_a_place(text in "\\PC*") {
        let (expr, problems) = reading(&text);
        prop_assert!(expr.is_none() != problems.is_empty() || text.trim().is_empty());
        for problem in problems {
            prop_assert!(text.get(problem.span.start as usize..problem.span.end as usize).is_some());
        }
    }

    /// A bracket or `not` too many is a problem, however many there are.
    #[test]
    fn depth_is_refused(depth in 101usize..20_000, opening in prop_oneof![Just("("), Just("not "), Just("not ("), Just("at least 1 of (")]) {
        let (expr, problems) = reading(&opening.repeat(depth));
        prop_assert!(expr.is_none());
        prop_assert_eq!(problems.len(), 1);
    }
}

fn words() -> impl Strategy<Value = String> {
    let word = prop::sample::select(vec![
        "a", "b", "phase", "is", "not", "and", "or", "one", "of", "at", "least", "most", "more",
        "less", "than", "between", "empty", "exactly", "includes", "only", "same", "as", "always",
        "any", "all", "none", "(", ")", ",", "+", "-", "*", "2", "7.26", "kg", "!", ">=", "=",
        "\"", "&&", "/", "7.26kg", "é",
    ]);
    prop::collection::vec(word, 0..14).prop_map(|words| words.join(" "))
}
