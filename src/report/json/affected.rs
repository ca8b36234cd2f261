//! What rests on a thing, and what it can change of it, as JSON.

use super::graph::{EdgeRecord, NodeRecord};
use super::{RulesetHead, ScenarioRecord};
use crate::graph::{Affected, Change, Effect, Graph};
use crate::model::Ruleset;
use crate::report::caution::caution;
use schemars::JsonSchema;
use serde::Serialize;

/// What rests on some things, as JSON with a line end.
///
/// # Errors
/// None that can happen with these types; serialising is passed on as it is.
pub fn affected(
    ruleset: &Ruleset,
    graph: &Graph,
    found: &[Affected<'_>],
) -> Result<String, serde_json::Error> {
    let report = AffectedReport {
        format: AffectedFormat::Affected1,
        ruleset: RulesetHead::new(ruleset),
        asked: found
            .iter()
            .map(|affected| AskedRecord::new(graph, affected))
            .collect(),
        caution: caution(ruleset),
    };
    serde_json::to_string_pretty(&report).map(|text| text + "\n")
}

/// What `affected --format json` prints.
#[derive(Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub(super) struct AffectedReport {
    format: AffectedFormat,
    ruleset: RulesetHead,
    /// One for each name of the call.
    asked: Vec<AskedRecord>,
    caution: Vec<String>,
}

#[derive(Serialize, JsonSchema)]
enum AffectedFormat {
    #[serde(rename = "evenhand/affected/1")]
    Affected1,
}

#[derive(Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct AskedRecord {
    /// What the name means; of a group, its clauses, which are asked about together.
    things: Vec<NodeRecord>,
    /// What rests on them, the nearest first.
    dependents: Vec<EffectRecord>,
}

impl AskedRecord {
    fn new(graph: &Graph, affected: &Affected<'_>) -> Self {
        let things = affected.things.iter().filter_map(|id| graph.node(*id));
        let dependents = affected.dependents.iter();
        AskedRecord {
            things: things.map(NodeRecord::new).collect(),
            dependents: dependents
                .filter_map(|effect| EffectRecord::new(graph, affected, effect))
                .collect(),
        }
    }
}

#[derive(Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct EffectRecord {
    thing: NodeRecord,
    /// A shortest way to it.
    path: Vec<EdgeRecord>,
    /// Whether it can change: false is proved, true shown, null undecided.
    changes: Option<bool>,
    /// Two incidents that differ in how the things come out, and in which it does not come out the
    /// same. How a thing comes out stands among the facts by its kind and name, such as `clause 7.1`.
    #[serde(skip_serializing_if = "Option::is_none")]
    incidents: Option<[ScenarioRecord; 2]>,
    /// Why it stayed undecided.
    #[serde(skip_serializing_if = "Option::is_none")]
    undecided: Option<String>,
}

impl EffectRecord {
    fn new(graph: &Graph, affected: &Affected<'_>, effect: &Effect<'_>) -> Option<Self> {
        let name = |index: usize| {
            let node = graph.nodes().get(index);
            node.map(ToString::to_string).unwrap_or_default()
        };
        let path = effect.dependent.path.iter();
        Some(EffectRecord {
            thing: NodeRecord::new(graph.node(effect.dependent.node)?),
            path: path.map(|edge| EdgeRecord::new(edge, &name)).collect(),
            changes: match &effect.change {
                Change::Shown(_) | Change::BySpeakingOfIt => Some(true),
                Change::Never => Some(false),
                Change::Undecided(_) => None,
            },
            incidents: match &effect.change {
                Change::Shown(pair) => Some(
                    pair.each_ref()
                        .map(|scenario| ScenarioRecord::new(&affected.space, scenario)),
                ),
                _ => None,
            },
            undecided: match &effect.change {
                Change::Undecided(reason) => Some(reason.to_string()),
                _ => None,
            },
        })
    }
}
