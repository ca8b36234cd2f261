//! How far several officials agree, apart for each fact, for the clause and for the sanction.
//!
//! Fleiss' kappa for any number of officials (Fleiss, Measuring nominal scale agreement among many
//! raters, Psychological Bulletin 76, 1971), here with a number of officials that may differ from
//! case to case; Cohen's kappa for each two of them (Cohen, A coefficient of agreement for nominal
//! scales, Educational and Psychological Measurement 20, 1960). Counts are kept as whole numbers, so
//! that a log of any length takes the same memory and gives the same figures in any order.

use super::book::Case;
use crate::model::{AttributeId, DimensionId};
use std::collections::BTreeMap;

/// What officials agree on, or not.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Rated {
    /// A fact.
    Fact(AttributeId),
    /// The clauses cited.
    Clauses,
    /// The ruling on a dimension.
    Ruling(DimensionId),
}

/// One of the things that could be said.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
enum Category {
    Number(u128),
    Words(String),
}

/// Agreement beyond chance: 1 where all agree always, 0 where no more than by chance; less where
/// less than by chance.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Kappa {
    /// In how many cases at least two officials spoke.
    pub cases: u64,
    /// The share of pairs of officials that agreed, from 0 to 1, each case counted alike.
    pub agreed: f64,
    /// The coefficient; `None` where all always said the same one thing, so that chance alone would
    /// give the same.
    pub kappa: Option<f64>,
}

/// Two officials.
#[derive(Clone, Debug, PartialEq)]
pub struct Pair {
    /// The one whose name comes first.
    pub one: String,
    /// The other.
    pub other: String,
    /// Cohen's kappa of the two.
    pub kappa: Kappa,
}

/// How far officials agree on one thing.
#[derive(Clone, Debug, Default)]
struct Counts {
    /// By the number of officials that spoke: the cases, and the agreeing pairs (each counted twice).
    by_officials: BTreeMap<u64, (u64, u128)>,
    /// How often each thing was said.
    said: BTreeMap<Category, u64>,
    /// For each two officials, how often the one said this and the other that.
    pairs: BTreeMap<(String, String), BTreeMap<(Category, Category), u64>>,
}

/// How far the officials of all cases agree.
#[derive(Clone, Debug, Default)]
pub struct Agreement {
    of: BTreeMap<Rated, Counts>,
}

/// What of a case was rated, by official.
type Ratings = BTreeMap<Rated, Vec<(String, Category)>>;

impl Agreement {
    /// Takes in a case.
    pub fn add(&mut self, case: &Case) {
        if case.officials.len() < 2 {
            return;
        }
        for (rated, said) in ratings(case) {
            if said.len() > 1 {
                self.of.entry(rated).or_default().add(&said);
            }
        }
    }

    /// What at least two officials spoke of in some case.
    pub fn rated(&self) -> impl Iterator<Item = Rated> {
        self.of.keys().copied()
    }

    /// Fleiss' kappa on one thing.
    pub fn overall(&self, rated: Rated) -> Option<Kappa> {
        self.of.get(&rated).and_then(Counts::overall)
    }

    /// Cohen's kappa of each two officials on one thing.
    pub fn pairs(&self, rated: Rated) -> Vec<Pair> {
        let pairs = self.of.get(&rated).map(|counts| &counts.pairs);
        let pairs = pairs.into_iter().flatten();
        pairs
            .filter_map(|((one, other), table)| {
                Some(Pair {
                    one: one.clone(),
                    other: other.clone(),
                    kappa: of_two(table)?,
                })
            })
            .collect()
    }
}

fn ratings(case: &Case) -> Ratings {
    let mut all = Ratings::new();
    let mut say = |rated, name: &String, what| {
        let said: &mut Vec<(String, Category)> = all.entry(rated).or_default();
        said.push((name.clone(), what));
    };
    // What an official leaves to the case is not their own finding: it is no rating.
    for (name, found) in &case.officials {
        for (id, code) in found.facts.facts() {
            say(Rated::Fact(id), name, Category::Number(u128::from(code.0)));
        }
        for (id, ruled) in &found.ruled {
            let bits = ruled
                .iter()
                .fold(0u128, |bits, value| bits | 1u128 << value);
            say(Rated::Ruling(*id), name, Category::Number(bits));
        }
        if !found.clauses.is_empty() {
            let mut ids = found.clauses.clone();
            ids.sort();
            ids.dedup();
            say(Rated::Clauses, name, Category::Words(ids.join("|")));
        }
    }
    all
}

