//! A part comes off and does not go back.
use super::obligations::{self, Broken};
use super::{Rule, Subject};
use crate::ledger::Kind;
use crate::report::{Finding, Severity};

pub static RULE: Rule = Rule {
    id: "left-off",
    severity: Severity::Error,
    waivable: true,
    summary: "A part comes off and does not go back",
    explain: "\
The part that is left on the bench is found when the machine is closed, or by the next user. Followed are the \
steps for each model: what comes off goes back (`install`, `refit`), is discarded and fitted new, or is declared \
`stays off`.

Put in the step that fits it again. Where the procedure leaves it off on purpose, say so in the header: `leaves: \
\"cover removed\"`.",
    bad: "\
parts
    cover  \"Bearing cover\"
    shaft  \"Pump shaft\"

remove cover from shaft
clean shaft
",
    good: "\
parts
    cover  \"Bearing cover\"
    shaft  \"Pump shaft\"

remove cover from shaft
clean shaft
install cover on shaft
",
    check,
};

fn check(subject: &Subject<'_>, findings: &mut Vec<Finding>) {
    findings.extend(obligations::of(subject, &[Kind::LeftOff]).map(|broken| {
        let Broken { name, .. } = &broken;
        let text = format!("`{name}` comes off here and never goes back");
        broken.finding(
            RULE.id,
            &text,
            "",
            "Add the step that fits it, declare the part `stays off`, or say in `leaves:` that it is removed",
        )
    }));
}
