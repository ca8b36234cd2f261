//! Exact numbers, their units, and ranges of steps.
//!
//! Numbers are never floating point. An attribute's value is a whole number of steps above the low
//! end of its range; everything that a condition compares is turned into steps when it is resolved.

use num_rational::Ratio;
use num_traits::{CheckedAdd, CheckedMul, CheckedSub, ToPrimitive};
use std::fmt;

/// An exact number, whole numbers and decimals of up to about 30 digits.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Number(Ratio<i128>);

impl Number {
    /// A whole number.
    pub fn whole(value: i64) -> Self {
        Number(Ratio::from_integer(i128::from(value)))
    }

    /// A fraction; `None` where `below` is zero.
    pub fn fraction(above: i64, below: i64) -> Option<Self> {
        (below != 0).then(|| Number(Ratio::new(i128::from(above), i128::from(below))))
    }

    /// Reads digits with an optional sign and decimal point: `20`, `-3`, `7.26`. `None` for anything
    /// else (exponents, separators, a bare point) and beyond 24 digits.
    pub fn parse(text: &str) -> Option<Self> {
        let (negative, digits) = text
            .strip_prefix('-')
            .map_or((false, text), |rest| (true, rest));
        let (whole, decimals) = digits.split_once('.').unwrap_or((digits, "0"));
        let fine = |part: &str| !part.is_empty() && part.bytes().all(|byte| byte.is_ascii_digit());
        if !fine(whole) || !fine(decimals) || whole.len() + decimals.len() > 24 {
            return None;
        }
        let places = u32::try_from(decimals.len()).ok()?;
        let unscaled: i128 = format!("{whole}{decimals}").parse().ok()?;
        let value = Ratio::new(unscaled, 10i128.checked_pow(places)?);
        Some(Number(if negative { -value } else { value }))
    }

    /// The sum, unless it is too large.
    pub fn plus(self, other: Number) -> Option<Number> {
        self.0.checked_add(&other.0).map(Number)
    }

    /// The difference, unless it is too large.
    pub fn minus(self, other: Number) -> Option<Number> {
        self.0.checked_sub(&other.0).map(Number)
    }

    /// The product, unless it is too large.
    pub fn times(self, other: Number) -> Option<Number> {
        self.0.checked_mul(&other.0).map(Number)
    }

    /// The quotient, unless `other` is zero or the result too large.
    pub fn over(self, other: Number) -> Option<Number> {
        (*other.0.numer() != 0)
            .then(|| self.0.checked_mul(&other.0.recip()).map(Number))
            .flatten()
    }

    /// The number as a whole one, if it is one and fits.
    pub fn to_whole(self) -> Option<i64> {
        self.0
            .is_integer()
            .then(|| self.0.to_integer().to_i64())
            .flatten()
    }

    /// The next whole number down (itself, if whole), if it fits.
    pub fn floor(self) -> Option<i64> {
        self.0.floor().to_integer().to_i64()
    }

    /// The next whole number up (itself, if whole), if it fits.
    pub fn ceil(self) -> Option<i64> {
        self.0.ceil().to_integer().to_i64()
    }

    /// The denominator in lowest terms, one or more.
    pub fn denominator(self) -> i128 {
        *self.0.denom()
    }
}

/// A decimal where the number has one (`7.26`), else a fraction (`1/3`).
impl fmt::Display for Number {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let mut places = 0usize;
        let mut scaled = self.0;
        while !scaled.is_integer() && places < 24 {
            match scaled.checked_mul(&Ratio::from_integer(10)) {
                Some(next) => scaled = next,
                None => break,
            }
            places += 1;
        }
        if !scaled.is_integer() {
            return write!(f, "{}/{}", self.0.numer(), self.0.denom());
        }
        let digits = scaled.to_integer().unsigned_abs().to_string();
        let digits = format!("{digits:0>width$}", width = places + 1);
        let (whole, decimals) = digits.split_at(digits.len() - places);
        let sign = if *self.0.numer() < 0 { "-" } else { "" };
        let point = if places == 0 { "" } else { "." };
        write!(f, "{sign}{whole}{point}{decimals}")
    }
}

