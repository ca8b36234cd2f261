//! Covering sets: few rows in which every combination of so many values occurs that can.
//!
//! Rows grow parameter by parameter: first each row is given the value that covers most, then rows
//! are added for what is left (Lei and Tai, In-parameter-order: a test generation strategy for
//! pairwise testing, HASE 1998; Lei, Kacker, Kuhn, Okun and Lawrence, IPOG: a general strategy for
//! t-way software testing, ECBS 2007). What can occur together is for the caller to say; here are
//! only numbers. What cannot occur is asked for and kept, never guessed.

use oorandom::Rand64;
use std::collections::{BTreeMap, BTreeSet};

/// Values of some parameters: parameter and value, in the order of parameters.
pub type Tuple = Vec<(usize, usize)>;

/// Says whether a row can have some values.
pub type Oracle<'o> = dyn FnMut(&[(usize, usize)]) -> Possible + 'o;

/// What is known of a combination of values.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Possible {
    /// Some row has it.
    Yes,
    /// None has.
    No,
    /// It stayed open.
    Unknown,
}

/// What is to be covered.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Problem {
    /// For each parameter, how many values it has.
    pub values: Vec<usize>,
    /// For each parameter, the values that need not be covered (that something isn't asked, say).
    pub idle: Vec<BTreeSet<usize>>,
    /// How many values are to occur together.
    pub strength: usize,
}

/// A covering set.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Cover {
    /// The rows; a value that nothing needs is `None`.
    pub rows: Vec<Vec<Option<usize>>>,
    /// How many combinations occur in them.
    pub covered: usize,
    /// The combinations that cannot occur, the smallest only: none of them contains another.
    pub impossible: Vec<Tuple>,
    /// How many combinations of the strength asked for cannot occur.
    pub never: usize,
    /// The combinations of which it stayed open.
    pub unknown: Vec<Tuple>,
}

/// Why no covering set is made.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Refusal {
    /// There are more combinations than are sensible: so many, at least.
    TooMany(usize),
    /// The time is used up.
    Stopped,
}

/// The most combinations that a set is made for.
pub const MOST_COMBINATIONS: usize = 3_000_000;

/// How many orders are tried; the smallest set is taken.
const TRIES: usize = 12;

/// About how many combinations are worth one further order to try.
const WORTH_ANOTHER: usize = 30_000;

/// Makes a covering set. `possible` is told some values and says whether a row can have them all;
/// `stopped` says when to give up.
///
/// # Errors
/// [`Refusal`] where there are too many combinations, or the time is used up.
pub fn cover(
    problem: &Problem,
    seed: u64,
    possible: &mut Oracle<'_>,
    stopped: &dyn Fn() -> bool,
) -> Result<Cover, Refusal> {
    let targets = Targets::of(problem, possible, stopped)?;
    let mut random = Rand64::new(u128::from(seed));
    let tries = (WORTH_ANOTHER / targets.wanted.len().max(1)).clamp(1, TRIES);
    let mut best: Option<Vec<Vec<Option<usize>>>> = None;
    for attempt in 0..tries {
        let order = order(problem, attempt, &mut random);
        let rows = Growth {
            problem,
            targets: &targets,
            possible,
            random: &mut random,
        }
        .grow(&order, stopped)?;
        if best.as_ref().is_none_or(|best| rows.len() < best.len()) {
            best = Some(rows);
        }
    }
    Ok(Cover {
        rows: best.unwrap_or_default(),
        covered: targets.wanted.len(),
        impossible: targets.impossible,
        never: targets.never,
        unknown: targets.unknown,
    })
}

/// Parameters with many values first; among equals in the order given, later by chance.
fn order(problem: &Problem, attempt: usize, random: &mut Rand64) -> Vec<usize> {
    let mut order: Vec<usize> = (0..problem.values.len()).collect();
    if attempt > 0 {
        shuffle(&mut order, random);
    }
    let values = |at: &usize| problem.values.get(*at).copied().unwrap_or(0);
    order.sort_by_key(|at| std::cmp::Reverse(values(at)));
    order
}

/// Puts a list into an order by chance.
pub(crate) fn shuffle<T>(list: &mut [T], random: &mut Rand64) {
    for index in (1..list.len()).rev() {
        let other = random.rand_range(0..index as u64 + 1);
        list.swap(index, usize::try_from(other).unwrap_or(0));
    }
}

/// The combinations that are to occur.
struct Targets {
    wanted: BTreeSet<Tuple>,
    impossible: Vec<Tuple>,
    never: usize,
    unknown: Vec<Tuple>,
}

