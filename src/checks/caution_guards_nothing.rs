//! A safety message has no step to guard.
use super::{Rule, Subject, missing_caution};
use crate::model::Step;
use crate::model::document::Section;
use crate::model::message::{Message, Scope, Signal};
use crate::report::{Finding, Severity};
use std::cell::OnceCell;
use std::ptr;

pub static RULE: Rule = Rule {
    id: "caution-guards-nothing",
    severity: Severity::Error,
    waivable: true,
    summary: "A safety message has no step to guard",
    explain:
        "A message that no step follows is either in the wrong place, so that the step it was meant for goes \
unguarded, or left over from a step that is gone. Readers learn from such messages to skip them all.

A message guards the step that follows it in its section, the next few, the section, or all steps until a \
label. It guards nothing where a section or the file ends first, or where its label was passed before it \
begins. A plain `note` may stand above the first `section`: it speaks of the whole procedure.",
    bad: "\
parts
    cover \"Bearing cover\"

section \"Take down\"

clean cover
caution cutting
    hazard: The edge of the cover is sharp.
    harm:   Cut fingers.
    avoid:  Hold the cover by its flat faces.

section \"Look\"

inspect cover \"cracks\"
    if cracked: stop \"Order a cover.\"
",
    good: "\
parts
    cover \"Bearing cover\"

note \"The maker's current information prevails.\"

section \"Look\"

caution cutting for section
    hazard: The edge of the cover is sharp.
    harm:   Cut fingers.
    avoid:  Hold the cover by its flat faces.
clean cover
inspect cover \"cracks\"
    if cracked: stop \"Order a cover.\"
",
    check,
};

fn check(subject: &Subject<'_>, findings: &mut Vec<Finding>) {
    let Some(procedure) = subject.procedure() else { return };
    // Few procedures have a message that ends at a label.
    let all = OnceCell::new();
    let steps = || all.get_or_init(|| procedure.steps().collect::<Vec<&Step>>()).as_slice();
    // And few one that stands behind its step.
    let told = OnceCell::new();
    for (at, section) in procedure.sections.iter().enumerate() {
        for step in &section.steps {
            findings.extend(step.messages.iter().filter_map(|message| backwards(message, step, &steps)));
        }
        let told = |message: &Message| {
            told.get_or_init(|| missing_caution::told_of(subject)).contains(&ptr::from_ref(message))
        };
        let idle = |message: &&Message| !introduces(message, at, section) && !told(message);
        findings.extend(section.stranded.iter().filter(idle).map(nothing_follows));
    }
}

/// A note on the whole procedure, above its first section.
fn introduces(message: &Message, section: usize, within: &Section) -> bool {
    message.signal.value == Signal::Note
        && section == 0
        && within.title.is_none()
        && !within.steps.iter().any(|step| !step.actions.is_empty())
}

fn nothing_follows(message: &Message) -> Finding {
    let word = message.signal.value.word();
    let what = if message.signal.value == Signal::Note { "explains" } else { "guards" };
    Finding::new(
        RULE.id,
        message.span,
        format!("This {word} {what} nothing: no step follows it in its section"),
    )
    .help("Put it before the step it is about, under that step's `section`, or take it out")
}

/// Its scope ends at a label that was passed before the message begins.
fn backwards<'s>(message: &Message, step: &Step, steps: &dyn Fn() -> &'s [&'s Step]) -> Option<Finding> {
    let Scope::Until { label, step: Some(end) } = &message.scope else { return None };
    if *end >= step.number {
        return None;
    }
    let at = steps().binary_search_by_key(end, |earlier| earlier.number).ok()?;
    let last = steps().get(at)?;
    let word = message.signal.value.word();
    let text = format!(
        "This {word} guards nothing: `{}` is step {end}, and the {word} begins at step {}",
        label.value, step.number
    );
    let finding = Finding::new(RULE.id, label.span, text)
        .label(last.span, format!("`{}` is given here", label.value))
        .help("Name a later step, or put the message before the steps it guards");
    Some(finding)
}
