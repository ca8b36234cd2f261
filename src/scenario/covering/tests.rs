//! Covering sets against plain loops, and against the sizes of the smallest that are known.
#![allow(clippy::unwrap_used, reason = "tests")]

use super::*;

fn never() -> bool {
    false
}

/// A set without constraints, every combination recounted by a plain loop.
fn size(values: &[usize], strength: usize) -> usize {
    let problem = Problem {
        values: values.to_vec(),
        idle: vec![BTreeSet::new(); values.len()],
        strength,
    };
    let cover = cover(&problem, 1, &mut |_| Possible::Yes, &never).unwrap();
    assert_eq!(
        (cover.impossible.len(), cover.never, cover.unknown.len()),
        (0, 0, 0)
    );
    let mut expected = 0;
    each_combination(values, strength, &mut |tuple| {
        expected += 1;
        assert!(cover.rows.iter().any(|row| has(row, tuple)), "{tuple:?}");
    });
    assert_eq!(cover.covered, expected);
    cover.rows.len()
}

fn each_combination(values: &[usize], strength: usize, visit: &mut impl FnMut(&Tuple)) {
    fn go(
        values: &[usize],
        from: usize,
        left: usize,
        tuple: &mut Tuple,
        visit: &mut impl FnMut(&Tuple),
    ) {
        if left == 0 {
            visit(tuple);
            return;
        }
        for at in from..values.len() {
            for value in 0..values[at] {
                tuple.push((at, value));
                go(values, at + 1, left - 1, tuple, visit);
                tuple.pop();
            }
        }
    }
    go(values, 0, strength, &mut Vec::new(), visit);
}

/// Covering array numbers: Colbourn's tables of covering arrays, and for the small ones problem 45 of
/// `CSPLib` (covering arrays); numbers from memory. A generator that grows is held to at most half as
/// much again.
#[test]
fn sets_are_at_most_half_as_large_again_as_the_smallest_known() {
    for (values, strength, smallest) in [
        (vec![3; 4], 2, 9),
        (vec![2; 4], 3, 8),
        (vec![2; 5], 3, 10),
        (vec![2; 10], 2, 6),
        (vec![3; 5], 2, 11),
        (vec![3; 13], 2, 15),
    ] {
        let rows = size(&values, strength);
        assert!(
            rows >= smallest && rows * 2 <= smallest * 3,
            "{values:?} at {strength}: {rows} rows, smallest known {smallest}"
        );
    }
}

#[test]
fn strength_one_needs_as_many_rows_as_the_longest_list_has_values() {
    assert_eq!(size(&[2, 5, 3], 1), 5);
    assert_eq!(size(&[2, 2, 2, 2], 4), 16);
}

#[test]
fn what_need_not_be_covered_is_used_only_where_it_must_be() {
    // The second parameter is not asked (its value 0) unless the first is 1.
    let problem = Problem {
        values: vec![2, 3],
        idle: vec![BTreeSet::new(), BTreeSet::from([0])],
        strength: 2,
    };
    let valid = |row: &[usize]| (row[0] == 1) == (row[1] != 0);
    let mut possible = |tuple: &[(usize, usize)]| {
        let rows = (0..2).flat_map(|one| (0..3).map(move |other| [one, other]));
        let mut fitting =
            rows.filter(|row| valid(row) && tuple.iter().all(|(at, v)| row[*at] == *v));
        if fitting.next().is_some() {
            Possible::Yes
        } else {
            Possible::No
        }
    };
    let cover = cover(&problem, 1, &mut possible, &never).unwrap();
    assert_eq!(cover.covered, 2);
    assert_eq!(cover.never, 2);
    assert_eq!(
        cover.impossible,
        [vec![(0, 0), (1, 1)], vec![(0, 0), (1, 2)]]
    );
    assert_eq!(cover.rows.len(), 2);
}

#[test]
fn what_stayed_open_is_neither_covered_nor_called_impossible() {
    let problem = Problem {
        values: vec![2, 2],
        idle: vec![BTreeSet::new(); 2],
        strength: 2,
    };
    let mut possible = |tuple: &[(usize, usize)]| {
        if tuple.len() == 2 && tuple[0].1 == tuple[1].1 {
            Possible::Unknown
        } else {
            Possible::Yes
        }
    };
    let cover = cover(&problem, 1, &mut possible, &never).unwrap();
    assert_eq!(cover.unknown, [vec![(0, 0), (1, 0)], vec![(0, 1), (1, 1)]]);
    assert_eq!((cover.covered, cover.never), (2, 0));
    assert_eq!(cover.impossible, Vec::<Tuple>::new());
}

#[test]
fn the_same_seed_gives_the_same_rows() {
    let problem = Problem {
        values: vec![3, 3, 2, 4, 2],
        idle: vec![BTreeSet::new(); 5],
        strength: 2,
    };
    let made = |seed| cover(&problem, seed, &mut |_| Possible::Yes, &never).unwrap();
    assert_eq!(made(7), made(7));
    assert_ne!(made(7).rows, made(8).rows);
}

#[test]
fn it_ends_when_it_is_told_to() {
    let problem = Problem {
        values: vec![3; 6],
        idle: vec![BTreeSet::new(); 6],
        strength: 2,
    };
    let made = cover(&problem, 1, &mut |_| Possible::Yes, &|| true);
    assert_eq!(made, Err(Refusal::Stopped));
}
