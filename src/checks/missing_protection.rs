//! A message warns of a hazard and leaves out what to wear against it.
use super::{Rule, Subject};
use crate::ledger::hazards::Demand;
use crate::model::Message;
use crate::report::{Edit, Finding, Severity};
use crate::source::Span;

pub static RULE: Rule = Rule {
    id: "missing-protection",
    severity: Severity::Warning,
    waivable: true,
    summary: "A safety message leaves out the equipment that its hazard needs",
    explain:
        "A chip in the eye is not avoided by care. The sheet collects what is to be worn at its head, so that it \
is fetched before the work starts; what no message names is missing there and on the person.

Which hazard needs what follows from the step, not from the message alone: eye protection against what flies, \
splashes or blows; gloves against edges, heat and what harms the skin; insulating gloves at live parts; safety \
footwear under loads. It counts what all messages in force at the step ask for. Add it under `wear:`.",
    bad: "\
parts
    ring \"Retaining ring\"  spring-loaded, stays off

warning ejection
    hazard: The ring is under tension and can leave its groove at speed.
    harm:   Eye injury.
    avoid:  Hold a hand over the ring while it comes out.
remove ring from \"the shaft\"
",
    good: "\
parts
    ring \"Retaining ring\"  spring-loaded, stays off

warning ejection
    hazard: The ring is under tension and can leave its groove at speed.
    harm:   Eye injury.
    avoid:  Hold a hand over the ring while it comes out.
    wear:   eye protection
remove ring from \"the shaft\"
",
    check,
};

fn check(subject: &Subject<'_>, findings: &mut Vec<Finding>) {
    if !subject.unread.is_empty() {
        return;
    }
    // One finding a message and piece, however many steps it guards.
    let mut told: Vec<(&Message, &str)> = Vec::new();
    for demand in subject.demands().iter().filter(|demand| demand.lacks_any()) {
        let Some(message) = demand.guarded_by.filter(|message| subject.owns(message.span)) else { continue };
        for wear in demand.lacks() {
            let seen = told.iter().rev().any(|(of, name)| std::ptr::eq(*of, message) && *name == wear.name);
            if !seen && !subject.unclear(message.extent) {
                told.push((message, &wear.name));
                findings.push(finding(message, demand, &wear.name));
            }
        }
    }
}

fn finding(message: &Message, demand: &Demand<'_>, wear: &str) -> Finding {
    let word = message.signal.value.word();
    let text = format!("This {word} does not ask for {wear}: {}", demand.why());
    let mut finding = Finding::new(RULE.id, message.span, text)
        .label(demand.span, "it is needed here")
        .help(format!("Add `{wear}` under `wear:` ({})", demand.row.source));
    finding.edits.push(edit(message, wear));
    finding
}

/// Behind the last piece of its own list; else a list under its first line, with what a standing message has.
fn edit(message: &Message, wear: &str) -> Edit {
    let own = message.wear.last().filter(|last| last.span.file == message.span.file);
    if let Some(last) = own {
        return Edit { span: Span { start: last.span.end, ..last.span }, text: format!(", {wear}") };
    }
    let standing = message.wear.iter().map(|it| it.value.name.as_str());
    let list: Vec<&str> = standing.chain([wear]).collect();
    let span = Span { start: message.span.end, ..message.span };
    Edit { span, text: format!("\n    wear:   {}", list.join(", ")) }
}
