//! What changed between two revisions, as a page to read, to print and to sign. In English, as findings are.
use super::language::PerLanguage;
use super::{Context, SheetError, html, paper, templates};
use crate::compare::{Change, Comparison, Issue};
use serde::Serialize;
use similar::{ChangeTag, TextDiff};

/// What the two sides are called, and what the reader must know of them.
#[derive(Debug, Clone, Copy)]
pub struct Names<'a> {
    pub old: &'a str,
    pub new: &'a str,
    pub notes: &'a [String],
}

#[derive(Serialize)]
struct Page<'a> {
    house: &'a str,
    number: &'a str,
    title: &'a str,
    old: String,
    new: String,
    meant: usize,
    to_sign: usize,
    any: bool,
    notes: &'a [String],
}

static STYLE: PerLanguage<String> = PerLanguage::new();
const STYLES: [&str; 4] = [templates::LOOK, paper::STYLE, paper::SHEET, include_str!("page.css")];

/// Longer texts are shown whole, without marks in them.
const LONGEST_MARKED: usize = 4_000;

/// The page.
///
/// # Errors
/// When its template fails.
pub fn render(found: &Comparison, names: &Names<'_>, context: &Context<'_>) -> Result<String, SheetError> {
    let page = Page {
        house: &context.settings.house,
        number: &found.new.number,
        title: &found.new.title,
        old: side(&found.old, names.old),
        new: side(&found.new, names.new),
        meant: found.meant().count(),
        to_sign: found.to_sign().count(),
        any: !found.changes.is_empty(),
        notes: names.notes,
    };
    let foot = paper::foot(context.words, &found.new.number, &found.new.revision);
    let mut groups = String::new();
    group(&mut groups, "to-sign", "Safety, torques, limits, holds: to be signed", found.to_sign());
    group(&mut groups, "meaning", "Changed in meaning", found.meant().filter(|it| !it.sign_off));
    group(&mut groups, "words-only", "In other words only", found.reworded());
    let texts = [
        ("style", templates::style(&STYLE, &STYLES, context.words)),
        ("page-style", &paper::size(context.settings, &foot)),
        ("groups", &groups),
    ];
    templates::fill("changes", context.words, &page, &texts)
}

fn side(issue: &Issue, name: &str) -> String {
    if issue.revision.is_empty() { name.to_owned() } else { format!("Revision {} ({name})", issue.revision) }
}

fn group<'a>(out: &mut String, anchor: &str, title: &str, changes: impl Iterator<Item = &'a Change>) {
    let mut body = String::new();
    changes.for_each(|change| one(&mut body, change));
    if !body.is_empty() {
        html::section(out, anchor, title, &body);
    }
}

fn one(out: &mut String, change: &Change) {
    html::open(out, "div", "change");
    html::element(out, "p", "what", &html::sentence_case(&what(change)));
    html::element(out, "p", "of", &of(change));
    let (before, after) = marked(&change.before, &change.after);
    line(out, "Was", &before);
    line(out, "Now", &after);
    if change.sign_off {
        out.push_str("<p class=\"agree\"><span class=\"box small\"></span><span class=\"line\">Agreed: name and signature</span><span class=\"line\">Date</span></p>");
    }
    html::close(out, "div");
    out.push('\n');
}

fn what(change: &Change) -> String {
    let head = format!("{} {}", change.kind.name(), change.how.word());
    if change.aspect.is_empty() || change.aspect == change.kind.name() {
        return head;
    }
    format!("{head}: {}", change.aspect)
}

fn of(change: &Change) -> String {
    let step = match (change.step_before, change.step_after) {
        (Some(old), Some(new)) if old != new => format!("Step {new}, before {old}: "),
        (_, Some(new)) => format!("Step {new}: "),
        (Some(old), None) => format!("Step {old} of the old revision: "),
        (None, None) => String::new(),
    };
    let also = change.also.iter().map(|it| it.0.to_string()).collect::<Vec<_>>().join(", ");
    let also = if also.is_empty() { also } else { format!("; the same at step {also}") };
    format!("{step}{}{also}", change.subject)
}

fn line(out: &mut String, name: &str, markup: &str) {
    if markup.is_empty() {
        return;
    }
    html::open(out, "p", "side");
    html::element(out, "b", "", name);
    out.push(' ');
    out.push_str(markup);
    html::close(out, "p");
}

/// Both texts as markup, with what only one of them has as `del` and `ins`.
fn marked(before: &str, after: &str) -> (String, String) {
    let whole = |tag: &str, text: &str| {
        let mut out = String::new();
        if !text.is_empty() {
            html::element(&mut out, tag, "", text);
        }
        out
    };
    if before.is_empty() || after.is_empty() || before.len() + after.len() > LONGEST_MARKED {
        return (whole("del", before), whole("ins", after));
    }
    let (mut old, mut new) = (String::new(), String::new());
    for change in TextDiff::from_words(before, after).iter_all_changes() {
        let text = change.value();
        match change.tag() {
            ChangeTag::Equal => {
                html::escape(&mut old, text);
                html::escape(&mut new, text);
            }
            ChangeTag::Delete => html::element(&mut old, "del", "", text),
            ChangeTag::Insert => html::element(&mut new, "ins", "", text),
        }
    }
    // Words next to each other are one mark.
    (old.replace("</del><del>", ""), new.replace("</ins><ins>", ""))
}
