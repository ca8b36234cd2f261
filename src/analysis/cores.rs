//! Why several things cannot be together: smallest sets that already rule each other out.
//!
//! The things are numbered; a judge says of some of them whether they conflict. What conflicts still
//! conflicts with more beside it. A *core* is a set that conflicts and none of whose parts could be
//! left out; a *correction* is a set that ends the conflict when it is left out, and none of whose
//! parts could be kept. Each is the smallest hitting sets of the other (Reiter, A theory of diagnosis
//! from first principles, Artificial Intelligence 32, 1987). All of both are found by looking at the
//! largest sets not yet spoken for (Liffiton, Previti, Malik and Marques-Silva, Fast, flexible MUS
//! enumeration, Constraints 21, 2016). What the things are, and how they are judged, is not known here.

use std::collections::BTreeSet;

/// Some of the things, by number.
pub(super) type Set = BTreeSet<usize>;

/// What a judge says of a set.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) enum Judged {
    /// It conflicts.
    Conflict,
    /// It does not; neither does this set, which contains it.
    Free(Set),
    /// It stayed undecided.
    Open,
}

/// The cores and corrections of some things.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) struct Cores {
    /// Sets that conflict, none of whose parts could be left out; the smallest first.
    pub(super) conflicts: Vec<Set>,
    /// Sets that end the conflict when left out, none of whose parts could be kept; the smallest first.
    pub(super) corrections: Vec<Set>,
    /// Whether these are all there are.
    pub(super) complete: bool,
}

/// How many steps a search for sets may take.
const MOST_STEPS: usize = 200_000;

/// All cores and corrections of `count` things, `most` of both together.
pub(super) fn all(count: usize, most: usize, mut judge: impl FnMut(&Set) -> Judged) -> Cores {
    let mut found = Cores {
        conflicts: Vec::new(),
        corrections: Vec::new(),
        complete: false,
    };
    while found.conflicts.len() + found.corrections.len() < most {
        let seed = match unexplored(count, &found) {
            Ok(Some(seed)) => seed,
            Ok(None) => {
                found.complete = true;
                break;
            }
            Err(TooLong) => break,
        };
        match judge(&seed) {
            Judged::Open => break,
            Judged::Conflict => match shrink(seed, &mut judge) {
                Some(core) => found.conflicts.push(core),
                None => break,
            },
            Judged::Free(free) => match grow(count, free, &mut judge) {
                Some(largest) => found.corrections.push(without(count, &largest)),
                None => break,
            },
        }
    }
    for list in [&mut found.conflicts, &mut found.corrections] {
        list.sort_by_key(|set| (set.len(), set.clone()));
    }
    found
}

/// A smallest set that conflicts, and whether it is known to be a smallest; `None` where the things
/// do not conflict, or it is not known whether they do.
pub(super) fn smallest(
    count: usize,
    rounds: usize,
    mut judge: impl FnMut(&Set) -> Judged,
) -> Option<(Set, bool)> {
    let mut to_hit: Vec<Set> = Vec::new();
    for _ in 0..rounds {
        let Ok(chosen) = smallest_hitting_set(&to_hit) else {
            break;
        };
        match judge(&chosen) {
            Judged::Conflict => return Some((chosen, true)),
            Judged::Open => break,
            Judged::Free(mut free) => {
                free.extend(&chosen);
                let rest = without(count, &free);
                // Nothing is left to be added: they do not conflict even all together.
                if rest.is_empty() {
                    return None;
                }
                to_hit.push(rest);
            }
        }
    }
    let everything: Set = (0..count).collect();
    match judge(&everything) {
        Judged::Conflict => {
            let core = shrink(everything.clone(), &mut judge);
            Some((core.unwrap_or(everything), false))
        }
        _ => None,
    }
}

/// Leaves out of a set that conflicts whatever can be left out, the last first.
fn shrink(mut set: Set, judge: &mut impl FnMut(&Set) -> Judged) -> Option<Set> {
    for part in set.clone().into_iter().rev() {
        set.remove(&part);
        match judge(&set) {
            Judged::Conflict => {}
            Judged::Free(_) => {
                set.insert(part);
            }
            Judged::Open => return None,
        }
    }
    Some(set)
}

