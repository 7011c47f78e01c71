//! Messages that stand behind the step they are about, and are read when its work is done.
use super::{Demand, fits};
use crate::model::document::Section;
use crate::model::{Message, Procedure};
use std::ptr;

/// The message that would guard against the demand if it stood before its step: it stands right behind it instead, and
/// guards against nothing that is known of what follows. `demands` are those of the whole procedure.
pub fn behind<'a>(
    demand: &Demand<'a>,
    demands: &[Demand<'a>],
    procedure: &'a Procedure,
) -> Option<&'a Message> {
    let section = procedure.sections.iter().find(|section| holds(section, demand))?;
    let next = section.steps.iter().skip_while(|step| !ptr::eq(*step, demand.step)).nth(1);
    let messages = next.map_or(&section.stranded, |step| &step.messages);
    let guards =
        |message: &Message| demands.iter().any(|it| it.guarded_by.is_some_and(|by| ptr::eq(by, message)));
    messages.iter().find(|message| message.hazard.is_some() && fits(demand.row, message) && !guards(message))
}

fn holds(section: &Section, demand: &Demand<'_>) -> bool {
    let numbers = section.steps.first().zip(section.steps.last());
    numbers.is_some_and(|(first, last)| (first.number..=last.number).contains(&demand.step.number))
}
