//! A procedure is called that the workspace does not have.
use super::suggestion::did_you_mean;
use super::{Rule, Subject};
use crate::model::Slip;
use crate::report::{Finding, Severity};

pub static RULE: Rule = Rule {
    id: "unknown-procedure",
    severity: Severity::Error,
    waivable: true,
    summary: "A procedure is called that the workspace does not have",
    explain: r#"A learner who is sent to FW-PMP-020 and finds no such sheet asks around, or skips it. And what that
procedure brings about, a drained pump or a locked switch, cannot be counted on.

Mend the number. For a document from outside write its title alone, in quotes: `follow "Pump maker's
bulletin 7"`. Waive the rule where the sheet is kept in another workspace.
"#,
    bad: "\
follow EX-020
",
    good: "\
follow EX-002
follow EX-003
",
    check,
};

fn check(subject: &Subject<'_>, findings: &mut Vec<Finding>) {
    for slip in &subject.document.slips {
        if let Slip::UnknownProcedure { number, near } = slip {
            let message = format!("No procedure of this workspace has the number `{}`", number.value);
            let help = did_you_mean(near)
                .unwrap_or_else(|| "For a document from outside write its title alone, in quotes".to_owned());
            findings.push(Finding::new(RULE.id, number.span, message).help(help));
        }
    }
}
