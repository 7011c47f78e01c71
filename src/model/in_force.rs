//! Which messages hold at a step: those that stand before it, and earlier ones that have not run out.
use super::message::{Message, Scope};
use super::{Procedure, Step};

/// A message that stands before an earlier step and has not run out.
#[derive(Debug, Clone, Copy)]
pub struct Held<'a> {
    pub message: &'a Message,
    /// The step it stands before.
    pub from: u32,
    /// Its index among that step's messages.
    pub index: usize,
    /// The last step it holds for.
    last: u32,
}

/// The number of the last step that a message before step `first` holds for. `section_end` and `end` are those of
/// the last step of its section and of the procedure.
pub fn last_step(message: &Message, first: u32, section_end: u32, end: u32) -> u32 {
    let last = match message.scope {
        Scope::NextStep => first,
        Scope::NextSteps(count) => first.saturating_add(count.saturating_sub(1)).min(end),
        Scope::Section => section_end,
        Scope::Until { step, .. } => step.unwrap_or(end),
    };
    last.max(first)
}

/// Follows the messages through the steps in order.
#[derive(Debug)]
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

    /// Those of earlier steps that hold at `step` and guard people. Steps are asked for in order, each before
    /// [`InForce::leave`] is called with it.
    pub fn enter(&mut self, step: &Step) -> &[Held<'a>] {
        self.held.retain(|held| held.last >= step.number);
        &self.held
    }

    /// Takes up what stands before `step` and holds longer; `section_end` is the number of its section's last step.
    pub fn leave(&mut self, step: &'a Step, section_end: u32) {
        for (index, message) in step.messages.iter().enumerate() {
            let last = last_step(message, step.number, section_end, self.last);
            if message.guards_people() && last > step.number {
                self.held.push(Held { message, from: step.number, index, last });
            }
        }
    }
}