impl Targets {
    fn of(
        problem: &Problem,
        possible: &mut Oracle<'_>,
        stopped: &dyn Fn() -> bool,
    ) -> Result<Targets, Refusal> {
        let mut known = Targets {
            wanted: BTreeSet::from([Vec::new()]),
            impossible: Vec::new(),
            never: 0,
            unknown: Vec::new(),
        };
        // Size by size, so that what cannot occur is not looked at again with more beside it.
        for size in 1..=problem.strength.min(problem.values.len()) {
            let mut larger = BTreeSet::new();
            for tuple in &known.wanted {
                if stopped() {
                    return Err(Refusal::Stopped);
                }
                let first = tuple.last().map_or(0, |(at, _)| at + 1);
                for at in first..problem.values.len() {
                    let values = problem.values.get(at).copied().unwrap_or(0);
                    let idle = problem.idle.get(at);
                    for value in 0..values {
                        if idle.is_some_and(|idle| idle.contains(&value)) {
                            continue;
                        }
                        let mut grown = tuple.clone();
                        grown.push((at, value));
                        // What contains an impossible combination is impossible, and no news.
                        if !without_one(&grown).all(|part| known.wanted.contains(&part)) {
                            continue;
                        }
                        match possible(&grown) {
                            Possible::Yes => {
                                larger.insert(grown);
                            }
                            Possible::No => known.impossible.push(grown),
                            Possible::Unknown => known.unknown.push(grown),
                        }
                        if larger.len() > MOST_COMBINATIONS {
                            return Err(Refusal::TooMany(larger.len()));
                        }
                    }
                }
            }
            let _ = size;
            known.wanted = larger;
        }
        let all = combinations(problem);
        known.never = all
            .saturating_sub(known.wanted.len())
            .saturating_sub(known.unknown.len());
        Ok(known)
    }
}

/// The combination with each of its values but the last left out in turn (without the last it is
/// known already).
fn without_one(tuple: &[(usize, usize)]) -> impl Iterator<Item = Tuple> {
    (0..tuple.len().saturating_sub(1)).map(|gone| {
        let kept = tuple.iter().enumerate().filter(|(at, _)| *at != gone);
        kept.map(|(_, value)| *value).collect()
    })
}

/// How many combinations there are, possible or not.
fn combinations(problem: &Problem) -> usize {
    let sizes =
        problem.values.iter().enumerate().map(|(at, values)| {
            values.saturating_sub(problem.idle.get(at).map_or(0, BTreeSet::len))
        });
    let strength = problem.strength.min(problem.values.len());
    // counts[k]: combinations of k parameters among those seen so far.
    let mut counts = vec![0usize; strength + 1];
    if let Some(none) = counts.first_mut() {
        *none = 1;
    }
    for size in sizes {
        for k in (1..=strength).rev() {
            let fewer = counts.get(k - 1).copied().unwrap_or(0);
            if let Some(slot) = counts.get_mut(k) {
                *slot = slot.saturating_add(fewer.saturating_mul(size));
            }
        }
    }
    counts.last().copied().unwrap_or(0)
}

/// Rows that grow.
struct Growth<'g, 'o> {
    problem: &'g Problem,
    targets: &'g Targets,
    possible: &'g mut Oracle<'o>,
    random: &'g mut Rand64,
}

type Row = Vec<Option<usize>>;

impl Growth<'_, '_> {
    fn grow(&mut self, order: &[usize], stopped: &dyn Fn() -> bool) -> Result<Vec<Row>, Refusal> {
        let place: BTreeMap<usize, usize> = order
            .iter()
            .enumerate()
            .map(|(place, at)| (*at, place))
            .collect();
        // By the parameter that comes last in this order.
        let mut by_last: BTreeMap<usize, BTreeSet<Tuple>> = BTreeMap::new();
        for tuple in &self.targets.wanted {
            let last = tuple
                .iter()
                .map(|(at, _)| *at)
                .max_by_key(|at| place.get(at));
            by_last
                .entry(last.unwrap_or(0))
                .or_default()
                .insert(tuple.clone());
        }
        let mut rows: Vec<Row> = Vec::new();
        let mut settled: Vec<usize> = Vec::new();
        for at in order {
            let mut open = by_last.remove(at).unwrap_or_default();
            for row in &mut rows {
                if stopped() {
                    return Err(Refusal::Stopped);
                }
                self.extend(row, *at, &settled, &mut open);
            }
            while let Some(tuple) = open.pop_first() {
                if stopped() {
                    return Err(Refusal::Stopped);
                }
                self.place(&mut rows, &tuple, &mut open);
            }
            settled.push(*at);
        }
        Ok(self.without_needless(rows))
    }

    /// Gives a row the value of a parameter that covers most.
    fn extend(&mut self, row: &mut Row, at: usize, settled: &[usize], open: &mut BTreeSet<Tuple>) {
        let values = self.problem.values.get(at).copied().unwrap_or(0);
        let mut best: Vec<(usize, Vec<Tuple>)> = Vec::new();
        for value in 0..values {
            let covered = self.covered_by(row, at, value, settled, open);
            if covered.is_empty()
                || best
                    .first()
                    .is_some_and(|(_, most)| most.len() > covered.len())
            {
                continue;
            }
            if !self.fits(row, &[(at, value)]) {
                continue;
            }
            if best
                .first()
                .is_some_and(|(_, most)| most.len() < covered.len())
            {
                best.clear();
            }
            best.push((value, covered));
        }
        if best.is_empty() {
            return;
        }
        let chosen = self.random.rand_range(0..best.len() as u64);
        let chosen = usize::try_from(chosen).unwrap_or(0);
        if let Some((value, covered)) = best.into_iter().nth(chosen) {
            if let Some(slot) = row.get_mut(at) {
                *slot = Some(value);
            }
            for tuple in covered {
                open.remove(&tuple);
            }
        }
    }

