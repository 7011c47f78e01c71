//! A procedure calls itself, perhaps over others.
use super::{Rule, Subject, every_action};
use crate::model::Action;
use crate::report::{Finding, Severity};

pub static RULE: Rule = Rule {
    id: "follows-itself",
    severity: Severity::Error,
    waivable: false,
    summary: "A procedure follows itself, perhaps over others, or requires itself",
    explain: "\
`follow` means: work through that procedure here, then come back. Where that leads to this one again, the learner comes \
to the same line once more and never gets past it. A procedure that requires itself can never be begun.

Follow the procedure that was meant. To go back within this one: `repeat from LABEL, at most 2 times`.",
    bad: "\
parts
    cover \"Bearing cover\"

clean cover
follow EX-001
",
    good: "\
parts
    cover \"Bearing cover\"

clean cover
follow EX-002
follow EX-003
",
    check,
};

fn check(subject: &Subject<'_>, findings: &mut Vec<Finding>) {
    let Some(procedure) = subject.procedure() else { return };
    let own = procedure.number.as_str();
    for action in procedure.steps().flat_map(every_action::of_step) {
        let Action::Follow(follow) = action else { continue };
        let Some(number) = &follow.call.number else { continue };
        let (text, help) = if number.as_str() == own {
            let text = format!("`follow {own}` begins this procedure again, and never ends");
            (text, "Follow the procedure that was meant; to go back within this one, `repeat from LABEL`")
        } else if let Some(over) = subject.register.leads_back(own, number.as_str()) {
            let over = if over.is_empty() { String::new() } else { format!(", over {}", over.join(" and ")) };
            let called = &number.value;
            let text = format!("`follow {called}` leads back to this procedure{over}, and never ends");
            (text, "Take one of these calls out: a procedure that is followed must come to its end")
        } else {
            continue;
        };
        findings.push(Finding::new(RULE.id, number.span, text).help(help));
    }
    let header = &procedure.header;
    for (calls, what) in [
        (&header.requires, "requires itself, so that it can never be begun"),
        (&header.afterwards, "comes after itself, so that it never ends"),
    ] {
        let numbers = calls.iter().flatten().filter_map(|call| call.number.as_ref());
        for number in numbers.filter(|number| number.as_str() == own) {
            let finding = Finding::new(RULE.id, number.span, format!("`{own}` {what}"));
            findings.push(finding.help("Name the procedure that was meant, or `none`"));
        }
    }
}
