//! Every action of a step and of a procedure: the main line first, then outcomes, options and exceptions.
use crate::model::action::Work;
use crate::model::{Action, Procedure, Step};

/// Every action of `step`, in the order the sheet prints them.
pub fn of_step(step: &Step) -> impl Iterator<Item = &Action> {
    let outcomes = step.outcomes.iter().flat_map(|outcome| &outcome.then);
    let options = step.options.iter().flat_map(|option| &option.actions);
    let exceptions = step.exceptions.iter().flat_map(|exception| &exception.actions);
    step.actions.iter().chain(outcomes).chain(options).chain(exceptions)
}

/// Every action that is work of a verb, in order.
pub fn works(procedure: &Procedure) -> impl Iterator<Item = &Work> {
    procedure.steps().flat_map(of_step).filter_map(Action::work)
}
