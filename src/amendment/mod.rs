//! What a draft changes in the rules.
//!
//! Editions of a ruleset are joined into one, so that "the ruling differs" is an ordinary question
//! about a ruleset. Everything said of rulings is replayed by the plain evaluator on the editions as
//! they are; nothing here knows how it is printed.

mod asking;
mod attribution;
mod casebook;
mod changes;
mod compare;
mod consequential;
mod effects;
mod grades;
mod joined;
mod matching;
mod mentions;
mod numbers;
mod parts;
mod redline;
mod repairs;
mod space;
mod units;
mod vet;

pub(crate) use asking::Asking;

pub use casebook::{AnswerChange, CaseChange, Noted};
pub use changes::{Open, Row, State};
pub use compare::compare;
pub use consequential::Consequential;
pub use effects::Affected;
pub use grades::{Direction, Grade};
pub use matching::{Match, Sign};
pub use mentions::Mention;
pub use redline::{Fate, Line, Piece, Redlined};
pub use repairs::{RepairDraft, repairs};
pub use units::Unit;
pub use vet::{Editorial, Head, Only, Scope, Subject, Vetted, vet};
