//! Few lines that cover a set.
//!
//! First the line is taken, again and again, that covers most of what is left. Then a bound is
//! looked for: scenarios of which no two lie within one line need a line each. Where the two numbers
//! differ, covers of fewer lines are tried, one scenario after the other, until there is one or until
//! it has been tried long enough (the covering step of E. J. `McCluskey`, Minimization of Boolean functions,
//! Bell System Technical Journal 35, 1956).

use super::widen::Widening;
use super::{Line, Wanted};
use crate::logic::diagram::{Diagrams, Set, TooLarge};
use std::collections::BTreeMap;
use std::rc::Rc;

/// How many choices of a line are tried to find a smaller cover.
const MOST_CHOICES: usize = 1_500;

/// Covers of more lines than this are left as they are.
const MOST_IMPROVED: usize = 12;

/// Nodes that may be made to find a smaller cover, and shorter lines.
const FAVOUR: usize = 1_000_000;

/// Lines that were chosen.
pub(super) struct Chosen {
    pub(super) lines: Vec<Line>,
    /// So many are needed at least.
    pub(super) needed: usize,
}

/// A line, with what it covers of the set.
struct Prime {
    line: Line,
    covered: Set,
    length: Length,
}

/// Lines that together cover a set.
type Cover = Vec<Rc<Prime>>;

/// How much has to be read: parts, those that nobody expects twice; cells; characters.
type Length = (usize, usize, usize);

/// The lines around one scenario, and whether they are all.
struct Primes {
    primes: Vec<Rc<Prime>>,
    all: bool,
}

struct Covering<'d, 'r, 'v> {
    diagrams: &'d mut Diagrams<'r>,
    set: Set,
    wanted: Wanted<'v>,
    widening: Widening<'v>,
    around: BTreeMap<Vec<usize>, Rc<Primes>>,
    choices: usize,
}

/// Chooses lines that cover a set and stay clear of what lies outside.
///
/// # Errors
/// [`TooLarge`] where it needs more work than is left.
pub(super) fn choose(
    diagrams: &mut Diagrams<'_>,
    set: &Set,
    outside: &Set,
    wanted: Wanted<'_>,
) -> Result<Chosen, TooLarge> {
    let mut atoms = diagrams.atoms(wanted.vocabulary, wanted.mentioned);
    atoms.extend(diagrams.counted_items(set, outside, wanted.mentioned)?);
    // What cells can say is said by cells, and gets its name later.
    let mut further = Vec::new();
    for atom in atoms {
        if !atom.is_box && !diagrams.minus(outside, &atom.set)?.is_false() {
            further.push(atom);
        }
    }
    let mut covering = Covering {
        widening: Widening::new(Set::clone(outside), further, wanted),
        diagrams,
        set: Set::clone(set),
        wanted,
        around: BTreeMap::new(),
        choices: 0,
    };
    let mut chosen = covering.greedy()?;
    let mut needed = usize::from(!chosen.is_empty());
    // What makes a cover better is a favour: without it the first one stands.
    let left = covering.diagrams.set_aside(FAVOUR);
    if chosen.len() > 1
        && chosen.len() <= MOST_IMPROVED
        && let Ok((better, bound)) = covering.improved(chosen.len())
    {
        needed = bound;
        chosen = better.unwrap_or(chosen);
    }
    if let Ok(shorter) = covering.shortened(&chosen) {
        chosen = shorter;
    }
    covering.diagrams.take_up(left);
    Ok(Chosen {
        lines: chosen.iter().map(|prime| prime.line.clone()).collect(),
        needed,
    })
}

