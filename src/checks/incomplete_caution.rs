//! A safety message leaves out the hazard, the harm or the way to avoid it.
use super::{Rule, Subject};
use crate::model::message::Signal;
use crate::model::{Body, Message, Slip};
use crate::report::{Finding, Severity};
use crate::source::Span;

pub static RULE: Rule = Rule {
    id: "incomplete-caution",
    severity: Severity::Error,
    waivable: true,
    summary: "A safety message does not say what the hazard is, what it does, or how to avoid it",
    explain: "\"Caution!\" alone frightens and helps nobody. A reader needs three things to act: what the hazard is, \
what happens to whom, and what to do so that it does not. ANSI Z535.6 asks for the same three.

Give every danger, warning, caution and notice a hazard class and the details `hazard:`, `harm:` and `avoid:`. \
A message that is needed often stands once in a catalogue, `warning crushing as press-force`, and is called by \
its name; it is checked in the catalogue.",
    bad: "\
parts
    cover \"Bearing cover\"

caution cutting
    hazard: The edge of the cover is sharp.
    harm:   Cut fingers.
clean cover
",
    good: "\
parts
    cover \"Bearing cover\"

caution cutting
    hazard: The edge of the cover is sharp.
    harm:   Cut fingers.
    avoid:  Hold the cover by its flat faces.
clean cover
",
    check,
};

fn check(subject: &Subject<'_>, findings: &mut Vec<Finding>) {
    let document = subject.document;
    match &document.body {
        Body::Procedure(procedure) => {
            findings.extend(procedure.messages().filter_map(|(message, _)| incomplete(message, subject)));
        }
        Body::Catalogue { .. } => {
            let own = document.declarations.messages.iter().filter(|message| subject.owns(message.span));
            findings.extend(own.filter_map(|message| incomplete(message, subject)));
        }
        Body::Unknown => {}
    }
}

fn incomplete(message: &Message, subject: &Subject<'_>) -> Option<Finding> {
    let word = message.signal.value.word();
    let exempt = message.signal.value == Signal::Note || message.standing.is_some();
    let (what, keys) = missing(message);
    // Without a class it may be a call of a standing message that is not known: that has its own finding.
    let called = message.hazard.is_none() && what.len() == 3;
    if exempt || called || what.is_empty() || misspelt(message.extent, subject) {
        return None;
    }
    let text = format!("This {word} does not say {}", listed(&what));
    Some(Finding::new(RULE.id, message.span, text).help(format!("Give {}", listed(&keys))))
}

/// What the message leaves out, in words and as the details to give.
fn missing(message: &Message) -> (Vec<&'static str>, Vec<&'static str>) {
    [
        (message.hazard_text.is_none(), "what the hazard is", "`hazard:`"),
        (message.harm.is_none(), "what it does to whom", "`harm:`"),
        (message.avoid.is_none(), "how to avoid it", "`avoid:`"),
    ]
    .into_iter()
    .filter(|(absent, ..)| *absent)
    .map(|(_, what, form)| (what, form))
    .unzip()
}

/// A detail's key is misspelt and has its own finding; it is probably the one that seems missing.
fn misspelt(extent: Span, subject: &Subject<'_>) -> bool {
    subject.slips_in(extent).any(|slip| matches!(slip, Slip::UnknownDetail { .. }))
}

/// "a, b and c".
fn listed(words: &[&str]) -> String {
    match words.split_last() {
        None => String::new(),
        Some((only, [])) => (*only).to_owned(),
        Some((last, rest)) => format!("{} and {last}", rest.join(", ")),
    }
}
