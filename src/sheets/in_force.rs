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
pub struct InForce<'a> {
    held: Vec<Held<'a>>,
    /// The number of the procedure's last step.
    last: u32,
}

impl<'a> InForce<'a> {
    /// At the start of the procedure, where none holds.
    pub fn new(procedure: &Procedure) -> InForce<'a> {
        let last = procedure.sections.iter().filter_map(|section| section.steps.last()).next_back();
        InForce { held: Vec::new(), last: last.map_or(0, |step| step.number) }
    }

    /// Those of earlier steps that hold at `step` and guard people; `section_end` is the number of its section's last step.
    pub fn at(&mut self, step: &'a Step, section_end: u32) -> Vec<Held<'a>> {
        self.held.retain(|held| held.last >= step.number);
        let now = self.held.clone();
        for (index, message) in step.messages.iter().enumerate() {
            let last = match message.scope {
                Scope::NextStep => continue,
                Scope::NextSteps(count) => step.number.saturating_add(count.saturating_sub(1)),
                Scope::Section => section_end,
                Scope::Until { step, .. } => step.unwrap_or(self.last),
            };
            if message.signal.value > Signal::Notice && last > step.number {
                self.held.push(Held { message, from: step.number, index, last });
            }
        }
        now
    }
}
