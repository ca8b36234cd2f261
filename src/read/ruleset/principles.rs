//! What the rules promise as a whole, and the findings that are accepted.

use crate::problem::Problem;
use crate::read::draft::{AcceptedDraft, GainDraft, PrincipleDraft, PromiseDraft, Words};
use crate::read::node::Node;
use crate::read::reader::{Content, Fields, Reader};

/// The keys that open a promise, each with those that go with it.
const PROMISES: &[(&str, &[&str])] = &[
    ("whenever", &["expect"]),
    ("impartial_to", &[]),
    ("rises_with", &["ruling"]),
    ("no_gain", &["by", "raising", "lowering", "to"]),
];

impl Reader<'_> {
    pub(super) fn principles(&mut self, node: &Node) -> Vec<PrincipleDraft> {
        let items = node.chapter();
        items
            .iter()
            .filter_map(|item| self.principle(item))
            .collect()
    }

    fn principle(&mut self, node: &Node) -> Option<PrincipleDraft> {
        let known = [
            "id",
            "text",
            "whenever",
            "expect",
            "impartial_to",
            "rises_with",
            "ruling",
            "no_gain",
            "by",
            "raising",
            "lowering",
            "to",
        ];
        let fields = self.fields(node, "a principle", &known)?;
        let id = if let Some(node) = fields.get("id") {
            self.words(node, "the id of a principle", Content::Phrase)
        } else {
            self.missing(
                &fields,
                "a principle",
                "id",
                "write `id: P1`, the name by which findings cite it",
            );
            None
        };
        let text = fields
            .get("text")
            .and_then(|node| self.text(node, "the text of a principle"));
        let promise = self.promise(&fields);
        Some(PrincipleDraft {
            id: id?,
            text,
            promise: promise?,
            span: node.span,
        })
    }

    fn promise(&mut self, fields: &Fields<'_>) -> Option<PromiseDraft> {
        let mut opened = PROMISES
            .iter()
            .filter_map(|(key, with)| Some((fields.entry(key)?, *with)));
        let Some((first, with)) = opened.next() else {
            let (headline, help) = if fields.get("expect").is_some() {
                (
                    "a principle has `expect` and no `whenever`",
                    "write `whenever: always` where it is promised everywhere",
                )
            } else {
                (
                    "a principle promises nothing",
                    "write `whenever` and `expect`, `impartial_to`, `rises_with` and `ruling`, or `no_gain`",
                )
            };
            self.say(
                Problem::error(fields.place, headline, "expected a promise beside this key")
                    .help(help),
            );
            return None;
        };
        // What is wrong with the promise itself is told besides.
        if let Some((other, _)) = opened.next() {
            let problem = Problem::error(
                other.key.span,
                format!(
                    "a principle has both `{}` and `{}`",
                    first.key.words, other.key.words
                ),
                "a second promise",
            )
            .other(first.key.span, "the first promise")
            .help("make it two principles");
            self.say(problem);
        } else {
            let companions = PROMISES.iter().flat_map(|(_, with)| with.iter());
            for companion in companions.filter(|key| !with.contains(key)) {
                if let Some(entry) = fields.entry(companion) {
                    let problem = Problem::error(
                        entry.key.span,
                        format!("`{companion}` does not go with `{}`", first.key.words),
                        "belongs to another kind of promise",
                    )
                    .other(first.key.span, "the promise")
                    .help("delete it, or make it a principle of its own");
                    self.say(problem);
                }
            }
        }
        match first.key.words.as_str() {
            "whenever" => self.expectation(fields),
            "impartial_to" => {
                let names = self.words_list(&first.value, "`impartial_to`", Content::Word);
                (!names.is_empty()).then_some(PromiseDraft::ImpartialTo(names))
            }
            "rises_with" => {
                let attribute = self.words(&first.value, "`rises_with`", Content::Word);
                let ruling = self.companion(fields, "rises_with", "ruling");
                attribute
                    .zip(ruling)
                    .map(|(attribute, ruling)| PromiseDraft::RisesWith { attribute, ruling })
            }
            _ => {
                let party = self.words(&first.value, "`no_gain`", Content::Word);
                let by = fields.get("by").map(|node| self.condition(node, "`by`"));
                let gain = self.gain(fields);
                Some(PromiseDraft::NoGain {
                    party: party?,
                    by: match by {
                        None => None,
                        Some(by) => Some(by?),
                    },
                    gain: gain?,
                })
            }
        }
    }

    fn expectation(&mut self, fields: &Fields<'_>) -> Option<PromiseDraft> {
        let whenever = self.condition(fields.get("whenever")?, "`whenever`");
        let Some(expect) = fields.get("expect") else {
            self.missing(
                fields,
                "a principle with `whenever`",
                "expect",
                "write `expect:` with what is promised there",
            );
            return None;
        };
        let expect = self.condition(expect, "`expect`");
        Some(PromiseDraft::Expect {
            whenever: whenever?,
            expect: expect?,
        })
    }

    fn companion(&mut self, fields: &Fields<'_>, promise: &str, key: &str) -> Option<Words> {
        let Some(node) = fields.get(key) else {
            self.missing(
                fields,
                &format!("a principle with `{promise}`"),
                key,
                &format!("write `{key}:` with the dimension that is meant"),
            );
            return None;
        };
        self.words(node, &format!("`{key}`"), Content::Word)
    }

    fn gain(&mut self, fields: &Fields<'_>) -> Option<GainDraft> {
        let help = "write one of `raising:` (a dimension), `lowering:` (a dimension) and `to:` (a condition over rulings)";
        let mut gains = ["raising", "lowering", "to"]
            .into_iter()
            .filter_map(|key| fields.entry(key));
        let Some(first) = gains.next() else {
            self.missing(fields, "a principle with `no_gain`", "raising", help);
            return None;
        };
        if let Some(other) = gains.next() {
            let problem = Problem::error(
                other.key.span,
                format!(
                    "a principle has both `{}` and `{}`",
                    first.key.words, other.key.words
                ),
                "a second gain",
            )
            .other(first.key.span, "the first")
            .help(help);
            self.say(problem);
            return None;
        }
        match first.key.words.as_str() {
            "raising" => self
                .words(&first.value, "`raising`", Content::Word)
                .map(GainDraft::Raising),
            "lowering" => self
                .words(&first.value, "`lowering`", Content::Word)
                .map(GainDraft::Lowering),
            _ => self.condition(&first.value, "`to`").map(GainDraft::To),
        }
    }

    pub(super) fn accepted(&mut self, node: &Node) -> Vec<AcceptedDraft> {
        let items = node.chapter();
        items
            .iter()
            .filter_map(|item| self.accepted_finding(item))
            .collect()
    }

    fn accepted_finding(&mut self, node: &Node) -> Option<AcceptedDraft> {
        let known = [
            "finding",
            "clauses",
            "dimension",
            "principle",
            "attribute",
            "term",
            "because",
        ];
        let fields = self.fields(node, "an accepted finding", &known)?;
        let finding = if let Some(node) = fields.get("finding") {
            self.words(node, "`finding`", Content::Word)
        } else {
            self.missing(
                &fields,
                "an accepted finding",
                "finding",
                "write `finding: contradiction`, or another kind of finding",
            );
            None
        };
        let clauses = fields.get("clauses").map_or_else(Vec::new, |node| {
            self.words_list(node, "`clauses`", Content::Phrase)
        });
        let mut word = |key: &str| {
            let node = fields.get(key)?;
            self.words(node, &format!("`{key}`"), Content::Phrase)
        };
        let dimension = word("dimension");
        let principle = word("principle");
        let attribute = word("attribute");
        let term = word("term");
        let because = fields
            .get("because")
            .and_then(|node| self.text(node, "`because`"));
        Some(AcceptedDraft {
            finding: finding?,
            clauses,
            dimension,
            principle,
            attribute,
            term,
            because,
            span: node.span,
        })
    }
}