/// What a number counts. Units of one kind are converted exactly; any word that is not known is a
/// kind of its own.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Unit {
    /// A bare number.
    None,
    /// A unit by its name as written.
    Named(String),
}

impl Unit {
    /// How many of the smallest unit of its kind one of this unit is, and the kind. `None` for a
    /// bare number and for words that are a kind of their own.
    fn known(&self) -> Option<(&'static str, i64)> {
        let Unit::Named(name) = self else { return None };
        Some(match name.as_str() {
            "ms" => ("time", 1),
            "s" => ("time", 1_000),
            "min" => ("time", 60_000),
            "h" => ("time", 3_600_000),
            "mm" => ("length", 1),
            "cm" => ("length", 10),
            "m" => ("length", 1_000),
            "km" => ("length", 1_000_000),
            "g" => ("mass", 1),
            "kg" => ("mass", 1_000),
            "t" => ("mass", 1_000_000),
            _ => return None,
        })
    }

    /// By what to multiply an amount in `self` to have it in `target`; `None` where they are of
    /// different kinds.
    pub fn factor_to(&self, target: &Unit) -> Option<Number> {
        if self == target {
            return Some(Number::whole(1));
        }
        let (kind, amount) = self.known()?;
        let (target_kind, target_amount) = target.known()?;
        (kind == target_kind)
            .then(|| Number::fraction(amount, target_amount))
            .flatten()
    }
}

impl fmt::Display for Unit {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Unit::None => Ok(()),
            Unit::Named(name) => f.write_str(name),
        }
    }
}

/// The values that a number attribute takes: `low`, `low + step` ... up to `steps` steps.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct NumberRange {
    /// The lowest value.
    pub low: Number,
    /// The distance between neighbours, more than zero.
    pub step: Number,
    /// How many steps above the low end the highest value lies.
    pub steps: i64,
    /// What is counted.
    pub unit: Unit,
    /// Whether the highest value stands for all above it as well.
    pub or_more: bool,
}

impl NumberRange {
    /// The value at a step.
    pub fn value(&self, step: i64) -> Number {
        self.step
            .times(Number::whole(step))
            .and_then(|above| self.low.plus(above))
            .unwrap_or(self.low)
    }

    /// How many steps above the low end a number lies: whole where the range has that value.
    pub fn position(&self, value: Number) -> Option<Number> {
        value.minus(self.low)?.over(self.step)
    }
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used, reason = "tests")]

    use super::*;

    #[test]
    fn numbers_are_read_and_written_exactly() {
        for text in ["0", "20", "-3", "7.26", "0.1", "-0.05", "1000000000000"] {
            assert_eq!(
                Number::parse(text)
                    .map(|number| number.to_string())
                    .as_deref(),
                Some(text)
            );
        }
        for text in [
            "",
            ".",
            "5.",
            ".5",
            "1e3",
            "1_000",
            "--2",
            "٣",
            "1234567890123456789012345",
        ] {
            assert_eq!(Number::parse(text), None, "{text}");
        }
    }

    #[test]
    fn units_of_one_kind_convert_exactly() {
        let unit = |name: &str| Unit::Named(name.to_owned());
        let factor = |from: &str, to: &str| unit(from).factor_to(&unit(to)).map(|n| n.to_string());
        assert_eq!(factor("min", "s").as_deref(), Some("60"));
        assert_eq!(factor("cm", "m").as_deref(), Some("0.01"));
        assert_eq!(factor("s", "min").as_deref(), Some("1/60"));
        assert_eq!(factor("kg", "s"), None);
        assert_eq!(factor("points", "points").as_deref(), Some("1"));
        assert_eq!(factor("points", "goals"), None);
    }

    #[test]
    fn ranges_place_their_values() {
        let range = NumberRange {
            low: Number::whole(1),
            step: Number::fraction(1, 10).unwrap(),
            steps: 40,
            unit: Unit::None,
            or_more: false,
        };
        assert_eq!(range.value(11).to_string(), "2.1");
        assert_eq!(
            range
                .position(Number::parse("2.1").unwrap())
                .and_then(Number::to_whole),
            Some(11)
        );
        assert_eq!(
            range
                .position(Number::parse("2.15").unwrap())
                .and_then(Number::to_whole),
            None
        );
    }
}
