//! A ruleset with amendments laid over it: a base file and drafts, in any combination.
//!
//! The base is read once. Each combination of changes is made on its tree. What they touch, and what may
//! mean something else under a changed definition, is read and resolved anew, so that a name means what
//! it means in the text as it would stand, and every place lies in the file that has the words.

use super::{Loaded, Refused, resolved};
use crate::model::{Layer, Settled};
use crate::problem::{Gravity, Problem};
use crate::read;
use crate::read::amendment::{AmendmentDraft, Change, Tree, consolidated};
use crate::read::draft::{ClauseDraft, RulesetDraft};
use crate::source::{Source, SourceId, Sources};
use std::sync::Arc;

/// A ruleset and the amendments to it.
#[derive(Clone, Debug)]
pub struct Layered {
    /// The ruleset's file, then those of the amendments, in their order.
    pub sources: Sources,
    /// The ruleset as it stands in its file.
    pub base: Loaded,
    /// The amendments, in the order in which they are laid over it.
    pub amendments: Vec<AmendmentDraft>,
    /// What their writers probably want to know.
    pub warnings: Vec<Problem>,
    tree: Tree,
    /// What was read of the clauses of the base of which there is nothing to say, by place.
    read: Vec<Option<Arc<ClauseDraft>>>,
}

/// Reads a ruleset with amendments laid over it, in their order; each is the file's name and text.
///
/// # Errors
/// Where one of the texts cannot be read, a change cannot be made, or the ruleset with the changes in
/// it breaks a rule of the language.
pub fn load_with(
    name: impl Into<String>,
    text: impl Into<String>,
    amendments: &[(String, String)],
) -> Result<Loaded, Refused> {
    if amendments.is_empty() {
        return super::load(name, text);
    }
    let layered = Layered::read(name, text, amendments)?;
    let all: Vec<usize> = (0..layered.amendments.len()).collect();
    let mut loaded = layered.with(&all).map_err(|problems| Refused {
        sources: layered.sources.clone(),
        problems,
    })?;
    loaded.warnings.extend(layered.warnings.iter().cloned());
    Ok(loaded)
}

impl Layered {
    /// Reads a base and amendments to it; each is the file's name and text.
    ///
    /// # Errors
    /// Where the base cannot be used, or an amendment cannot be read. Whether its changes can be made
    /// is found out by [`Layered::with`].
    pub fn read(
        name: impl Into<String>,
        text: impl Into<String>,
        amendments: &[(String, String)],
    ) -> Result<Layered, Refused> {
        let source = Source::new(name, text);
        let mut sources = Sources::default();
        let id = sources.add(source.clone());
        let files: Vec<(SourceId, Source)> = amendments
            .iter()
            .map(|(name, text)| {
                let source = Source::new(name, text);
                (sources.add(source.clone()), source)
            })
            .collect();
        let mut problems = Vec::new();
        let tree = read::tree(&source, id, &mut problems);
        let draft = tree
            .as_ref()
            .and_then(|tree| tree.ruleset(&sources, &[], &mut problems));
        let (ruleset, mut problems) =
            resolved(draft.as_ref(), &Settled::default(), problems, &sources);
        let mut drafts = Vec::with_capacity(files.len());
        let mut warnings = Vec::new();
        for (id, source) in &files {
            let mut found = Vec::new();
            let draft = read::amendment(source, *id, &mut found);
            let sound = found
                .iter()
                .all(|problem| problem.gravity != Gravity::Error);
            match draft.filter(|_| sound) {
                Some(draft) => {
                    warnings.append(&mut found);
                    drafts.push(draft);
                }
                None => problems.append(&mut found),
            }
        }
        let (Some(tree), Some(ruleset)) = (tree, ruleset) else {
            return Err(Refused { sources, problems });
        };
        if drafts.len() < files.len() {
            return Err(Refused { sources, problems });
        }
        let base = Loaded {
            ruleset,
            warnings: problems,
        };
        warnings.extend(other_base(&base, &drafts));
        Ok(Layered {
            sources,
            read: quiet(draft, &base),
            base,
            amendments: drafts,
            warnings,
            tree,
        })
    }

