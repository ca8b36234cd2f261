//! The check of a later edition takes over what the check of the earlier one answered; it must find just
//! what a check of its own finds, on random small rulesets and random drafts.
#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    missing_docs,
    reason = "a test says what went wrong by failing"
)]

mod support;

use evenhand::analysis::{Checked, Finding, Options, check, check_editions};
use evenhand::load::{Layered, load};
use evenhand::model::{ClauseId, Ruleset};
use proptest::collection::vec;
use proptest::prelude::*;
use std::collections::BTreeMap;
use support::{random_amendment, random_ruleset};

/// A finding as far as it does not hang on which of many incidents is shown.
fn told(ruleset: &Ruleset, finding: &Finding) -> String {
    let ids = finding.clauses.iter();
    let ids: Vec<&str> = ids.map(|id| ruleset[*id].id.as_str()).collect();
    let words = finding.labels.iter().map(|(span, said)| {
        let words = ruleset.sources.slice(*span);
        format!("{words}: {said}")
    });
    let words: Vec<String> = words.collect();
    let about = (&finding.principle, &finding.attribute, &finding.term);
    let dimension = finding.dimension.map(|id| &ruleset[id].name);
    let (general, share) = (&finding.general, &finding.share);
    let whole = (
        &finding.headline,
        &finding.help,
        &finding.scenario,
        &finding.pair,
    );
    format!(
        "{:?} {dimension:?} {about:?} {ids:?} {words:#?} {general:?} {share:?} {whole:?} {:?}",
        finding.kind, finding.accepted
    )
}

fn all_told(ruleset: &Ruleset, checked: &Checked) -> Vec<String> {
    let found = checked.findings.iter();
    let mut told: Vec<String> = found.map(|finding| told(ruleset, finding)).collect();
    told.sort();
    told
}

fn by_ids(before: &Ruleset, after: &Ruleset) -> Vec<Option<ClauseId>> {
    let earlier = before.clauses.iter().enumerate();
    let earlier: BTreeMap<&str, ClauseId> = earlier
        .map(|(index, clause)| (clause.id.as_str(), ClauseId::new(index)))
        .collect();
    let later = after.clauses.iter();
    later
        .map(|clause| earlier.get(clause.id.as_str()).copied())
        .collect()
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 300, ..ProptestConfig::default() })]

    #[test]
    fn what_is_taken_over_is_what_would_be_answered(yaml in random_ruleset::yaml(), tape in vec(any::<u16>(), 4..40)) {
        let Ok(base) = load("base.yaml", yaml.as_str()) else { return Ok(()) };
        let amendment = random_amendment::write_amendment(&base.ruleset, &tape);
        let drafts = [("draft.yaml".to_owned(), amendment.clone())];
        let Ok(layered) = Layered::read("base.yaml", yaml.as_str(), &drafts) else { return Ok(()) };
        let Ok(after) = layered.with(&[0]) else { return Ok(()) };
        let (before, after) = (&layered.base.ruleset, &after.ruleset);
        let was = by_ids(before, after);
        let options = Options::default();
        let (_, found) = check_editions(before, after, &was, &options);
        let alone = check(after, &options);
        prop_assert_eq!(&found.verdicts, &alone.verdicts, "{}\n{}", yaml, amendment);
        prop_assert_eq!(&found.idle_accepted, &alone.idle_accepted);
        let (taken, own) = (all_told(after, &found), all_told(after, &alone));
        if taken != own {
            for one in taken.iter().filter(|one| !own.contains(one)) { eprintln!("TAKEN {one}"); }
            for one in own.iter().filter(|one| !taken.contains(one)) { eprintln!("OWN   {one}"); }
            prop_assert!(false, "{}\n{}", yaml, amendment);
        }
    }
}
