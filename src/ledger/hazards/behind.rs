//! Messages that stand behind the step they are about, and are read when its work is done.
use super::{Demand, fits};
use crate::model::{Message, Procedure};
use std::collections::HashSet;
use std::ptr;

/// A message that would guard against a demand if it stood before its step, and stands right behind it instead.
#[derive(Debug, Clone, Copy)]
pub struct Behind<'a> {
    pub message: &'a Message,
    /// It guards against something that follows.
    pub is_needed: bool,
}

/// For each of the procedure's demands the message that stands behind its step; none where there is no such, or a
/// message guards already.
pub fn behind<'a>(demands: &[Demand<'a>], procedure: &'a Procedure) -> Vec<Option<Behind<'a>>> {
    let guarding: HashSet<*const Message> =
        demands.iter().filter_map(|it| it.guarded_by).map(ptr::from_ref).collect();
    // Each step with the messages that follow it; both go through the steps in their order.
    let mut places = procedure.sections.iter().flat_map(|section| {
        let next = section.steps.iter().skip(1).map(|step| step.messages.as_slice());
        section.steps.iter().zip(next.chain([section.stranded.as_slice()]))
    });
    let mut place = places.next();
    let message = |demand: &Demand<'a>| {
        while place.is_some_and(|(step, _)| step.number < demand.step.number) {
            place = places.next();
        }
        let (_, messages) = place.filter(|_| demand.guarded_by.is_none())?;
        let message = messages.iter().find(|it| it.hazard.is_some() && fits(demand.row, it))?;
        Some(Behind { message, is_needed: guarding.contains(&ptr::from_ref(message)) })
    };
    demands.iter().map(message).collect()
}