    /// Reads the files again that a ruleset was made from, its amendments laid into the base, and
    /// further amendments to it.
    ///
    /// # Errors
    /// As [`Layered::read`] and [`Layered::with_first_in_base`].
    pub fn again(sources: &Sources, further: Vec<(String, String)>) -> Result<Layered, Refused> {
        let mut files = sources.ids().filter_map(|id| {
            let source = sources.get(id)?;
            Some((source.name().to_owned(), source.text().to_owned()))
        });
        let (name, text) = files.next().unwrap_or_default();
        let mut layers: Vec<(String, String)> = files.collect();
        let own = layers.len();
        layers.extend(further);
        Layered::read(name, text, &layers)?.with_first_in_base(own)
    }

    /// The same with the first amendments in the base: the others are then amendments to the ruleset
    /// as it stands with them.
    ///
    /// # Errors
    /// Everything that is wrong with their changes, or with the ruleset that they make.
    pub fn with_first_in_base(mut self, count: usize) -> Result<Layered, Refused> {
        let mut layers = Vec::with_capacity(count);
        for draft in self.amendments.drain(..count.min(self.amendments.len())) {
            layers.push(layer(&draft));
            let mut problems = Vec::new();
            match self.tree.amended(&draft, &mut problems) {
                Some(tree) => self.tree = tree,
                None => {
                    return Err(Refused {
                        sources: self.sources,
                        problems,
                    });
                }
            }
        }
        let (base, draft) = self.resolve(&self.tree).map_err(|problems| Refused {
            sources: self.sources.clone(),
            problems,
        })?;
        self.read = quiet(Some(draft), &base);
        self.tree.settle();
        self.base = base;
        self.base.ruleset.layers = layers;
        Ok(self)
    }

    /// The ruleset with some of the amendments laid over it (by index, in this order).
    ///
    /// # Errors
    /// Everything that is wrong with the changes, or with the ruleset that they make.
    pub fn with(&self, which: &[usize]) -> Result<Loaded, Vec<Problem>> {
        let mut tree = self.tree.clone();
        let mut layers = self.base.ruleset.layers.clone();
        for draft in which.iter().filter_map(|index| self.amendments.get(*index)) {
            let mut problems = Vec::new();
            tree = tree.amended(draft, &mut problems).ok_or(problems)?;
            layers.push(layer(draft));
        }
        let (mut loaded, _) = self.resolve(&tree)?;
        loaded.ruleset.layers = layers;
        Ok(loaded)
    }

    /// The ruleset with some changes made to it, in this order.
    ///
    /// # Errors
    /// As [`Layered::with`].
    pub fn with_changes(&self, changes: &[&Change]) -> Result<Loaded, Vec<Problem>> {
        let mut problems = Vec::new();
        let tree = self.tree.changed(changes, &mut problems);
        let (loaded, _) = self.resolve(&tree.ok_or(problems)?)?;
        Ok(loaded)
    }

    /// The same with one more amendment behind the others; its file's name and text.
    ///
    /// # Errors
    /// Where it can't be read.
    pub fn plus(&self, name: &str, text: &str) -> Result<Layered, Refused> {
        let mut more = self.clone();
        let source = Source::new(name, text);
        let id = more.sources.add(source.clone());
        let mut problems = Vec::new();
        let draft = read::amendment(&source, id, &mut problems);
        let sound = problems.iter().all(|it| it.gravity != Gravity::Error);
        match draft.filter(|_| sound) {
            Some(draft) => {
                more.amendments.push(draft);
                Ok(more)
            }
            None => Err(Refused {
                sources: more.sources,
                problems,
            }),
        }
    }

    /// The changes that would have to be made besides all amendments, so that nothing refers to what
    /// they take away: lines of an amendment, none where they can stand as they are. `None` where more
    /// is wrong than that lists of references are left over.
    pub fn follow_ups(&self) -> Option<Vec<String>> {
        let mut tree = self.tree.clone();
        for draft in &self.amendments {
            tree = tree.amended(draft, &mut Vec::new())?;
        }
        let mut problems = Vec::new();
        let draft = tree.ruleset(&self.sources, &self.read, &mut problems);
        let settled = Settled::default();
        let (ruleset, problems) = resolved(draft.as_ref(), &settled, problems, &self.sources);
        match ruleset {
            Some(_) => Some(Vec::new()),
            None => tree.follow_ups(&problems, &self.sources),
        }
    }