    /// The open combinations that a row covers with a value of a parameter.
    fn covered_by(
        &self,
        row: &Row,
        at: usize,
        value: usize,
        settled: &[usize],
        open: &BTreeSet<Tuple>,
    ) -> Vec<Tuple> {
        let known: Vec<(usize, usize)> = settled
            .iter()
            .filter_map(|other| Some((*other, row.get(*other).copied().flatten()?)))
            .collect();
        let mut found = Vec::new();
        let others = self.problem.strength.saturating_sub(1);
        choose(&known, others, &mut Vec::new(), &mut |chosen| {
            let mut tuple: Tuple = chosen.to_vec();
            tuple.push((at, value));
            tuple.sort_unstable();
            if open.contains(&tuple) {
                found.push(tuple);
            }
        });
        found
    }

    fn fits(&mut self, row: &Row, added: &[(usize, usize)]) -> bool {
        let set = row.iter().enumerate();
        let mut all: Tuple = set
            .filter_map(|(at, value)| Some((at, (*value)?)))
            .collect();
        all.extend(
            added
                .iter()
                .filter(|one| !row.get(one.0).is_some_and(Option::is_some)),
        );
        all.sort_unstable();
        (self.possible)(&all) == Possible::Yes
    }

    /// Puts a combination into a row that can take it, the one with most in common, or into a new one.
    fn place(&mut self, rows: &mut Vec<Row>, tuple: &Tuple, open: &mut BTreeSet<Tuple>) {
        let common = |row: &Row| {
            let mut common = 0usize;
            for (at, value) in tuple {
                match row.get(*at).copied().flatten() {
                    Some(set) if set == *value => common += 1,
                    Some(_) => return None,
                    None => {}
                }
            }
            Some(common)
        };
        let mut can: Vec<(usize, usize)> = rows
            .iter()
            .enumerate()
            .filter_map(|(index, row)| Some((common(row)?, index)))
            .collect();
        can.sort_by_key(|(common, index)| (std::cmp::Reverse(*common), *index));
        let found = can
            .into_iter()
            .find(|(_, index)| rows.get(*index).is_some_and(|row| self.fits(row, tuple)));
        let index = found.map_or_else(
            || {
                rows.push(vec![None; self.problem.values.len()]);
                rows.len() - 1
            },
            |(_, index)| index,
        );
        if let Some(row) = rows.get_mut(index) {
            for (at, value) in tuple {
                if let Some(slot) = row.get_mut(*at) {
                    *slot = Some(*value);
                }
            }
            let row = &*row;
            open.retain(|other| !has(row, other));
        }
    }

    /// Leaves out rows all of whose combinations occur in others, the emptiest first.
    fn without_needless(&self, rows: Vec<Row>) -> Vec<Row> {
        const MOST_COUNTED: usize = 400_000;
        if rows.len().saturating_mul(self.targets.wanted.len()) > MOST_COUNTED * 16 {
            return rows;
        }
        let mut counted: BTreeMap<&Tuple, usize> = BTreeMap::new();
        let mut of_row: Vec<Vec<&Tuple>> = Vec::new();
        for row in &rows {
            let inside = self.targets.wanted.iter().filter(|tuple| has(row, tuple));
            let inside: Vec<&Tuple> = inside.collect();
            for tuple in &inside {
                *counted.entry(tuple).or_default() += 1;
            }
            of_row.push(inside);
        }
        let mut kept: Vec<Row> = Vec::new();
        for (row, inside) in rows.into_iter().zip(of_row) {
            let needless = inside
                .iter()
                .all(|tuple| counted.get(tuple).is_some_and(|times| *times > 1));
            if needless {
                for tuple in inside {
                    if let Some(times) = counted.get_mut(tuple) {
                        *times -= 1;
                    }
                }
            } else {
                kept.push(row);
            }
        }
        kept
    }
}

/// Whether a row has a combination.
fn has(row: &Row, tuple: &Tuple) -> bool {
    tuple
        .iter()
        .all(|(at, value)| row.get(*at).copied().flatten() == Some(*value))
}

/// Visits every choice of so many items.
fn choose(
    items: &[(usize, usize)],
    count: usize,
    chosen: &mut Tuple,
    visit: &mut impl FnMut(&[(usize, usize)]),
) {
    if count == 0 {
        visit(chosen);
        return;
    }
    for (index, item) in items.iter().enumerate() {
        if items.len() - index < count {
            return;
        }
        chosen.push(*item);
        let rest = items.get(index + 1..).unwrap_or_default();
        choose(rest, count - 1, chosen, visit);
        chosen.pop();
    }
}

#[cfg(test)]
mod tests;
