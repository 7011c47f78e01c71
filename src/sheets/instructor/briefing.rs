//! What to go through before the work starts: every hazard and all protective equipment, with the steps where each
//! comes up.
use crate::model::hazard::Wear;
use crate::sheets::warnings::{self, Steps, Warning, joined};
use crate::sheets::{Sheet, html, panel, signs};

/// Everything that the procedure warns of.
pub struct Briefing<'a> {
    hazards: Vec<Warning<'a>>,
    wear: Vec<(&'a Wear, Vec<Steps>)>,
}

impl<'a> Briefing<'a> {
    pub fn of(sheet: &Sheet<'a>) -> Briefing<'a> {
        let hazards = warnings::of(sheet);
        Briefing { wear: wear(&hazards), hazards }
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

/// Each piece of equipment that is asked for, in the order of the table, with its steps.
fn wear<'a>(hazards: &[Warning<'a>]) -> Vec<(&'a Wear, Vec<Steps>)> {
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

/// "Steps 12, 24–26" with links to the first of each; markup.
fn place(sheet: &Sheet<'_>, steps: &[Steps]) -> String {
    let mut out = String::new();
    if steps.is_empty() {
        html::escape(&mut out, sheet.label("all-of-the-work"));
        return out;
    }
    let one = matches!(steps, [range] if range.start() == range.end());
    html::escape(&mut out, sheet.label(if one { "comes-up-at" } else { "comes-up-at-steps" }));
    for (index, range) in steps.iter().enumerate() {
        out.push_str(if index > 0 { ", " } else { " " });
        let (first, last) = (*range.start(), *range.end());
        let words = if first == last { first.to_string() } else { format!("{first}–{last}") };
        html::step_link(&mut out, first, &words);
    }
    out
}
