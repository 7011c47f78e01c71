//! Every action of a step: the main line first, then outcomes, options and exceptions.
use crate::model::{Action, Step};

/// Every action of `step`, in the order the sheet prints them.
pub fn of_step(step: &Step) -> impl Iterator<Item = &Action> {
    step.actions.iter().chain(behind(step))
}

/// Those of outcomes, options and exceptions.
pub fn behind(step: &Step) -> impl Iterator<Item = &Action> {
    let outcomes = step.outcomes.iter().flat_map(|outcome| &outcome.then);
    let options = step.options.iter().flat_map(|option| &option.actions);
    let exceptions = step.exceptions.iter().flat_map(|exception| &exception.actions);
    outcomes.chain(options).chain(exceptions)
}
