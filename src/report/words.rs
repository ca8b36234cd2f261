//! Numbers, lists and values as people read them.

pub(super) use crate::analysis::{and_list, or_list};
pub(super) use crate::labels::{attribute, dimension, fact, ruling};
use crate::logic::Count;
use num_bigint::BigUint;
use num_traits::{ToPrimitive, Zero};

/// Digits in groups of three: `301,056`.
pub(super) fn grouped(number: &BigUint) -> String {
    let digits = number.to_string();
    let mut out = String::with_capacity(digits.len() + digits.len() / 3);
    for (index, digit) in digits.chars().enumerate() {
        if index > 0 && (digits.len() - index).is_multiple_of(3) {
            out.push(',');
        }
        out.push(digit);
    }
    out
}

/// `3 faults`, `1 fault`, `no faults`.
pub(super) fn counted(number: usize, one: &str) -> String {
    match number {
        0 => format!("no {one}s"),
        1 => format!("1 {one}"),
        _ => format!("{} {one}s", grouped(&BigUint::from(number))),
    }
}

/// `301,056 scenarios`, `at least 40 scenarios`.
pub(super) fn scenarios(count: &Count) -> String {
    let at_least = if count.exact { "" } else { "at least " };
    let plural = if count.scenarios == BigUint::from(1u8) {
        ""
    } else {
        "s"
    };
    format!("{at_least}{} scenario{plural}", grouped(&count.scenarios))
}

/// `1,204 of 301,056 scenarios (0.4%)`.
pub(super) fn share(part: &Count, space: Option<&Count>) -> String {
    let Some(space) = space.filter(|space| !space.scenarios.is_zero()) else {
        return scenarios(part);
    };
    let at_least = if part.exact { "" } else { "at least " };
    let of = if space.exact { "of" } else { "of at least" };
    let percent = if part.exact && space.exact {
        format!(" ({})", percent(&part.scenarios, &space.scenarios))
    } else {
        String::new()
    };
    format!(
        "{at_least}{} {of} {} scenarios{percent}",
        grouped(&part.scenarios),
        grouped(&space.scenarios)
    )
}

/// A share in percent, to two digits that say something; never 0% or 100% of what is neither.
pub(super) fn percent(part: &BigUint, whole: &BigUint) -> String {
    if part.is_zero() {
        return "0%".to_owned();
    }
    if part >= whole {
        return "100%".to_owned();
    }
    let parts_in_ten_thousand = (part * 10_000u32 + whole / 2u32) / whole;
    match parts_in_ten_thousand.to_u32().unwrap_or(u32::MAX) {
        0 => "under 0.01%".to_owned(),
        hundredths @ 1..100 => format!("0.{hundredths:02}%"),
        hundredths @ 100..1000 => format!("{}.{}%", hundredths / 100, hundredths % 100 / 10),
        hundredths @ 1000..9900 => format!("{}%", (hundredths + 50) / 100),
        _ => "over 99%".to_owned(),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn big(number: u64) -> BigUint {
        BigUint::from(number)
    }

    #[test]
    fn numbers_are_grouped_and_plurals_kept() {
        let group = |number| grouped(&big(number));
        assert_eq!(
            [group(7), group(301_056), group(1_000), group(12_345_678)],
            ["7", "301,056", "1,000", "12,345,678"]
        );
        assert_eq!(
            [
                counted(0, "fault"),
                counted(1, "fault"),
                counted(1200, "fault")
            ],
            ["no faults", "1 fault", "1,200 faults"]
        );
    }

    #[test]
    fn percentages_never_round_to_none_or_all() {
        let share = |part, whole| percent(&big(part), &big(whole));
        for (part, whole, words) in [
            (0, 9, "0%"),
            (9, 9, "100%"),
            (1, 1_000_000, "under 0.01%"),
            (1204, 301_056, "0.40%"),
            (1, 30, "3.3%"),
            (1, 3, "33%"),
            (999_999, 1_000_000, "over 99%"),
        ] {
            assert_eq!(share(part, whole), words, "{part} of {whole}");
        }
    }

    #[test]
    fn a_share_says_what_is_not_exact() {
        let count = |scenarios, exact| Count {
            scenarios: big(scenarios),
            exact,
        };
        let space = count(2000, true);
        assert_eq!(
            share(&count(1000, true), Some(&space)),
            "1,000 of 2,000 scenarios (50%)"
        );
        assert_eq!(
            share(&count(3, false), Some(&space)),
            "at least 3 of 2,000 scenarios"
        );
        assert_eq!(share(&count(1, true), None), "1 scenario");
    }
}
