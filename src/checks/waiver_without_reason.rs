//! A waiver does not say why.
use super::{Rule, Subject};
use crate::model::document::Waiver;
use crate::report::{Finding, Severity};

pub static RULE: Rule = Rule {
    id: "waiver-without-reason",
    severity: Severity::Error,
    waivable: false,
    summary: "A waiver gives no reason, so it waives nothing",
    explain:
        "A waived rule is a decision that the next person to revise the procedure has to understand and may \
have to take back. Without the reason nobody dares to touch it, or everybody does.

Write the reason in quotes after the rule's name. Until then the finding that the waiver names stays.",
    bad: r#"check "make sure that the pump is cold"
    waive: unused-declaration
    if not ok: stop "Let the pump cool down."
"#,
    good: r#"tools
    hook "Seal hook"
        waive: unused-declaration "Learners choose between the hook and their fingers."

check "make sure that the pump is cold"
    if not ok: stop "Let the pump cool down."
"#,
    check,
};

/// The loop makes these findings while it applies the waivers.
fn check(_: &Subject<'_>, _: &mut Vec<Finding>) {}

/// The finding for a waiver without a reason.
pub fn finding(waiver: &Waiver) -> Finding {
    let rule = &waiver.rule.value;
    Finding::new(
        RULE.id,
        waiver.span,
        format!("The waiver of `{rule}` gives no reason, so it waives nothing"),
    )
    .help(format!("Say why in quotes: `waive: {rule} \"…\"`"))
}