impl Counts {
    fn add(&mut self, said: &[(String, Category)]) {
        let mut counts: BTreeMap<&Category, u128> = BTreeMap::new();
        for (_, category) in said {
            *counts.entry(category).or_default() += 1;
            *self.said.entry(category.clone()).or_default() += 1;
        }
        let officials = said.len() as u64;
        let agreeing: u128 = counts.values().map(|count| count * (count - 1)).sum();
        let slot = self.by_officials.entry(officials).or_default();
        slot.0 += 1;
        slot.1 += agreeing;
        for (at, (one, this)) in said.iter().enumerate() {
            for (other, that) in said.iter().skip(at + 1) {
                let table = self.pairs.entry((one.clone(), other.clone())).or_default();
                *table.entry((this.clone(), that.clone())).or_default() += 1;
            }
        }
    }

    fn overall(&self) -> Option<Kappa> {
        let by_officials = self.by_officials.iter();
        fleiss_of(
            by_officials.map(|(officials, (cases, agreeing))| (*officials, *cases, *agreeing)),
            self.said.values().copied(),
        )
    }
}

/// Fleiss' kappa of a table: for each case, how many officials said each of the things that could be
/// said. Cases of fewer than two officials are left out.
pub fn fleiss(table: &[Vec<u64>]) -> Option<Kappa> {
    let mut by_officials: BTreeMap<u64, (u64, u128)> = BTreeMap::new();
    let mut said: Vec<u64> = Vec::new();
    for row in table {
        let officials: u64 = row.iter().sum();
        if officials < 2 {
            continue;
        }
        let agreeing = row
            .iter()
            .map(|count| u128::from(*count) * u128::from(count.saturating_sub(1)));
        let slot = by_officials.entry(officials).or_default();
        slot.0 += 1;
        slot.1 += agreeing.sum::<u128>();
        said.resize(said.len().max(row.len()), 0);
        for (total, count) in said.iter_mut().zip(row) {
            *total += count;
        }
    }
    let by_officials = by_officials.into_iter();
    fleiss_of(
        by_officials.map(|(officials, (cases, agreeing))| (officials, cases, agreeing)),
        said.into_iter(),
    )
}

#[expect(
    clippy::cast_precision_loss,
    reason = "a coefficient is told to a few places"
)]
fn fleiss_of(
    by_officials: impl Iterator<Item = (u64, u64, u128)>,
    said: impl Iterator<Item = u64>,
) -> Option<Kappa> {
    let mut cases = 0u64;
    let mut agreed = 0.0;
    for (officials, of_them, agreeing) in by_officials {
        cases += of_them;
        let pairs = u128::from(officials) * u128::from(officials - 1);
        agreed += agreeing as f64 / pairs as f64;
    }
    if cases == 0 {
        return None;
    }
    let agreed = agreed / cases as f64;
    let said: Vec<u64> = said.collect();
    let total = said.iter().sum::<u64>() as f64;
    let by_chance = said
        .iter()
        .map(|count| (*count as f64 / total).powi(2))
        .sum::<f64>();
    let one_thing = said.iter().filter(|count| **count > 0).count() < 2;
    Some(Kappa {
        cases,
        agreed,
        kappa: (!one_thing).then(|| (agreed - by_chance) / (1.0 - by_chance)),
    })
}

/// Cohen's kappa of a table: how often the one said what stands for the row while the other said
/// what stands for the column.
pub fn cohen(table: &[Vec<u64>]) -> Option<Kappa> {
    let mut counts = BTreeMap::new();
    for (row, cells) in table.iter().enumerate() {
        for (column, count) in cells.iter().enumerate() {
            if *count > 0 {
                let category = |index: usize| Category::Number(index as u128);
                counts.insert((category(row), category(column)), *count);
            }
        }
    }
    of_two(&counts)
}

