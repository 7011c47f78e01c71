//! A line or lead is taken off and not connected again.
use super::obligations::{self, Broken};
use super::{Rule, Subject};
use crate::ledger::Kind;
use crate::report::{Finding, Severity};

pub static RULE: Rule = Rule {
    id: "left-disconnected",
    severity: Severity::Error,
    waivable: true,
    summary: "A line or lead is taken off and not connected again",
    explain: "\
A hose left off pours oil on the floor at the first start; a lead left off is a fault nobody can find.

What is disconnected is connected again before the end, or the header says that it stays so (`leaves: \"hose \
disconnected\"`).",
    bad: "\
parts
    hose  \"Drain hose\"
    valve \"Drain valve\"

disconnect hose from valve
clean valve
",
    good: "\
parts
    hose  \"Drain hose\"
    valve \"Drain valve\"

disconnect hose from valve
clean valve
connect hose to valve
",
    check,
};

fn check(subject: &Subject<'_>, findings: &mut Vec<Finding>) {
    findings.extend(obligations::of(subject, &[Kind::LeftDisconnected]).map(|broken| {
        let Broken { name, .. } = &broken;
        let end = broken.breach.other.map(|end| obligations::name(subject, end));
        let (text, end) = match end {
            Some(end) => (
                format!("`{name}` is parted from `{end}` here and connected again at its other end alone"),
                end,
            ),
            None => (format!("`{name}` is disconnected here and never connected again"), "…"),
        };
        let help = format!("Add `connect {name} to {end}`, or say in `leaves:` that it stays disconnected");
        broken.finding(RULE.id, &text, "", help)
    }));
}
