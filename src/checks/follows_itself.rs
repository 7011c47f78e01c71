//! A procedure calls itself, perhaps over others.
use super::{Rule, Subject};
use crate::report::{Finding, Severity};

pub static RULE: Rule = Rule {
    id: "follows-itself",
    severity: Severity::Error,
    waivable: true,
    summary: "A procedure leads back to itself: it follows, requires or comes after itself",
    explain: "\
`follow` means: work through that procedure here, then come back. Where that leads to this one again, the learner comes \
to the same line once more. A procedure that requires itself can never be begun, and one that comes after itself never ends.

Follow the procedure that was meant. To go back within this one: `repeat from LABEL, at most 2 times`. Waive the rule where no \
machine goes all the way round, because the calls are for other models or hang on what was found.",
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
    for follow in &subject.contents.follows {
        let Some(number) = &follow.call.number else { continue };
        let (text, help) = if number.as_str() == own {
            let text = format!("`follow {own}` begins this procedure again");
            (text, "Follow the procedure that was meant; to go back within this one, `repeat from LABEL`")
        } else if let Some(over) = subject.register.leads_back(own, number.as_str()) {
            let over = if over.is_empty() { String::new() } else { format!(", over {}", over.join(" and ")) };
            let called = &number.value;
            let text = format!("`follow {called}` leads back to this procedure{over}");
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
            findings.push(finding.help("Name the procedure that was meant, or take it out"));
        }
    }
}
