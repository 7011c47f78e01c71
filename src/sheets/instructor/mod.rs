//! The instructor's edition: the bench page with what an instructor has ready: times, a safety briefing, the holds
//! to witness, the kit for all benches, teaching points, and the questions with their answers.
mod briefing;
mod timing;

use super::bench::{self, Extra};
use super::kit::{self, List};
use super::language::PerLanguage;
use super::{Context, Edition, Sheet, SheetError, html, paper, sentences, templates, wording};
use crate::model::{Action, Document, Step};

static STYLE: PerLanguage<String> = PerLanguage::new();
const STYLES: [&str; 4] = [templates::LOOK, paper::STYLE, bench::STYLE_TEXT, include_str!("page.css")];

/// `instructor.html` of a procedure, as a whole page, with the kit for so many benches.
///
/// # Errors
/// When the document is no procedure, or its template fails.
pub fn render(document: &Document, benches: u32, context: &Context<'_>) -> Result<String, SheetError> {
    let sheet = Sheet { edition: Edition::Instructor, ..Sheet::of(document, context)? };
    let mut list = List::new(benches);
    list.add(&sheet);
    let briefing = briefing::Briefing::of(&sheet);
    let holds = holds(&sheet);
    let sections = [
        ("timing", timing::section(&sheet)),
        ("safety-briefing", briefing.section(&sheet)),
        ("holds-to-witness", holds),
    ];
    let (mut contents, mut lead) = (String::new(), String::new());
    for (key, body) in sections.iter().filter(|(_, body)| !body.is_empty()) {
        html::entry(&mut contents, key, sheet.label(key));
        html::section(&mut lead, key, sheet.label(key), body);
    }
    let mut kit = String::new();
    if list.benches > 1 {
        html::element(&mut kit, "p", "kit-for", &kit::heading(&list, context.words));
    }
    kit.push_str(&kit::tables(&list, context, "h3"));
    let style = templates::style(&STYLE, &STYLES, context.words);
    bench::page(
        document,
        &sheet,
        &Extra { style, contents: &contents, lead: &lead, kit: &kit, ..Extra::default() },
    )
}

/// Each signature that somebody gives, with its step.
fn holds(sheet: &Sheet<'_>) -> String {
    let mut rows = String::new();
    for step in sheet.procedure.steps() {
        let after = step.outcomes.iter().flat_map(|outcome| &outcome.then);
        for action in step.actions.iter().chain(after) {
            if matches!(action, Action::Hold(_)) {
                row(&mut rows, sheet, step, action);
            }
        }
    }
    if rows.is_empty() {
        return rows;
    }
    let mut out = String::new();
    html::element(&mut out, "p", "", sheet.label("holds-say"));
    html::open(&mut out, "ul", "holds");
    out.push_str(&rows);
    html::close(&mut out, "ul");
    out
}

fn row(out: &mut String, sheet: &Sheet<'_>, step: &Step, action: &Action) {
    html::open(out, "li", "");
    html::step_link(out, step.number, &sheet.say("step-number", &[("number", step.number.into())]));
    out.push(' ');
    sentences::runs(out, &wording::action(action, &sheet.words));
    html::close(out, "li");
}
