//! The safety messages of a procedure, each said once with all the steps where it holds.
use super::Sheet;
use crate::model::in_force::last_step;
use crate::model::message::{Message, Signal};
use std::collections::HashMap;
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
    let mut found = Found::default();
    let last = sheet.procedure.steps().last().map_or(0, |step| step.number);
    for section in &sheet.procedure.sections {
        let end = section.steps.last().map_or(0, |step| step.number);
        for step in &section.steps {
            for message in &step.messages {
                let steps = step.number..=last_step(message, step.number, end, last);
                found.take(message, Some(steps));
            }
        }
        for message in &section.stranded {
            found.take(message, None);
        }
    }
    let mut warnings = found.warnings;
    for warning in &mut warnings {
        warning.steps = joined(std::mem::take(&mut warning.steps));
    }
    warnings.sort_by_key(|warning| std::cmp::Reverse(warning.message.signal.value));
    warnings
}

/// What a message says: the same for all that say the same.
#[derive(PartialEq, Eq, Hash)]
struct Said<'a> {
    signal: Signal,
    class: &'a str,
    wear: Vec<&'a str>,
    words: [Option<&'a str>; 5],
}

impl<'a> Said<'a> {
    /// Mere notes are no hazards, and say nothing here.
    fn by(message: &'a Message) -> Option<Said<'a>> {
        let words = [&message.hazard_text, &message.harm, &message.avoid, &message.first_aid, &message.text];
        Some(Said {
            signal: message.signal.value,
            class: &message.hazard.as_ref()?.value.name,
            wear: message.wear.iter().map(|it| it.value.name.as_str()).collect(),
            words: words.map(|it| it.as_ref().map(|prose| &*prose.source)),
        })
    }
}

#[derive(Default)]
struct Found<'a> {
    warnings: Vec<Warning<'a>>,
    /// Where each stands among them.
    places: HashMap<Said<'a>, usize>,
}

impl<'a> Found<'a> {
    /// Adds the message, or its steps to an earlier one that says the same.
    fn take(&mut self, message: &'a Message, steps: Option<Steps>) {
        let Some(said) = Said::by(message) else { return };
        let place = *self.places.entry(said).or_insert(self.warnings.len());
        if place == self.warnings.len() {
            self.warnings.push(Warning { message, steps: Vec::new() });
        }
        if let Some(warning) = self.warnings.get_mut(place) {
            warning.steps.extend(steps);
        }
    }
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
