//! Boxes and blanks for the rounds of a repeat: steps that are done again for another place.
use super::steps::write_on;
use crate::model::action::Repeat;
use crate::model::{Action, Step};
use crate::sheets::{Sheet, blanks, html};

/// For each place that a `repeat … for` of this step names: a box a step, and what is to be written down again.
pub fn render(out: &mut String, sheet: &Sheet<'_>, step: &Step) {
    for action in &step.actions {
        let Action::Repeat(repeat) = action else { continue };
        for place in &repeat.for_each {
            round(out, sheet, repeat, &place.value);
        }
    }
}

fn round(out: &mut String, sheet: &Sheet<'_>, repeat: &Repeat, place: &str) {
    let Some(first) = repeat.from.step else { return };
    let last = repeat.to.as_ref().and_then(|jump| jump.step).unwrap_or(first);
    let again = || sheet.procedure.steps().filter(move |step| (first..=last).contains(&step.number));
    html::open(out, "div", "rounds");
    html::open(out, "h3", "");
    html::author(out, sheet.context.own(), &html::sentence_case(&place.replace('-', " ")));
    html::close(out, "h3");
    html::open(out, "ul", "again");
    for step in again() {
        out.push_str("<li><span class=\"box small\"></span>");
        html::number(out, step.number);
        html::close(out, "li");
    }
    html::close(out, "ul");
    html::open(out, "div", "blanks");
    for step in again() {
        for blank in blanks::of(sheet, step) {
            write_on(out, sheet, &blank, Some(step.number));
        }
    }
    html::close(out, "div");
    html::close(out, "div");
}
