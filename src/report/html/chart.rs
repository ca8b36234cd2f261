//! From question to ruling: which questions in which order lead to which ruling on one dimension, as a
//! tree of lists.

use super::dimension_title;
use crate::logic::{Chart, Protocol, VerdictId};
use crate::model::{DimensionId, Ruleset};
use crate::narration::{self, Key, Then};
use crate::report::text::protocol_opening;
use crate::report::{text_capital, words};
use crate::solve::Reason;

/// The order of questions that leads to the ruling on one dimension.
#[derive(Clone, Copy)]
pub struct Decision<'a> {
    /// The dimension.
    pub dimension: DimensionId,
    /// The chart of this dimension alone, and the order; or why it stayed undecided.
    pub order: Result<(&'a Chart<'a>, &'a Protocol), &'a Reason>,
}

/// The same, ready to be set.
pub(super) struct ChartView {
    pub(super) title: String,
    /// The dimension's name in calls.
    pub(super) name: String,
    pub(super) said: Vec<String>,
    pub(super) marks: Vec<Mark>,
    /// How many questions there are, where these are too many to be drawn.
    pub(super) too_many: String,
    pub(super) folded: bool,
    pub(super) undecided: String,
}

/// The parts of the tree, one behind the other as they open and close.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) enum Mark {
    /// What follows is folded; what it holds.
    Fold(String),
    /// The end of what is folded.
    Unfold,
    /// A question begins: its number and its words; these are empty where they stand at the fold.
    Ask(usize, String),
    /// It ends.
    EndAsk,
    /// An answer begins.
    Answer(String),
    /// It ends.
    EndAnswer,
    /// It is ruled so.
    Ruled(String),
    /// It goes on at a question that stands elsewhere.
    Again(usize),
    /// Nothing that is left tells the rulings apart.
    Open,
}

/// With more questions than this, those further in are folded.
const MOST_UNFOLDED: usize = 20;
/// How far in those are.
const FOLDED_FROM: usize = 2;
/// More questions than this are not drawn.
const MOST: usize = 300;

/// The order of questions, ready to be set.
pub(super) fn view(ruleset: &Ruleset, decision: &Decision<'_>) -> ChartView {
    let mut view = ChartView {
        title: dimension_title(ruleset, decision.dimension),
        name: ruleset[decision.dimension].name.clone(),
        said: Vec::new(),
        marks: Vec::new(),
        too_many: String::new(),
        folded: false,
        undecided: String::new(),
    };
    let (chart, protocol) = match decision.order {
        Ok(order) => order,
        Err(reason) => {
            view.undecided = reason.to_string();
            return view;
        }
    };
    let key = narration::key(chart, protocol);
    view.said = protocol_opening(chart, protocol, &key);
    if key.steps.len() > MOST {
        view.too_many = words::counted(key.steps.len(), "step");
        return view;
    }
    let mut drawing = Drawing {
        chart,
        key: &key,
        drawn: vec![false; key.steps.len()],
        folds: key.steps.len() > MOST_UNFOLDED,
        marks: Vec::new(),
    };
    if !key.steps.is_empty() {
        drawing.step(0, 0);
    }
    view.folded = drawing
        .marks
        .iter()
        .any(|mark| matches!(mark, Mark::Fold(_)));
    view.marks = drawing.marks;
    view
}

struct Drawing<'a> {
    chart: &'a Chart<'a>,
    key: &'a Key,
    drawn: Vec<bool>,
    folds: bool,
    marks: Vec<Mark>,
}

impl Drawing<'_> {
    fn ruled(&mut self, verdict: VerdictId) {
        let all = self.chart.dimensions().iter();
        let all = all.zip(self.chart.rulings(verdict));
        let told = all.map(|(id, ruling)| narration::ruled(self.chart.ruleset(), *id, *ruling));
        self.marks
            .push(Mark::Ruled(told.collect::<Vec<_>>().join("; ")));
    }

    fn step(&mut self, index: usize, depth: usize) {
        let key = self.key;
        let Some(step) = key.steps.get(index) else {
            return;
        };
        if let Some(drawn) = self.drawn.get_mut(index) {
            *drawn = true;
        }
        let number = index.saturating_add(1);
        let question = text_capital(&step.question);
        let folds = self.folds && depth == FOLDED_FROM;
        if folds {
            self.marks.push(Mark::Fold(format!("{number}. {question}")));
            self.marks.push(Mark::Ask(number, String::new()));
        } else {
            self.marks.push(Mark::Ask(number, question));
        }
        for answer in &step.answers {
            self.marks.push(Mark::Answer(answer.answer.clone()));
            match answer.then {
                Then::Verdict(verdict) => self.ruled(verdict),
                Then::Open => self.marks.push(Mark::Open),
                Then::Step(next) if self.drawn.get(next).copied().unwrap_or(true) => {
                    self.marks.push(Mark::Again(next.saturating_add(1)));
                }
                Then::Step(next) => self.step(next, depth + 1),
            }
            self.marks.push(Mark::EndAnswer);
        }
        self.marks.push(Mark::EndAsk);
        if folds {
            self.marks.push(Mark::Unfold);
        }
    }
}
