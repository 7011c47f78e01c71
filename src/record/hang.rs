//! Steps that are done only where an earlier one came out so: `only: seat failed`.
use super::shape::{State, StepRecord};
use crate::model::action::Condition;
use crate::model::step::When;
use crate::model::{Procedure, Step};
use serde::Serialize;

/// What the step hangs on.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct Hang {
    /// The earlier step.
    pub on: u32,
    /// The branches of it that are asked for, from 1.
    pub branches: Vec<u32>,
    /// One of them must have been taken; otherwise none may have been.
    pub taken: bool,
}

impl Hang {
    /// `None` where the record cannot tell how it came out: no branch of the earlier step says so.
    pub fn of(condition: &Condition, procedure: &Procedure) -> Option<Hang> {
        let on = condition.step?;
        let step = procedure.steps().find(|step| step.number == on)?;
        let branches = asked(step, &condition.state)?;
        Some(Hang { on, branches, taken: condition.state != "ok" })
    }

    /// Whether the earlier step came out so; `None` while it is not done.
    pub fn came_true(&self, earlier: Option<&StepRecord>) -> Option<bool> {
        let earlier = earlier.filter(|entry| entry.state == State::Done)?;
        let last = earlier.attempts;
        let mut taken = earlier.outcomes.iter().filter(|it| it.attempt == last);
        Some(taken.any(|it| self.branches.contains(&it.branch)) == self.taken)
    }
}

/// The branches that the word asks for.
fn asked(step: &Step, word: &str) -> Option<Vec<u32>> {
    let first = 1 + u32::try_from(step.options.len() + step.exceptions.len()).ok()?;
    let outcomes = || (first..).zip(&step.outcomes);
    let branches: Vec<u32> = match word {
        // As it should be, or not: every outcome is one of the two.
        "ok" | "failed" => outcomes().map(|(branch, _)| branch).collect(),
        _ => {
            let fits = |when: &When| when.is(word);
            let of_word = outcomes().filter(|(_, it)| it.when.iter().any(|when| fits(&when.value)));
            of_word.map(|(branch, _)| branch).collect()
        }
    };
    let both_sides = |when: &When| matches!(when, When::Outside) && matches!(word, "below" | "above");
    let unclear = outcomes().any(|(_, it)| it.when.iter().any(|when| both_sides(&when.value)));
    (!branches.is_empty() && !unclear).then_some(branches)
}
