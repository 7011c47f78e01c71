//! What is said over a step before its words: for which machines, after which finding, by whom, how long.
use super::{Sheet, html, prose, sentences};
use crate::model::{Prose, Step};

/// One line of tags; nothing where the step is for all and for one pair of hands.
pub fn tags(out: &mut String, sheet: &Sheet<'_>, step: &Step) {
    if is_for_all(step) {
        return;
    }
    let mut tags = sentences::limits(sheet, step);
    tags.extend(step.people.as_ref().map(|p| people(sheet, p)));
    tags.extend(step.role.as_ref().map(|r| sheet.own(&html::sentence_case(&r.value))));
    tags.extend(step.time.as_ref().map(|t| html::escaped(&sheet.words.print(t))));
    html::open(out, "p", "tags");
    for tag in tags {
        out.push_str("<span class=\"tag\">");
        out.push_str(&tag);
        out.push_str("</span> ");
    }
    html::close(out, "p");
}

fn is_for_all(step: &Step) -> bool {
    let by_any = step.people.is_none() && step.role.is_none() && step.time.is_none();
    by_any && step.applies.to_all() && step.conditions.is_empty()
}

/// "2 people" for a bare number, else the author's words.
fn people(sheet: &Sheet<'_>, people: &Prose) -> String {
    if let Ok(count) = people.source.trim().parse::<u32>() {
        return sheet.say("people-count", &[("count", count.into())]);
    }
    let mut out = String::new();
    prose::inline(&mut out, people, sheet);
    out
}
