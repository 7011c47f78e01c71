//! What to go through before the work starts: every hazard and all protective equipment, with the steps where each
//! comes up.
use crate::model::hazard::Wear;
use crate::model::in_force::last_step;
use crate::model::message::Message;
use crate::sheets::{Sheet, html, panel, signs};
use std::ops::RangeInclusive;

/// Everything that the procedure warns of.
pub struct Briefing<'a> {
    hazards: Vec<Entry<'a>>,
    wear: Vec<(&'a Wear, Vec<Steps>)>,
}

/// The numbers of steps next to each other.
type Steps = RangeInclusive<u32>;

/// One message, said once for all places where it stands with the same words.
struct Entry<'a> {
    message: &'a Message,
    /// Empty where it stands before no step: it is for all of the work.
    steps: Vec<Steps>,
}

impl<'a> Briefing<'a> {
    pub fn of(sheet: &Sheet<'a>) -> Briefing<'a> {
        let mut found: Vec<Entry<'a>> = Vec::new();
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
        // Most severe first; the order of the steps within.
        found.sort_by_key(|entry| std::cmp::Reverse(entry.message.signal.value));
        Briefing { wear: wear(&found), hazards: found }
    }

    pub fn section(&self, sheet: &Sheet<'_>) -> String {
        let mut out = String::new();
        if self.hazards.is_empty() {
            return out;
        }
        html::element(&mut out, "p", "", sheet.label("briefing-says"));
        html::open(&mut out, "div", "briefing");
        for (index, entry) in self.hazards.iter().enumerate() {
            let place = place(sheet, &entry.steps);
            panel::panel(&mut out, sheet, entry.message, &format!("briefing-{}", index + 1), Some(&place));
        }
        html::close(&mut out, "div");
        if !self.wear.is_empty() {
            out.push('\n');
            html::element(&mut out, "h3", "", sheet.label("protective-equipment"));
            html::open(&mut out, "ul", "wear big");
            for (wear, steps) in &self.wear {
                signs::wear_item(&mut out, sheet.context.words, wear, &place(sheet, steps));
            }
            html::close(&mut out, "ul");
        }
        out
    }
}

/// Adds the message, or its steps to an earlier one that says the same. Mere notes are no hazards.
fn take<'a>(found: &mut Vec<Entry<'a>>, message: &'a Message, steps: Option<Steps>) {
    if message.hazard.is_none() {
        return;
    }
    let entry = match found.iter_mut().find(|entry| says_the_same(entry.message, message)) {
        Some(entry) => entry,
        None => {
            found.push(Entry { message, steps: Vec::new() });
            let Some(entry) = found.last_mut() else { return };
            entry
        }
    };
    entry.steps.extend(steps);
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

/// Each piece of equipment that is asked for, in the order of the table, with its steps.
fn wear<'a>(hazards: &[Entry<'a>]) -> Vec<(&'a Wear, Vec<Steps>)> {
    let mut found = Vec::new();
    for wear in Wear::all() {
        let asking = || hazards.iter().filter(|it| it.message.wear.iter().any(|asked| asked.value == wear));
        if asking().next().is_some() {
            // Where one message asks for it all the time, the steps of the others say nothing more.
            let always = asking().any(|it| it.steps.is_empty());
            let steps = asking().flat_map(|it| it.steps.iter().cloned());
            found.push((wear, if always { Vec::new() } else { joined(steps.collect()) }));
        }
    }
    found
}

/// In order, with those that touch or overlap as one.
fn joined(mut steps: Vec<Steps>) -> Vec<Steps> {
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

/// "Steps 12, 24–26" with links to the first of each; markup.
fn place(sheet: &Sheet<'_>, steps: &[Steps]) -> String {
    let mut out = String::new();
    if steps.is_empty() {
        html::escape(&mut out, sheet.label("all-of-the-work"));
        return out;
    }
    html::escape(&mut out, sheet.label("comes-up-at"));
    for (index, range) in joined(steps.to_vec()).iter().enumerate() {
        out.push_str(if index > 0 { ", " } else { " " });
        let (first, last) = (*range.start(), *range.end());
        let words = if first == last { first.to_string() } else { format!("{first}–{last}") };
        html::step_link(&mut out, first, &words);
    }
    out
}
