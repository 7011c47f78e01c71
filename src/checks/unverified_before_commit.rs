//! An alignment is not looked at again before it is fixed for good.
use super::obligations::{self, Broken};
use super::{Rule, Subject};
use crate::ledger::Kind;
use crate::report::{Finding, Severity};

pub static RULE: Rule = Rule {
    id: "unverified-before-commit",
    severity: Severity::Advice,
    waivable: true,
    summary: "An alignment is not looked at again before it is fixed for good",
    explain: "\
Between lining a part up and pressing or clamping it, something else was turned, struck or moved. Half a tooth \
is enough.

Look once more right before the step that cannot be undone.",
    bad: "\
parts
    hub    \"Hub\"
    shaft  \"Shaft\"

tools
    press-tool \"Arbor press\"

align hub, shaft at \"the keyway\"
turn shaft by 1/2 turn
warning crushing
    hazard: The ram closes on the bed.
    harm:   Crushed fingers.
    avoid:  Keep both hands off the part while the ram moves.
    wear:   eye protection
press hub against shaft with press-tool
",
    good: "\
parts
    hub    \"Hub\"
    shaft  \"Shaft\"

tools
    press-tool \"Arbor press\"

align hub, shaft at \"the keyway\"
turn shaft by 1/2 turn
check hub \"the keyways still meet\" as still-lined-up
    if not ok: stop \"Line the hub up again.\"
warning crushing
    hazard: The ram closes on the bed.
    harm:   Crushed fingers.
    avoid:  Keep both hands off the part while the ram moves.
    wear:   eye protection
press hub against shaft with press-tool
",
    check,
};

fn check(subject: &Subject<'_>, findings: &mut Vec<Finding>) {
    findings.extend(obligations::of(subject, &[Kind::UnverifiedBeforeCommit]).map(|broken| {
        let Broken { name, .. } = &broken;
        let text =
            format!("`{name}` is fixed here, and its alignment was not looked at since something moved");
        broken.finding(
            RULE.id,
            &text,
            "it was aligned here",
            format!("Add `check {name} \"…\"` right before it"),
        )
    }));
}
