//! A waiver hides nothing.
use super::suggestion::did_you_mean;
use super::{Rule, Subject};
use crate::model::document::Waiver;
use crate::report::{Finding, Severity};

pub static RULE: Rule = Rule {
    id: "waiver-not-needed",
    severity: Severity::Warning,
    waivable: false,
    summary: "A waiver hides nothing",
    explain: "\
A waiver that no longer hides a finding keeps its place in the file and will hide the next real
fault of that kind without anyone having decided so.

Take the line out. If it should hide something, look at the rule's name, and put the waiver under
the very statement or declaration that has the finding, or in the header for the whole file. A rule
that speaks of what could not be read cannot be waived, since nobody knows what the sheet should say
there.
",
    bad: r#"check "make sure that the pump is cold"
    waive: unused-declaration "No reason holds where nothing is waived."
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

/// For a waiver of a rule that finds nothing where the waiver holds.
pub fn idle(waiver: &Waiver) -> Finding {
    let message = format!("The rule `{}` finds nothing here, so the waiver hides nothing", waiver.rule.value);
    Finding::new(RULE.id, waiver.span, message).help("Take the line out, or put it where the finding is")
}

/// For a waiver of a rule that does not exist.
pub fn unknown(waiver: &Waiver) -> Finding {
    let message = format!("No rule is called `{}`, so the waiver hides nothing", waiver.rule.value);
    let help = did_you_mean(&super::near(&waiver.rule.value));
    Finding::new(RULE.id, waiver.rule.span, message)
        .help(help.unwrap_or_else(|| "Copy the rule's name from the finding".to_owned()))
}

/// For a waiver of a rule that may not be waived.
pub fn refused(waiver: &Waiver, rule: &Rule) -> Finding {
    let message = format!("`{}` cannot be waived: the sheet would have a hole there", rule.id);
    Finding::new(RULE.id, waiver.rule.span, message)
        .help("Mend what the rule speaks of, and take the waiver out")
}
