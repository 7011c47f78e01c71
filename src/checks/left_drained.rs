//! A housing is drained and not filled again.
use super::obligations::{self, Broken};
use super::{Rule, Subject};
use crate::ledger::Kind;
use crate::report::{Finding, Severity};

pub static RULE: Rule = Rule {
    id: "left-drained",
    severity: Severity::Error,
    waivable: true,
    summary: "A housing is drained and not filled again",
    explain: "\
A gearbox started without oil lasts minutes.

What is drained is filled again before the end, or the header says that it is left empty: `leaves: \"pump \
drained\"`.",
    bad: "\
parts
    housing \"Gear housing\"

drain housing until \"no more oil runs out\"
",
    good: "\
parts
    housing \"Gear housing\"

supplies
    oil \"Gear oil\"

drain housing until \"no more oil runs out\"
fill housing using oil until \"oil runs out at the level hole\"
",
    check,
};

fn check(subject: &Subject<'_>, findings: &mut Vec<Finding>) {
    findings.extend(obligations::of(subject, &[Kind::LeftDrained]).map(|broken| {
        let Broken { name, .. } = &broken;
        let text = format!("`{name}` is drained here and never filled again");
        broken.finding(
            RULE.id,
            &text,
            "",
            format!("Add `fill {name} using …`, or say in `leaves:` that it is drained"),
        )
    }));
}
