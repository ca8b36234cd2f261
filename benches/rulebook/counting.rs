//! How long counting takes alone: the space, and every share that a check gave, each counted once more
//! from the words of its conditions.

use evenhand::analysis::{Checked, Cover};
use evenhand::logic::{Diagrams, Formula, Layers, Mode, Theory, is_true};
use evenhand::model::{ConditionScope, Ruleset, resolve_condition};
use evenhand::read;
use evenhand::source::{Source, Sources};
use std::sync::Arc;
use std::time::{Duration, Instant};

/// Nodes that the diagrams may make.
const WORK: usize = 10_000_000;

/// How long it took, and how many shares were counted. Conditions that the language has no form for are
/// left out.
pub(crate) fn counted(ruleset: &Ruleset, checked: &Checked) -> (Duration, usize) {
    let begun = Instant::now();
    let theory = Theory::new(ruleset);
    let Ok(mut diagrams) = Diagrams::new(theory, Layers::new(ruleset), WORK, Arc::new(|| false))
    else {
        panic!("the space is too large to be counted");
    };
    let space = diagrams.space();
    let all = diagrams.count(&space).ok();
    let told = checked.space.as_ref().map(|space| &space.scenarios);
    assert_eq!(all.as_ref(), told, "the space is counted otherwise");
    let mut shares = 0;
    for finding in &checked.findings {
        let exact = finding.share.as_ref().filter(|share| share.exact);
        let (Some(share), Cover::Exact) = (exact, finding.general.cover) else {
            continue;
        };
        let lines: Option<Vec<Formula>> = finding
            .general
            .lines
            .iter()
            .map(|line| meant(ruleset, line))
            .collect();
        let Some(lines) = lines else { continue };
        diagrams.begin(WORK);
        let count = diagrams
            .set(&Formula::any(lines))
            .and_then(|set| diagrams.count(&set));
        assert_eq!(
            count.ok().as_ref(),
            Some(&share.scenarios),
            "counted otherwise: {}",
            finding.headline
        );
        shares += 1;
    }
    (begun.elapsed(), shares)
}

fn meant(ruleset: &Ruleset, line: &str) -> Option<Formula> {
    let source = Source::new("line", line);
    let id = Sources::default().add(source.clone());
    let mut problems = Vec::new();
    let read = read::condition(&source, id, &mut problems)?;
    let meant = resolve_condition(ruleset, &read, ConditionScope::Facts, &mut problems)?;
    Some(is_true(&meant, Mode::ACTUAL))
}