impl Covering<'_, '_, '_> {
    /// The lines around the most ordinary scenario of a set.
    fn primes(&mut self, of: &Set) -> Result<Option<Rc<Primes>>, TooLarge> {
        let Some(seed) = self.diagrams.most_ordinary_cells(of) else {
            return Ok(None);
        };
        if let Some(known) = self.around.get(&seed) {
            return Ok(Some(Rc::clone(known)));
        }
        let around = self.widening.around(self.diagrams, &seed)?;
        let mut primes: Vec<Rc<Prime>> = Vec::new();
        for line in around.lines {
            let boxed = self.diagrams.boxed(&line)?;
            let covered = self.diagrams.and(&boxed, &self.set)?;
            let length = self.length(&line);
            primes.push(Rc::new(Prime {
                line,
                covered,
                length,
            }));
        }
        primes.sort_by_key(|one| one.length);
        let mut kept: Vec<Rc<Prime>> = Vec::new();
        for prime in primes {
            if !kept.iter().any(|known| known.covered == prime.covered) {
                kept.push(prime);
            }
        }
        let primes = Rc::new(Primes {
            primes: kept,
            all: around.all,
        });
        self.around.insert(seed, Rc::clone(&primes));
        Ok(Some(primes))
    }

    fn length(&self, line: &Line) -> Length {
        let layers = self.diagrams.layers();
        let said = layers.all().iter().zip(&line.cells);
        let mut parts = 0;
        let mut cells = 0;
        for (layer, chosen) in said {
            let Some(chosen) = chosen else { continue };
            let first = usize::from(layer.is_conditional());
            // That something is asked, or is not, follows from other things: those say why.
            let hides =
                chosen.as_slice() == [0] && first == 1 || chosen.len() + first == layer.cells;
            let strange = !self.wanted.mentioned.contains(&layer.attribute);
            parts += 1 + usize::from(hides) + usize::from(strange);
            cells += chosen.len().min(layer.cells - chosen.len());
        }
        parts += line.named.len();
        cells += line.named.len();
        let words = self.diagrams.line_text(line, self.wanted.vocabulary);
        (parts, cells, words.chars().count())
    }

    /// Takes the line that covers most of what is left, until nothing is.
    fn greedy(&mut self) -> Result<Cover, TooLarge> {
        let mut left = Set::clone(&self.set);
        let mut chosen: Vec<Rc<Prime>> = Vec::new();
        while !left.is_false() && chosen.len() < self.wanted.most && !self.diagrams.is_exhausted() {
            let Ok(Some(around)) = self.primes(&left) else {
                break;
            };
            let mut best: Option<(Rc<Prime>, Set)> = None;
            for prime in &around.primes {
                let gained = self.diagrams.and(&prime.covered, &left)?;
                let better = match &best {
                    None => true,
                    // They come shortest first: of two that gain the same, the first stays.
                    Some((_, known)) => self.gains_more(&gained, known)?,
                };
                if better {
                    best = Some((Rc::clone(prime), gained));
                }
            }
            let Some((prime, gained)) = best else {
                break;
            };
            left = self.diagrams.minus(&left, &gained)?;
            chosen.push(prime);
        }
        Ok(chosen)
    }

    /// Whether there are more scenarios in the one than in the other.
    fn gains_more(&mut self, one: &Set, other: &Set) -> Result<bool, TooLarge> {
        if self.diagrams.minus(one, other)?.is_false() {
            return Ok(false);
        }
        if self.diagrams.minus(other, one)?.is_false() {
            return Ok(true);
        }
        Ok(self.diagrams.count(one)? > self.diagrams.count(other)?)
    }

    /// A cover of fewer lines than so many, if there is one; and how many are needed.
    fn improved(&mut self, than: usize) -> Result<(Option<Cover>, usize), TooLarge> {
        let mut needed = 0;
        let mut apart = Set::clone(&self.set);
        while let Some(around) = self.primes(&apart)? {
            if !around.all {
                break;
            }
            needed += 1;
            for prime in &around.primes {
                apart = self.diagrams.minus(&apart, &prime.covered)?;
            }
        }
        let mut bound = needed.max(1);
        for lines in bound..than {
            let set = Set::clone(&self.set);
            match self.cover_of(&set, lines)? {
                Tried::Found(cover) => return Ok((Some(cover), bound)),
                Tried::None => bound = lines + 1,
                Tried::TooLong => break,
            }
        }
        Ok((None, bound))
    }

    /// A cover of at most so many lines.
    fn cover_of(&mut self, left: &Set, lines: usize) -> Result<Tried, TooLarge> {
        if left.is_false() {
            return Ok(Tried::Found(Vec::new()));
        }
        if lines == 0 {
            return Ok(Tried::None);
        }
        let Some(around) = self.primes(left)? else {
            return Ok(Tried::TooLong);
        };
        let mut outcome = if around.all {
            Tried::None
        } else {
            Tried::TooLong
        };
        for prime in &around.primes {
            self.choices += 1;
            if self.choices > MOST_CHOICES {
                return Ok(Tried::TooLong);
            }
            let rest = self.diagrams.minus(left, &prime.covered)?;
            match self.cover_of(&rest, lines - 1)? {
                Tried::Found(mut cover) => {
                    cover.insert(0, Rc::clone(prime));
                    return Ok(Tried::Found(cover));
                }
                Tried::None => {}
                Tried::TooLong => outcome = Tried::TooLong,
            }
        }
        Ok(outcome)
    }

    /// Each line exchanged for the shortest that covers what no other line does.
    fn shortened(&mut self, chosen: &[Rc<Prime>]) -> Result<Cover, TooLarge> {
        let mut lines: Vec<Rc<Prime>> = chosen.to_vec();
        let mut index = 0;
        while index < lines.len() {
            let Some(mine) = lines.get(index).cloned() else {
                break;
            };
            let mut own = Set::clone(&mine.covered);
            for (other, theirs) in lines.iter().enumerate() {
                if other != index {
                    own = self.diagrams.minus(&own, &theirs.covered)?;
                }
            }
            let Some(around) = self.primes(&own)? else {
                lines.remove(index);
                continue;
            };
            // The shortest come first.
            for prime in &around.primes {
                if prime.length >= mine.length {
                    break;
                }
                if self.diagrams.minus(&own, &prime.covered)?.is_false() {
                    if let Some(slot) = lines.get_mut(index) {
                        *slot = Rc::clone(prime);
                    }
                    break;
                }
            }
            index += 1;
        }
        Ok(lines)
    }
}

/// What came of looking for a cover.
enum Tried {
    Found(Cover),
    /// There is none.
    None,
    /// Not all could be tried.
    TooLong,
}
