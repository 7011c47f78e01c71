//! Procedures for shops whose manuals live in open standards: a procedural data module of S1000D, and a machinery task of
//! OASIS DITA. Both are made from the machine form; what they have no place for stays out, and the reference says what.
mod dita;
mod s1000d;
mod tree;

use super::machine::{self, Machine};
use super::{Context, SheetError};
use crate::model::Document;
use crate::model::message::Signal;
use tree::Element;

/// A standard that a procedure can be written in.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Standard {
    /// OASIS DITA 1.3, part 3, machinery task.
    Dita,
    /// S1000D issue 4.2, procedural data module.
    S1000d,
}

/// The procedure as an XML document, with a line end.
///
/// # Errors
/// When the document is no procedure.
pub fn render(document: &Document, standard: Standard, context: &Context<'_>) -> Result<String, SheetError> {
    let machine = machine::of(document, context)?;
    let (head, root) = match standard {
        Standard::Dita => (dita::HEAD, dita::of(&machine, context.words)),
        Standard::S1000d => (s1000d::HEAD, s1000d::of(&machine, context.words)),
    };
    tree::written(head, &root).map_err(SheetError::Template)
}

/// The words of a fragment of our own HTML: no tags, no entities.
fn words(html: &str) -> String {
    let mut text = String::with_capacity(html.len());
    let mut rest = html;
    while let Some((before, tag)) = rest.split_once('<') {
        text.push_str(before);
        let (tag, after) = tag.split_once('>').unwrap_or((tag, ""));
        // Paragraphs and points of a list stood on lines of their own.
        if tag.starts_with("/p") || tag.starts_with("/li") || tag.starts_with("br") {
            text.push(' ');
        }
        rest = after;
    }
    text.push_str(rest);
    let entities =
        [("&lt;", "<"), ("&gt;", ">"), ("&quot;", "\""), ("&#39;", "'"), ("&#x27;", "'"), ("&amp;", "&")];
    let text = entities.iter().fold(text, |text, (entity, letter)| text.replace(entity, letter));
    text.split_whitespace().collect::<Vec<_>>().join(" ")
}

/// "Ejection: the ring is under tension."
fn titled(machine: &machine::Message, words_of: &super::language::Words) -> Option<String> {
    let class = machine.hazard.and_then(crate::model::hazard::Hazard::find);
    class.map(|class| words_of.hazard(class).to_owned())
}

/// What the message is worth; a note where the word is none.
fn signal(machine: &machine::Message) -> Signal {
    Signal::from_word(machine.signal).unwrap_or(Signal::Note)
}

/// What to wear, in words.
fn wear(machine: &machine::Message, words_of: &super::language::Words) -> Vec<String> {
    let known = machine.wear.iter().filter_map(|name| crate::model::hazard::Wear::find(name));
    known.map(|wear| words_of.wear(wear).to_owned()).collect()
}

/// Up to which step a message holds, where that is not its own.
fn scope(machine: &machine::Message, step: u32, words_of: &super::language::Words) -> Option<String> {
    let until = machine.until_step.to_string();
    (machine.until_step > step).then(|| words_of.say("holds-until", &[("step", until.as_str().into())]))
}

/// "F40S only." and the like: what a step or a part is for.
fn limits(applies: &machine::Applies) -> Option<String> {
    let fitted = applies.if_fitted.then(|| "if fitted".to_owned());
    let serials = applies.serials.as_ref().map(|it| format!("serial numbers {it}"));
    let models = (!applies.models.is_empty()).then(|| applies.models.join(", "));
    let all: Vec<String> = models.into_iter().chain(serials).chain(fitted).collect();
    (!all.is_empty()).then(|| all.join("; "))
}

/// A state or a procedure that is called.
fn called(call: &machine::Call) -> String {
    let all = [call.number.as_deref(), call.title.as_deref(), call.text.as_deref()];
    all.into_iter().flatten().collect::<Vec<_>>().join(", ")
}

/// Letters and digits for an identifier: XML names begin with a letter.
fn identifier(text: &str) -> String {
    let fits = |c: char| c.is_ascii_alphanumeric() || matches!(c, '-' | '_' | '.');
    format!("c-{}", text.chars().map(|c| if fits(c) { c } else { '-' }).collect::<String>())
}

fn element(name: &'static str) -> Element {
    Element::new(name)
}

/// The sentences of a step besides its messages: its limits, actions, outcomes and words.
fn sentences(step: &machine::Step) -> Vec<String> {
    let limits = limits(&step.applies).map(|it| format!("{it}:"));
    let actions = step.actions.iter().map(|it| it.sentence.clone());
    let branches = step.options.iter().chain(&step.exceptions).chain(&step.outcomes);
    let branches = branches.map(|it| it.sentence.clone());
    limits.into_iter().chain(actions).chain(branches).collect()
}

/// What is said of the whole: which machine, and what prevails.
fn preface(machine: &Machine) -> Vec<String> {
    let outcome = machine.header.outcome_html.as_deref().map(words);
    outcome.into_iter().chain([machine.disclaimer.clone()]).collect()
}
