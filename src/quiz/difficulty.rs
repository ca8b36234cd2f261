//! How hard a question is, and why.
//!
//! Points are given for what has to be kept in mind; nobody was examined for them.

use std::fmt;

/// How hard a question is.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Level {
    /// Up to 2 points.
    Easy,
    /// 3 to 5 points.
    Medium,
    /// 6 points or more.
    Hard,
}

impl fmt::Display for Level {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(match self {
            Level::Easy => "easy",
            Level::Medium => "medium",
            Level::Hard => "hard",
        })
    }
}

/// Something that makes a question harder.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Strain {
    /// So many clauses that rule on what is asked are met at once.
    ClausesMet(usize),
    /// So many clauses are met and give way to others.
    Exceptions(usize),
    /// The ruling rests on so many other rulings.
    Chain(usize),
    /// So many facts have to be weighed.
    Facts(usize),
    /// A number or a degree is one step from where the ruling turns.
    OneStep,
    /// A fact changes and the ruling doesn't.
    NoChange,
    /// So many facts are for an official to judge.
    Judged(usize),
    /// A word can be read either way.
    OpenWord,
}

impl Strain {
    /// How many points it counts; none where it is nothing out of the way. More of it never counts less.
    pub fn points(self) -> u32 {
        match self {
            Strain::ClausesMet(clauses) => match clauses {
                0 | 1 => 0,
                2 | 3 => 1,
                _ => 2,
            },
            Strain::Exceptions(exceptions) => match exceptions {
                0 => 0,
                1 => 2,
                _ => 3,
            },
            Strain::Chain(rulings) | Strain::Judged(rulings) => u32::from(rulings > 0),
            Strain::Facts(facts) => match facts {
                0..=4 => 0,
                5..=8 => 1,
                _ => 2,
            },
            Strain::OneStep | Strain::NoChange => 1,
            Strain::OpenWord => 3,
        }
    }
}

impl fmt::Display for Strain {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Strain::ClausesMet(clauses) => {
                write!(f, "{clauses} clauses that rule on it are met at once")
            }
            Strain::Exceptions(1) => f.write_str("one clause is met and gives way to another"),
            Strain::Exceptions(clauses) => {
                write!(f, "{clauses} clauses are met and give way to others")
            }
            Strain::Chain(1) => f.write_str("the ruling rests on another ruling"),
            Strain::Chain(rulings) => write!(f, "the ruling rests on {rulings} other rulings"),
            Strain::Facts(facts) => write!(f, "{facts} facts have to be weighed"),
            Strain::OneStep => f.write_str("it is one step from where the ruling turns"),
            Strain::NoChange => f.write_str("a fact changes and the ruling does not"),
            Strain::Judged(1) => f.write_str("one fact is for an official to judge"),
            Strain::Judged(facts) => write!(f, "{facts} facts are for an official to judge"),
            Strain::OpenWord => f.write_str("a word can be read either way"),
        }
    }
}

/// How hard a question is, and why.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Difficulty {
    strains: Vec<Strain>,
}

impl Difficulty {
    /// Made of what makes it harder.
    pub fn new(strains: impl IntoIterator<Item = Strain>) -> Self {
        let strains = strains.into_iter().filter(|strain| strain.points() > 0);
        Difficulty {
            strains: strains.collect(),
        }
    }

    /// What makes it harder, each with at least one point.
    pub fn strains(&self) -> &[Strain] {
        &self.strains
    }

    /// All points together.
    pub fn points(&self) -> u32 {
        self.strains.iter().map(|strain| strain.points()).sum()
    }

    /// How hard it is.
    pub fn level(&self) -> Level {
        match self.points() {
            0..=2 => Level::Easy,
            3..=5 => Level::Medium,
            _ => Level::Hard,
        }
    }
}

impl fmt::Display for Difficulty {
    /// `hard: 2 clauses are met and give way to others; a fact changes and the ruling does not`.
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let reasons: Vec<String> = self.strains.iter().map(ToString::to_string).collect();
        match reasons.as_slice() {
            [] => write!(
                f,
                "{}: few facts decide, and no more than one clause",
                self.level()
            ),
            reasons => write!(f, "{}: {}", self.level(), reasons.join("; ")),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::{Difficulty, Strain};

    #[test]
    fn more_of_anything_never_makes_it_easier() {
        let kinds: [fn(usize) -> Strain; 5] = [
            Strain::ClausesMet,
            Strain::Exceptions,
            Strain::Chain,
            Strain::Facts,
            Strain::Judged,
        ];
        for kind in kinds {
            for number in 0..20 {
                assert!(kind(number).points() <= kind(number + 1).points());
            }
            assert_eq!(kind(0).points(), 0);
            assert!(kind(20).points() > 0);
        }
        let mut strains = Vec::new();
        let mut before = Difficulty::new([]);
        for strain in [
            Strain::OneStep,
            Strain::Exceptions(1),
            Strain::Facts(6),
            Strain::NoChange,
            Strain::OpenWord,
        ] {
            strains.push(strain);
            let now = Difficulty::new(strains.clone());
            assert!(now.points() > before.points() && now.level() >= before.level());
            assert!(now.strains().contains(&strain));
            before = now;
        }
        assert_eq!(before.to_string().split(':').next(), Some("hard"));
    }
}
