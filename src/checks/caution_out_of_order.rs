//! Stacked safety messages do not fall in severity.
use super::{Rule, Subject};
use crate::model::{Message, Step};
use crate::report::{Edit, Finding, Severity};
use crate::source::SourceFile;

pub static RULE: Rule = Rule {
    id: "caution-out-of-order",
    severity: Severity::Warning,
    waivable: true,
    summary: "A milder safety message stands before a more severe one",
    explain:
        "Where several messages guard one step, people read the first with care and the last one least. The \
one that can kill stands first: danger, warning, caution, notice, then notes.

The mend puts the stack in that order and leaves messages of the same signal word as they stand.",
    bad: "\
parts
    ring \"Retaining ring\" spring-loaded, starts off

caution cutting
    hazard: The groove has sharp edges.
    harm:   Cut fingers.
    avoid:  Keep fingers out of the groove.
warning ejection
    hazard: The ring is under tension.
    harm:   Eye injury.
    avoid:  Hold a hand over the ring.
    wear:   eye protection
install ring on \"the shaft\"
",
    good: "\
parts
    ring \"Retaining ring\" spring-loaded, starts off

warning ejection
    hazard: The ring is under tension.
    harm:   Eye injury.
    avoid:  Hold a hand over the ring.
    wear:   eye protection
caution cutting
    hazard: The groove has sharp edges.
    harm:   Cut fingers.
    avoid:  Keep fingers out of the groove.
install ring on \"the shaft\"
",
    check,
};

fn check(subject: &Subject<'_>, findings: &mut Vec<Finding>) {
    findings.extend(subject.contents.detailed.iter().filter_map(|step| out_of_order(step, subject.source)));
}

/// One finding a stack, at its first message that is more severe than the one above it.
fn out_of_order(step: &Step, source: &SourceFile) -> Option<Finding> {
    let pairs = step.messages.iter().zip(step.messages.iter().skip(1));
    let (milder, severer) = pairs.into_iter().find(|(a, b)| a.signal.value < b.signal.value)?;
    let (high, low) = (severer.signal.value.word(), milder.signal.value.word());
    let text = format!("This {high} stands below a {low}; the most severe is read first");
    let mut finding = Finding::new(RULE.id, severer.span, text)
        .label(milder.span, format!("the {low} above it"))
        .help("Order them danger, warning, caution, notice, note");
    finding.edits = sorted(&step.messages, source);
    Some(finding)
}

/// Puts at each place of the stack the message that belongs there.
fn sorted(messages: &[Message], source: &SourceFile) -> Vec<Edit> {
    let mut order: Vec<&Message> = messages.iter().collect();
    order.sort_by_key(|message| std::cmp::Reverse(message.signal.value));
    let moved = messages.iter().zip(order).filter(|(place, message)| place.extent != message.extent);
    moved
        .map(|(place, message)| Edit { span: place.extent, text: source.slice(message.extent).to_owned() })
        .collect()
}
