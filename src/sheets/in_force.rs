//! Which earlier messages still hold at a step, so that nobody who starts there misses them.
use crate::model::message::{Message, Scope, Signal};
use crate::model::{Procedure, Step};

/// A message that stands before an earlier step and has not run out.
#[derive(Clone, Copy)]
pub struct Held<'a> {
    pub message: &'a Message,
    /// The step it stands before.
    pub from: u32,
    /// Its index among that step's messages.
    pub index: usize,
    /// The last step it holds for.
    last: u32,
}

/// Follows the messages through the steps in order.
#[derive(Default)]
pub struct InForce<'a> {
    held: Vec<Held<'a>>,
}

impl<'a> InForce<'a> {
    /// Those of earlier steps that hold at `step` and guard people; `section_end` is the number of its section's last step.
    pub fn at(&mut self, step: &'a Step, section_end: u32, procedure: &Procedure) -> Vec<Held<'a>> {
        self.held.retain(|held| held.last >= step.number);
        let now = self.held.clone();
        let last_of_all = procedure.steps().last().map_or(step.number, |s| s.number);
        for (index, message) in step.messages.iter().enumerate() {
            let last = match message.scope {
                Scope::NextStep => continue,
                Scope::NextSteps(count) => step.number.saturating_add(count.saturating_sub(1)),
                Scope::Section => section_end,
                Scope::Until { step, .. } => step.unwrap_or(last_of_all),
            };
            if message.signal.value > Signal::Notice && last > step.number {
                self.held.push(Held { message, from: step.number, index, last });
            }
        }
        now
    }
}
