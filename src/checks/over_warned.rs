//! The same message stands before step after step.
use super::{Rule, Subject};
use crate::model::message::{Message, Scope, Signal};
use crate::model::{Prose, Step};
use crate::report::{Edit, Finding, Severity};
use crate::source::Span;

pub static RULE: Rule = Rule {
    id: "over-warned",
    severity: Severity::Advice,
    waivable: true,
    summary: "The same safety message stands before one step after another",
    explain: "Who reads the same warning four times running stops reading warnings, and skips the fifth, which \
is a new one.

Let the first guard all of them: `for next 3 steps`, `for section`, or `until` a label. The sheets remind of it \
at each of the steps it holds for. The mend makes one message of the run.",
    bad: "\
parts
    blade \"Blade\"  sharp, stays off
    hub   \"Hub\"

caution cutting
    hazard: The edges are sharp.
    harm:   Deep cuts.
    avoid:  Hold the blade by its middle.
    wear:   cut gloves
remove blade from hub
caution cutting
    hazard: The edges are sharp.
    harm:   Deep cuts.
    avoid:  Hold the blade by its middle.
    wear:   cut gloves
clean blade
",
    good: "\
parts
    blade \"Blade\"  sharp, stays off
    hub   \"Hub\"

caution cutting for next 2 steps
    hazard: The edges are sharp.
    harm:   Deep cuts.
    avoid:  Hold the blade by its middle.
    wear:   cut gloves
remove blade from hub
clean blade
",
    check,
};

fn check(subject: &Subject<'_>, findings: &mut Vec<Finding>) {
    let Some(procedure) = subject.procedure() else { return };
    for section in &procedure.sections {
        for (at, step) in section.steps.iter().enumerate() {
            let before = at.checked_sub(1).and_then(|before| section.steps.get(before));
            for message in step.messages.iter().filter(|message| stands_alone(message)) {
                // Told at the first of the run.
                if before.is_some_and(|before| again(before, message).is_some()) {
                    continue;
                }
                let rest = section.steps.get(at + 1..).unwrap_or(&[]);
                let run: Vec<&Message> = rest.iter().map_while(|later| again(later, message)).collect();
                if !run.is_empty() {
                    findings.push(finding(message, &run));
                }
            }
        }
    }
}

/// Guards one step, by words of its own or by a standing message's.
fn stands_alone(message: &Message) -> bool {
    message.scope == Scope::NextStep && message.signal.value > Signal::Note && message.hazard.is_some()
}

/// The message of the step that says the same.
fn again<'a>(step: &'a Step, message: &Message) -> Option<&'a Message> {
    step.messages.iter().filter(|other| stands_alone(other)).find(|other| is_same(other, message))
}

fn is_same(a: &Message, b: &Message) -> bool {
    if a.signal.value != b.signal.value || a.name.is_some() || b.name.is_some() {
        return false;
    }
    match (&a.standing, &b.standing) {
        (Some(a), Some(b)) => a.value == b.value,
        (None, None) => {
            let class = |message: &Message| message.hazard.as_ref().map(|hazard| hazard.value);
            let texts = |message: &Message| {
                [&message.hazard_text, &message.harm, &message.avoid, &message.text]
                    .map(|it| words(it).to_owned())
            };
            class(a) == class(b) && texts(a) == texts(b)
        }
        _ => false,
    }
}

fn words(prose: &Option<Box<Prose>>) -> &str {
    prose.as_ref().map_or("", |prose| &*prose.source)
}

fn finding(first: &Message, run: &[&Message]) -> Finding {
    let (word, count) = (first.signal.value.word(), run.len() + 1);
    let text = format!("This {word} stands before {count} steps running");
    let mut finding = Finding::new(RULE.id, first.span, text)
        .help(format!("Let it guard them all: `for next {count} steps`"));
    for message in run.iter().take(3) {
        finding = finding.label(message.span, "the same again");
    }
    if let Some(hazard) = &first.hazard {
        let behind = Span { start: hazard.span.end, ..hazard.span };
        finding.edits.push(Edit { span: behind, text: format!(" for next {count} steps") });
        finding.edits.extend(run.iter().map(|message| Edit { span: message.extent, text: String::new() }));
    }
    finding
}