    /// Reads and resolves what changes have touched, and takes over the rest.
    fn resolve(&self, tree: &Tree) -> Result<(Loaded, RulesetDraft), Vec<Problem>> {
        let mut problems = Vec::new();
        let draft = tree.ruleset(&self.sources, &self.read, &mut problems);
        let settled = draft.as_ref().map(|draft| self.settled(tree, draft));
        let settled = settled.unwrap_or_default();
        let (ruleset, problems) = resolved(draft.as_ref(), &settled, problems, &self.sources);
        match (ruleset, draft) {
            (Some(ruleset), Some(draft)) => {
                let loaded = Loaded {
                    ruleset,
                    warnings: problems,
                };
                Ok((loaded, draft))
            }
            _ => Err(tree.told_by_changes(problems, &self.sources)),
        }
    }

    /// The clauses of the base that a draft has unchanged, where it has all definitions unchanged too.
    fn settled(&self, tree: &Tree, draft: &RulesetDraft) -> Settled<'_> {
        let mut settled = Settled::default();
        let untouched = tree.untouched();
        if tree.defines_anew() || untouched.len() != draft.clauses.len() {
            return settled;
        }
        for (clause, before) in draft.clauses.iter().zip(untouched) {
            let base = before.and_then(|before| {
                let read = self.read.get(before)?.as_ref()?;
                let base = self.base.ruleset.clauses.get(before)?;
                Arc::ptr_eq(read, clause).then_some(base)
            });
            settled.clauses.push(base);
        }
        settled
    }

    /// The text of the ruleset with all amendments in it: whatever they leave alone keeps every byte.
    ///
    /// # Errors
    /// As [`Layered::with`], and where the text can't be changed so that it says what is meant.
    pub fn consolidated(&self) -> Result<String, Vec<Problem>> {
        let all: Vec<usize> = (0..self.amendments.len()).collect();
        self.with(&all)?;
        let base = self.sources.get(SourceId::default());
        let mut text = base.map_or("", Source::text).to_owned();
        for draft in &self.amendments {
            text = consolidated(&text, draft, &self.sources)
                .map_err(|unwritable| vec![*unwritable.problem])?;
        }
        Ok(text)
    }
}

/// What was read of the clauses of a ruleset of which there is nothing to say, by place.
fn quiet(draft: Option<RulesetDraft>, loaded: &Loaded) -> Vec<Option<Arc<ClauseDraft>>> {
    let clauses = draft.map(|draft| draft.clauses).unwrap_or_default();
    let noisy = |clause: &ClauseDraft| {
        let mut warnings = loaded.warnings.iter();
        warnings.any(|warning| clause.span.overlaps(warning.span))
    };
    let quiet = clauses.into_iter().map(|it| (!noisy(&it)).then_some(it));
    quiet.collect()
}

fn layer(draft: &AmendmentDraft) -> Layer {
    Layer {
        title: draft.title.value.clone(),
        source: draft.title.span.source,
    }
}

/// Warnings where an amendment was written for another ruleset or edition than it is laid over.
fn other_base(base: &Loaded, drafts: &[AmendmentDraft]) -> Vec<Problem> {
    let mut warnings = Vec::new();
    let mut editions = vec![base.ruleset.edition.clone()];
    for draft in drafts {
        if let Some(title) = &draft.to_ruleset
            && title.value != base.ruleset.title
        {
            let problem = Problem::warning(
                title.span,
                format!(
                    "the amendment is written for `{}`, and the file is `{}`",
                    title.value, base.ruleset.title
                ),
                "another ruleset",
            );
            warnings.push(
                problem.help("check that it is the right file; the changes are made all the same"),
            );
        }
        if let Some(edition) = &draft.to_edition
            && !editions.contains(&edition.value)
        {
            let file = match base.ruleset.edition.as_str() {
                "" => "none".to_owned(),
                edition => format!("`{edition}`"),
            };
            let problem = Problem::warning(
                edition.span,
                format!(
                    "the amendment is written for edition `{}`; the file's edition is {file}",
                    edition.value
                ),
                "another edition",
            );
            warnings.push(
                problem.help("check that it is the right file; the changes are made all the same"),
            );
        }
        editions.extend(draft.edition.iter().map(|edition| edition.value.clone()));
    }
    warnings
}