#[expect(
    clippy::cast_precision_loss,
    reason = "a coefficient is told to a few places"
)]
fn of_two(table: &BTreeMap<(Category, Category), u64>) -> Option<Kappa> {
    let cases: u64 = table.values().sum();
    if cases == 0 {
        return None;
    }
    let mut by_one: BTreeMap<&Category, u64> = BTreeMap::new();
    let mut by_other: BTreeMap<&Category, u64> = BTreeMap::new();
    let mut same = 0u64;
    for ((this, that), count) in table {
        *by_one.entry(this).or_default() += count;
        *by_other.entry(that).or_default() += count;
        if this == that {
            same += count;
        }
    }
    let total = cases as f64;
    let agreed = same as f64 / total;
    let chance = by_one.iter().map(|(category, count)| {
        let theirs = by_other.get(category).copied().unwrap_or(0);
        *count as f64 / total * (theirs as f64 / total)
    });
    let by_chance: f64 = chance.sum();
    let one_thing = by_one.len() == 1 && by_other.len() == 1 && same == cases;
    Some(Kappa {
        cases,
        agreed,
        kappa: (!one_thing).then(|| (agreed - by_chance) / (1.0 - by_chance)),
    })
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used, reason = "tests")]

    use super::*;

    /// The worked example of the encyclopedia article on Fleiss' kappa (ten subjects, fourteen
    /// raters, five categories; from memory): agreement 0.378, by chance 0.213, kappa 0.210.
    #[test]
    fn fleiss_kappa_comes_out_as_in_a_published_example() {
        let table = [
            [0, 0, 0, 0, 14],
            [0, 2, 6, 4, 2],
            [0, 0, 3, 5, 6],
            [0, 3, 9, 2, 0],
            [2, 2, 8, 1, 1],
            [7, 7, 0, 0, 0],
            [3, 2, 6, 3, 0],
            [2, 5, 3, 2, 2],
            [6, 5, 2, 1, 0],
            [0, 2, 2, 3, 7],
        ];
        let table: Vec<Vec<u64>> = table.iter().map(|row| row.to_vec()).collect();
        let found = fleiss(&table).unwrap();
        assert_eq!(found.cases, 10);
        assert!((found.agreed - 0.378).abs() < 0.0005, "{found:?}");
        assert!((found.kappa.unwrap() - 0.210).abs() < 0.0005, "{found:?}");
    }

    /// The worked examples of the encyclopedia article on Cohen's kappa (fifty proposals read by two;
    /// and two tables with the same agreement and another kappa; from memory): 0.4, 0.1304, 0.2593.
    #[test]
    fn cohens_kappa_comes_out_as_in_published_examples() {
        let kappa = |table: [[u64; 2]; 2]| {
            let table: Vec<Vec<u64>> = table.iter().map(|row| row.to_vec()).collect();
            cohen(&table).unwrap()
        };
        let proposals = kappa([[20, 5], [10, 15]]);
        assert!((proposals.agreed - 0.7).abs() < 1e-12);
        assert!((proposals.kappa.unwrap() - 0.4).abs() < 1e-12);
        let one = kappa([[45, 15], [25, 15]]);
        let other = kappa([[25, 35], [5, 35]]);
        assert!((one.agreed - other.agreed).abs() < 1e-12);
        assert!((one.kappa.unwrap() - 0.1304).abs() < 0.00005, "{one:?}");
        assert!((other.kappa.unwrap() - 0.2593).abs() < 0.00005, "{other:?}");
    }

    #[test]
    fn where_all_say_one_thing_there_is_no_coefficient() {
        assert_eq!(fleiss(&[vec![3, 0], vec![2, 0]]).unwrap().kappa, None);
        assert_eq!(cohen(&[vec![5, 0], vec![0, 0]]).unwrap().kappa, None);
        assert_eq!(fleiss(&[vec![1, 0]]), None);
        assert_eq!(cohen(&[]), None);
        // One who always says this and another who always says that do not agree at all.
        assert_eq!(cohen(&[vec![0, 5], vec![0, 0]]).unwrap().kappa, Some(0.0));
    }

    /// Two raters on every case: with the officials interchangeable, Fleiss' kappa is Scott's pi
    /// (Fleiss 1971 says so); of the proposals above (20, 5, 10, 15): chance is
    /// (55/100)^2 + (45/100)^2 = 0.505.
    #[test]
    fn of_two_officials_fleiss_kappa_takes_chance_from_both_together() {
        let mut table = vec![vec![2, 0]; 20];
        table.extend(vec![vec![1, 1]; 15]);
        table.extend(vec![vec![0, 2]; 15]);
        let found = fleiss(&table).unwrap();
        assert!((found.agreed - 0.7).abs() < 1e-12);
        let expected = (0.7 - 0.505) / (1.0 - 0.505);
        assert!((found.kappa.unwrap() - expected).abs() < 1e-12);
    }
}