/// Adds to a set that does not conflict whatever can be added, the first first.
fn grow(count: usize, mut set: Set, judge: &mut impl FnMut(&Set) -> Judged) -> Option<Set> {
    for part in 0..count {
        if !set.insert(part) {
            continue;
        }
        match judge(&set) {
            Judged::Conflict => {
                set.remove(&part);
            }
            Judged::Free(free) => set.extend(free),
            Judged::Open => return None,
        }
    }
    Some(set)
}

/// The things that are not in a set.
fn without(count: usize, set: &Set) -> Set {
    (0..count).filter(|part| !set.contains(part)).collect()
}

/// A search took more steps than were allowed.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
struct TooLong;

/// A largest set that contains no core and leaves something of every correction in: nothing is known
/// of it yet. `None` where there is no such set.
fn unexplored(count: usize, found: &Cores) -> Result<Option<Set>, TooLong> {
    fn decide(
        open: &[usize],
        chosen: &Set,
        left_out: &Set,
        found: &Cores,
        steps: &mut usize,
    ) -> Result<Option<Set>, TooLong> {
        *steps = steps.checked_sub(1).ok_or(TooLong)?;
        let mut conflicts = found.conflicts.iter();
        let mut corrections = found.corrections.iter();
        let spoken_for = conflicts.any(|core| core.is_subset(chosen))
            || corrections.any(|correction| correction.is_subset(left_out));
        if spoken_for {
            return Ok(None);
        }
        let Some((next, rest)) = open.split_first() else {
            return Ok(Some(chosen.clone()));
        };
        let mut more = chosen.clone();
        more.insert(*next);
        if let Some(set) = decide(rest, &more, left_out, found, steps)? {
            return Ok(Some(set));
        }
        let mut fewer = left_out.clone();
        fewer.insert(*next);
        decide(rest, chosen, &fewer, found, steps)
    }
    let open: Vec<usize> = (0..count).collect();
    let mut steps = MOST_STEPS;
    decide(&open, &Set::new(), &Set::new(), found, &mut steps)
}

