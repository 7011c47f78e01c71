//! The safety messages of a procedure, each said once with all the steps where it holds.
use super::Sheet;
use crate::model::in_force::last_step;
use crate::model::message::Message;
use std::ops::RangeInclusive;

/// The numbers of steps next to each other.
pub type Steps = RangeInclusive<u32>;

/// One message, said once for all places where it stands with the same words.
pub struct Warning<'a> {
    pub message: &'a Message,
    /// In order and apart; empty where it stands before no step: it is for all of the work.
    pub steps: Vec<Steps>,
}

/// Every message that names a hazard, most severe first, then in the order of the steps.
pub fn of<'a>(sheet: &Sheet<'a>) -> Vec<Warning<'a>> {
    let mut found: Vec<Warning<'a>> = Vec::new();
    let last = sheet.procedure.steps().last().map_or(0, |step| step.number);
    for section in &sheet.procedure.sections {
        let end = section.steps.last().map_or(0, |step| step.number);
        for step in &section.steps {
            for message in &step.messages {
                let steps = step.number..=last_step(message, step.number, end, last);
                take(&mut found, message, Some(steps));
            }
        }
        for message in &section.stranded {
            take(&mut found, message, None);
        }
    }
    for warning in &mut found {
        warning.steps = joined(std::mem::take(&mut warning.steps));
    }
    found.sort_by_key(|warning| std::cmp::Reverse(warning.message.signal.value));
    found
}

/// Adds the message, or its steps to an earlier one that says the same. Mere notes are no hazards.
fn take<'a>(found: &mut Vec<Warning<'a>>, message: &'a Message, steps: Option<Steps>) {
    if message.hazard.is_none() {
        return;
    }
    let warning = match found.iter_mut().find(|warning| says_the_same(warning.message, message)) {
        Some(warning) => warning,
        None => {
            found.push(Warning { message, steps: Vec::new() });
            let Some(warning) = found.last_mut() else { return };
            warning
        }
    };
    warning.steps.extend(steps);
}

fn says_the_same(one: &Message, other: &Message) -> bool {
    let class = |message: &Message| message.hazard.as_ref().map(|it| &it.value.name);
    let words = |message: &Message| {
        [&message.hazard_text, &message.harm, &message.avoid, &message.first_aid, &message.text]
            .map(|it| it.as_ref().map(|prose| prose.source.to_string()))
    };
    one.signal.value == other.signal.value
        && class(one) == class(other)
        && one.wear.iter().map(|it| it.value).eq(other.wear.iter().map(|it| it.value))
        && words(one) == words(other)
}

/// In order, with those that touch or overlap as one.
pub fn joined(mut steps: Vec<Steps>) -> Vec<Steps> {
    steps.sort_by_key(|range| (*range.start(), *range.end()));
    let mut out: Vec<Steps> = Vec::new();
    for range in steps {
        match out.last_mut() {
            Some(last) if *range.start() <= last.end().saturating_add(1) => {
                *last = *last.start()..=*last.end().max(range.end());
            }
            _ => out.push(range),
        }
    }
    out
}
