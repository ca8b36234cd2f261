//! Clauses, the words of their variables, and refutations, as files and back.
//!
//! Clauses are DIMACS CNF, refutations DRAT in its text form, both as the yearly competitions of solvers
//! use them. The words stand in a file of their own, one variable a line. What they mean is not known
//! here.

use std::collections::BTreeMap;
use std::fmt::Write;

/// The most variables that a file may have: more than any that this program writes, few enough to hold.
const MOST_VARIABLES: i32 = 1 << 24;

/// Clauses over variables that have words. Variables count from one, a negative number is the contrary.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Cnf {
    /// What each variable is called, from variable 1 on.
    pub words: Vec<String>,
    /// The clauses.
    pub clauses: Vec<Vec<i32>>,
}

impl Cnf {
    /// Adds a variable.
    pub fn variable(&mut self, words: String) -> i32 {
        self.words.push(words);
        i32::try_from(self.words.len()).unwrap_or(i32::MAX)
    }

    /// Adds a clause.
    pub fn add(&mut self, clause: Vec<i32>) {
        self.clauses.push(clause);
    }

    /// What a literal says.
    pub fn literal_words(&self, literal: i32) -> String {
        let index = usize::try_from(literal.unsigned_abs()).unwrap_or(usize::MAX);
        let words = index.checked_sub(1).and_then(|index| self.words.get(index));
        let words = words.map_or("?", String::as_str);
        if literal < 0 {
            format!("not {words}")
        } else {
            words.to_owned()
        }
    }

    /// What a clause says.
    pub fn clause_words(&self, clause: &[i32]) -> String {
        if clause.is_empty() {
            return "nothing at all".to_owned();
        }
        let parts: Vec<String> = clause
            .iter()
            .map(|literal| self.literal_words(*literal))
            .collect();
        parts.join(" or ")
    }

    /// The clauses as DIMACS CNF, with what they are about as comments.
    pub fn to_dimacs(&self, comment: &str) -> String {
        let mut text = String::new();
        for line in comment.lines() {
            let _ = writeln!(text, "c {line}");
        }
        let _ = writeln!(text, "p cnf {} {}", self.words.len(), self.clauses.len());
        for clause in &self.clauses {
            for literal in clause {
                let _ = write!(text, "{literal} ");
            }
            text.push_str("0\n");
        }
        text
    }

    /// The words of the variables, a line each: the number, a space, the words.
    pub fn to_words(&self) -> String {
        let mut text = String::new();
        for (words, number) in self.words.iter().zip(1..) {
            let _ = writeln!(text, "{number} {words}");
        }
        text
    }

    /// Reads both files back.
    ///
    /// # Errors
    /// Says in words which line is not as it should be: every variable has one line of words, no two
    /// the same, and the head of the clauses counts what follows.
    pub fn read(dimacs: &str, words: &str) -> Result<Cnf, String> {
        let mut cnf = Cnf::default();
        let mut seen: BTreeMap<&str, usize> = BTreeMap::new();
        for (line, number) in words.lines().zip(1usize..) {
            let said = line.split_once(' ');
            let said = said.filter(|(own, words)| *own == number.to_string() && !words.is_empty());
            let Some((_, said)) = said else {
                return Err(format!(
                    "words, line {number}: `{number} WORDS` was expected"
                ));
            };
            if let Some(other) = seen.insert(said, number) {
                return Err(format!(
                    "words, line {number}: variable {other} is called that already"
                ));
            }
            cnf.words.push(said.to_owned());
        }
        let variables = i32::try_from(cnf.words.len()).unwrap_or(i32::MAX);
        if variables > MOST_VARIABLES {
            return Err("there are too many variables".to_owned());
        }
        let mut head: Option<(usize, usize)> = None;
        for (line, number) in dimacs.lines().zip(1usize..) {
            let wrong = |what: &str| Err(format!("clauses, line {number}: {what}"));
            if line.starts_with('c') && head.is_none() {
                continue;
            }
            if head.is_none() {
                let counts = line
                    .strip_prefix("p cnf ")
                    .and_then(|rest| rest.split_once(' '));
                let counts = counts.and_then(|(variables, clauses)| {
                    Some((variables.parse().ok()?, clauses.parse().ok()?))
                });
                match counts {
                    Some(counts) => head = Some(counts),
                    None => return wrong("`p cnf VARIABLES CLAUSES` was expected"),
                }
                continue;
            }
            match literals(line, variables) {
                Some(clause) => cnf.clauses.push(clause),
                None => return wrong("literals of the variables and a 0 at the end were expected"),
            }
        }
        match head {
            Some(counts) if counts == (cnf.words.len(), cnf.clauses.len()) => Ok(cnf),
            Some(_) => Err("clauses: the head counts other than what is there".to_owned()),
            None => Err("clauses: there is no head".to_owned()),
        }
    }
}

/// One line of literals that ends in 0, of variables up to this one.
fn literals(line: &str, variables: i32) -> Option<Vec<i32>> {
    let mut numbers = line.split(' ').map(str::parse::<i32>);
    let mut clause = Vec::new();
    loop {
        match numbers.next()?.ok()? {
            0 => return numbers.next().is_none().then_some(clause),
            literal if literal.unsigned_abs() <= variables.unsigned_abs() => clause.push(literal),
            _ => return None,
        }
    }
}

/// One step of a refutation.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Step {
    /// This clause may be added without losing an answer.
    Add(Vec<i32>),
    /// This clause is no longer used.
    Drop(Vec<i32>),
}

/// Steps as DRAT in its text form.
pub fn refutation_text(steps: &[Step]) -> String {
    let mut text = String::new();
    for step in steps {
        let clause = match step {
            Step::Add(clause) => clause,
            Step::Drop(clause) => {
                text.push_str("d ");
                clause
            }
        };
        for literal in clause {
            let _ = write!(text, "{literal} ");
        }
        text.push_str("0\n");
    }
    text
}

/// Reads steps back; `variables` is how many the clauses have.
///
/// # Errors
/// Says in words which line is no step.
pub fn read_refutation(text: &str, variables: usize) -> Result<Vec<Step>, String> {
    let variables = i32::try_from(variables).unwrap_or(i32::MAX);
    let mut steps = Vec::new();
    for (line, number) in text.lines().zip(1usize..) {
        let (dropped, rest) = match line.strip_prefix("d ") {
            Some(rest) => (true, rest),
            None => (false, line),
        };
        let Some(clause) = literals(rest, variables) else {
            return Err(format!(
                "refutation, line {number}: literals of the variables and a 0 at the end were expected"
            ));
        };
        steps.push(if dropped {
            Step::Drop(clause)
        } else {
            Step::Add(clause)
        });
    }
    Ok(steps)
}