/// A smallest set that has something in common with each.
fn smallest_hitting_set(sets: &[Set]) -> Result<Set, TooLong> {
    fn within(
        sets: &[Set],
        size: usize,
        chosen: &Set,
        steps: &mut usize,
    ) -> Result<Option<Set>, TooLong> {
        *steps = steps.checked_sub(1).ok_or(TooLong)?;
        let Some(open) = sets.iter().find(|set| set.is_disjoint(chosen)) else {
            return Ok(Some(chosen.clone()));
        };
        if size == 0 {
            return Ok(None);
        }
        for next in open {
            let mut more = chosen.clone();
            more.insert(*next);
            if let Some(found) = within(sets, size - 1, &more, steps)? {
                return Ok(Some(found));
            }
        }
        Ok(None)
    }
    let mut steps = MOST_STEPS;
    for size in 0..=sets.len() {
        if let Some(found) = within(sets, size, &Set::new(), &mut steps)? {
            return Ok(found);
        }
    }
    // One of the sets is empty: nothing hits it.
    Err(TooLong)
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used, reason = "tests")]

    use super::*;

    fn set(parts: &[usize]) -> Set {
        parts.iter().copied().collect()
    }

    /// A judge of clauses over two letters: each is a list of literals, `2 * letter + negated`.
    fn judge(clauses: &[&[usize]], asked: &Set) -> Judged {
        let holds = |world: usize, clause: &[usize]| {
            clause
                .iter()
                .any(|literal| (world >> (literal / 2) & 1 == 1) != (literal % 2 == 1))
        };
        let all_hold = |set: &Set, world| set.iter().all(|index| holds(world, clauses[*index]));
        let Some(world) = (0..8).find(|world| all_hold(asked, *world)) else {
            return Judged::Conflict;
        };
        let free = (0..clauses.len()).filter(|index| holds(world, clauses[*index]));
        Judged::Free(free.collect())
    }

    /// Liffiton and others, Constraints 21, 2016, the example that runs through the paper.
    #[test]
    fn the_published_example() {
        let (a, not_a, b, not_b) = (0, 1, 2, 3);
        let clauses: [&[usize]; 5] = [&[a], &[not_a], &[b], &[not_b], &[a, b]];
        let found = all(5, 100, |asked| judge(&clauses, asked));
        assert!(found.complete);
        assert_eq!(
            found.conflicts,
            [set(&[0, 1]), set(&[2, 3]), set(&[1, 3, 4])]
        );
        assert_eq!(found.corrections.len(), 4);
        // The corrections are the minimal hitting sets of the cores, all of them, by trying each set.
        let hits = |candidate: &Set| {
            found
                .conflicts
                .iter()
                .all(|core| !core.is_disjoint(candidate))
        };
        let mut hitting: Vec<Set> = (0u32..32)
            .map(|bits| (0..5).filter(|part| bits >> part & 1 == 1).collect())
            .filter(hits)
            .collect();
        let all_hitting = hitting.clone();
        hitting.retain(|one| {
            all_hitting
                .iter()
                .all(|other| other == one || !other.is_subset(one))
        });
        hitting.sort_by_key(|set| (set.len(), set.clone()));
        assert_eq!(found.corrections, hitting);
        let (core, known) = smallest(5, 100, |asked| judge(&clauses, asked)).unwrap();
        assert!(known);
        assert_eq!(core.len(), 2);
    }

    #[test]
    fn cores_equal_those_of_trying_every_set() {
        // Clauses over three letters from a run of numbers that is the same every time.
        let mut state = 7u64;
        let mut next = || {
            state = state
                .wrapping_mul(6_364_136_223_846_793_005)
                .wrapping_add(1);
            usize::try_from(state >> 33).unwrap()
        };
        let mut conflicts = 0;
        for _ in 0..60 {
            let clauses: Vec<Vec<usize>> = (0..7)
                .map(|_| (0..=next() % 2).map(|_| next() % 6).collect())
                .collect();
            let clauses: Vec<&[usize]> = clauses.iter().map(Vec::as_slice).collect();
            let subsets: Vec<Set> = (0u32..128)
                .map(|bits| (0..7).filter(|part| bits >> part & 1 == 1).collect())
                .collect();
            let conflicting: Vec<&Set> = subsets
                .iter()
                .filter(|set| judge(&clauses, set) == Judged::Conflict)
                .collect();
            let mut cores: Vec<Set> = conflicting
                .iter()
                .filter(|set| {
                    let smaller = |other: &&&Set| **other != **set && other.is_subset(set);
                    !conflicting.iter().any(|other| smaller(&other))
                })
                .map(|set| (*set).clone())
                .collect();
            cores.sort_by_key(|set| (set.len(), set.clone()));
            let found = all(7, 1_000, |asked| judge(&clauses, asked));
            assert!(found.complete);
            assert_eq!(found.conflicts, cores);
            let least = smallest(7, 1_000, |asked| judge(&clauses, asked));
            assert_eq!(
                least.map(|(set, known)| (set.len(), known)),
                cores.first().map(|set| (set.len(), true))
            );
            conflicts += cores.len();
        }
        assert!(conflicts > 60, "{conflicts}");
    }

    #[test]
    fn hitting_sets_are_smallest() {
        let check = |sets: &[&[usize]], expected: usize| {
            let sets: Vec<_> = sets.iter().map(|parts| set(parts)).collect();
            let found = smallest_hitting_set(&sets).unwrap();
            assert_eq!(found.len(), expected, "{sets:?}");
            assert!(sets.iter().all(|set| !found.is_disjoint(set)));
        };
        check(&[], 0);
        check(&[&[1, 2], &[2, 3]], 1);
        check(&[&[1, 2], &[3, 4], &[2, 3]], 2);
        check(&[&[1], &[2], &[3]], 3);
    }

    #[test]
    fn what_stays_undecided_is_not_called_all() {
        let open = all(3, 100, |_| Judged::Open);
        assert!(!open.complete && open.conflicts.is_empty());
        assert_eq!(smallest(3, 100, |_| Judged::Open), None);
        let free = all(3, 100, |_| Judged::Free(Set::new()));
        assert!(free.complete, "{free:?}");
        assert!(free.conflicts.is_empty());
    }
}
