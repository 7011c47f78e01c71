//! One numbered step: actions, their outcomes, and what the sheets say around them.
use super::action::{Action, Actions, Condition};
use super::declarations::{Applies, Name};
use super::document::Due;
use super::message::Message;
use super::prose::Prose;
use super::quantity::Quantity;
use super::rare::{Rare, Seldom};
use crate::source::{Span, Spanned, Text};
use compact_str::CompactString;
use smallvec::SmallVec;
use std::ops::Deref;

/// A step reads as if its [`StepDetails`] were its own fields.
#[derive(Debug, Clone, PartialEq)]
pub struct Step {
    /// From 1 through the whole procedure.
    pub number: u32,
    /// The margin line.
    pub span: Span,
    /// With all that is indented under it.
    pub extent: Span,
    pub actions: Actions,
    pub outcomes: Vec<Outcome>,
    pub prose: Option<Prose>,
    pub details: Rare<StepDetails>,
}

/// What few steps have.
#[derive(Debug, Clone, PartialEq)]
pub struct StepDetails {
    /// Messages that stand before it, in source order.
    pub messages: Vec<Message>,
    /// `option "Oil bath": …` of a `choose`.
    pub options: Vec<ChoiceOption>,
    /// `except rear-left: …` of a `repeat`.
    pub exceptions: Vec<Exception>,
    /// Which machines it is for (`only:`).
    pub applies: Applies,
    /// Earlier outcomes it hangs on (`only: bearing-check failed`).
    pub conditions: Vec<Condition>,
    pub people: Option<Prose>,
    pub role: Option<Text>,
    pub figures: Vec<Spanned<Name>>,
    pub because: Option<Prose>,
    /// Questions for learners with their answers.
    pub questions: Vec<Question>,
    pub teach: Vec<Prose>,
    pub record: Option<Text>,
    pub from: Option<Text>,
    pub time: Option<Quantity>,
    /// Kept here too so that a sheet can show it at its step.
    pub dues: Vec<Due>,
    /// Indented lines under the step that are safety messages: each is a fault, kept for its rule.
    pub late_messages: Vec<LateMessage>,
}

impl StepDetails {
    const NONE: StepDetails = StepDetails {
        messages: Vec::new(),
        options: Vec::new(),
        exceptions: Vec::new(),
        applies: Applies::ALL,
        conditions: Vec::new(),
        people: None,
        role: None,
        figures: Vec::new(),
        because: None,
        questions: Vec::new(),
        teach: Vec::new(),
        record: None,
        from: None,
        time: None,
        dues: Vec::new(),
        late_messages: Vec::new(),
    };
}

impl Default for StepDetails {
    fn default() -> StepDetails {
        StepDetails::NONE
    }
}

impl Seldom for StepDetails {
    fn none() -> &'static StepDetails {
        static NONE: StepDetails = StepDetails::NONE;
        &NONE
    }
}

impl Deref for Step {
    type Target = StepDetails;
    fn deref(&self) -> &StepDetails {
        &self.details
    }
}

impl Step {
    /// Every label given in the step.
    pub fn labels(&self) -> impl Iterator<Item = &Text> {
        self.actions.iter().flat_map(Action::labels)
    }

    /// Every action in the order the sheet prints them: the main line first, then [`Step::actions_behind`] it.
    pub fn every_action(&self) -> impl Iterator<Item = &Action> {
        self.actions.iter().chain(self.actions_behind())
    }

    /// Whether it has outcomes, options or exceptions; most steps have none.
    pub fn has_branches(&self) -> bool {
        !(self.outcomes.is_empty() && self.options.is_empty() && self.exceptions.is_empty())
    }

    /// Those of outcomes, options and exceptions.
    pub fn actions_behind(&self) -> impl Iterator<Item = &Action> {
        let outcomes = self.outcomes.iter().flat_map(|outcome| &outcome.then);
        let options = self.options.iter().flat_map(|option| &option.actions);
        let exceptions = self.exceptions.iter().flat_map(|exception| &exception.actions);
        outcomes.chain(options).chain(exceptions)
    }
}

/// `if cracked, holes elongated: renew drum`.
#[derive(Debug, Clone, PartialEq)]
pub struct Outcome {
    pub when: SmallVec<[Spanned<When>; 1]>,
    pub then: Actions,
    pub span: Span,
}

#[derive(Debug, Clone, PartialEq)]
pub enum When {
    Below,
    Above,
    Outside,
    NotOk,
    Impossible,
    Otherwise,
    /// Free words: `cracked`.
    Found(CompactString),
}

impl When {
    /// As the language writes it: `below`, or the author's own words.
    pub fn word(&self) -> &str {
        match self {
            When::Below => "below",
            When::Above => "above",
            When::Outside => "outside",
            When::NotOk => "not ok",
            When::Impossible => "impossible",
            When::Otherwise => "otherwise",
            When::Found(words) => words,
        }
    }

    /// Whether the finding that came out so is told by this word: `below`, or the author's own.
    pub fn is(&self, found: &str) -> bool {
        match self {
            When::Below => found == "below",
            When::Above => found == "above",
            When::Outside => matches!(found, "outside" | "below" | "above"),
            When::Found(words) => words == found,
            When::NotOk | When::Impossible | When::Otherwise => false,
        }
    }
}

#[derive(Debug, Clone, PartialEq)]
pub struct ChoiceOption {
    pub name: Text,
    pub actions: Actions,
    pub span: Span,
}

#[derive(Debug, Clone, PartialEq)]
pub struct Exception {
    pub places: Vec<Text>,
    pub actions: Actions,
    pub span: Span,
}

#[derive(Debug, Clone, PartialEq)]
pub struct Question {
    pub ask: Prose,
    pub answer: Option<Prose>,
}

/// A safety message written under a step: too late, the step is done.
#[derive(Debug, Clone, PartialEq)]
pub struct LateMessage {
    /// The signal word as written.
    pub word: Text,
    /// The message and its own deeper lines.
    pub extent: Span,
    /// The statement it should stand before.
    pub step: Span,
}
