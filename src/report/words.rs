//! Numbers, lists and values as people read them.

pub(super) use crate::analysis::{and_list, or_list};
pub(super) use crate::labels::{attribute, dimension, fact, ruling};
use crate::logic::Count;
use num_bigint::BigUint;
use num_traits::{ToPrimitive, Zero};

/// Digits that a number may have to be written out.
const WRITTEN_OUT: usize = 15;

/// Digits in groups of three: `301,056`. A number too long to be read is rounded: `about 3.2 × 10^107`.
pub(super) fn grouped(number: &BigUint) -> String {
    let digits = number.to_string();
    if digits.len() > WRITTEN_OUT {
        let exponent = digits.len() - 2;
        let unit = BigUint::from(10u8).pow(u32::try_from(exponent).unwrap_or(u32::MAX));
        let tenths = (number + &unit / 2u8) / &unit;
        return format!("about {}", scientific(&tenths, exponent));
    }
    let mut out = String::with_capacity(digits.len() + digits.len() / 3);
    for (index, digit) in digits.chars().enumerate() {
        if index > 0 && (digits.len() - index).is_multiple_of(3) {
            out.push(',');
        }
        out.push(digit);
    }
    out
}

/// `at least 40`; a number too long to be read is rounded down.
fn at_least(number: &BigUint) -> String {
    let digits = number.to_string();
    if digits.len() <= WRITTEN_OUT {
        return format!("at least {}", grouped(number));
    }
    let exponent = digits.len() - 2;
    let tenths: BigUint = digits
        .chars()
        .take(2)
        .collect::<String>()
        .parse()
        .unwrap_or_default();
    format!("at least {}", scientific(&tenths, exponent))
}

/// Two digits, or three where they were rounded up to 100, times a power of ten: `3.2 × 10^107`.
fn scientific(leading: &BigUint, exponent: usize) -> String {
    let leading = leading.to_string();
    let exponent = exponent + leading.len() - 1;
    let (first, second) = leading.split_at_checked(1).unwrap_or(("0", "0"));
    format!("{first}.{} × 10^{exponent}", second.get(..1).unwrap_or("0"))
}

/// A count as it is known.
fn known(count: &Count) -> String {
    if count.exact {
        grouped(&count.scenarios)
    } else {
        at_least(&count.scenarios)
    }
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
    let plural = if count.scenarios == BigUint::from(1u8) {
        ""
    } else {
        "s"
    };
    format!("{} scenario{plural}", known(count))
}

/// `1,204 of 301,056 scenarios (0.4%)`, `at least 40 of 2,000 scenarios (2.0% or more)`.
pub(super) fn share(part: &Count, space: Option<&Count>) -> String {
    let Some(space) = space.filter(|space| !space.scenarios.is_zero()) else {
        return scenarios(part);
    };
    let percent = percent(&part.scenarios, &space.scenarios);
    let percent = match (part.exact, space.exact) {
        (true, true) => format!(" ({percent})"),
        // That it is more than next to nothing says nothing.
        (false, true) if !percent.starts_with("under") => format!(" ({percent} or more)"),
        _ => String::new(),
    };
    format!("{} of {} scenarios{percent}", known(part), known(space))
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
    fn numbers_too_long_to_be_read_are_rounded() {
        let ten = |exponent| BigUint::from(10u8).pow(exponent);
        let said = |number: &BigUint| [grouped(number), at_least(number)];
        let fifteen = ten(15) - 1u8;
        let whole = "999,999,999,999,999";
        assert_eq!(
            said(&fifteen),
            [whole.to_owned(), format!("at least {whole}")]
        );
        for (number, rounded, down) in [
            (ten(15), "1.0 × 10^15", "1.0 × 10^15"),
            (
                ten(107) * 3u8 + ten(106) * 2u8,
                "3.2 × 10^107",
                "3.2 × 10^107",
            ),
            (ten(20) * 3u8 + ten(18) * 25u8, "3.3 × 10^20", "3.2 × 10^20"),
            (ten(20) - 1u8, "1.0 × 10^20", "9.9 × 10^19"),
        ] {
            assert_eq!(
                said(&number),
                [format!("about {rounded}"), format!("at least {down}")]
            );
        }
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
            "at least 3 of 2,000 scenarios (0.15% or more)"
        );
        assert_eq!(
            share(&count(3, false), Some(&count(200_000, true))),
            "at least 3 of 200,000 scenarios"
        );
        assert_eq!(share(&count(1, true), None), "1 scenario");
    }
}
