//! A detail stands where it means nothing.
use super::{Rule, Subject};
use crate::model::Slip;
use crate::report::{Finding, Severity};

pub static RULE: Rule = Rule {
    id: "misplaced-detail",
    severity: Severity::Error,
    waivable: false,
    summary: "A detail stands where it means nothing",
    explain: "\
`harm:` under a step belongs to a message that is not there; `because:` in the header explains no
step. What the line says would be in no sheet, and its author would believe that it is.

Move the line to the statement it speaks of.
",
    bad: r#"check "make sure that the pump is cold"
    if not ok: stop "Let the pump cool down."
    equipment: F40 transfer pump
"#,
    good: r#"check "make sure that the pump is cold"
    if not ok: stop "Let the pump cool down."
    because: A hot cover warps when it comes off.
"#,
    check,
};

fn check(subject: &Subject<'_>, findings: &mut Vec<Finding>) {
    for slip in &subject.document.slips {
        if let Slip::MisplacedDetail { key, belongs } = slip {
            let message = format!("`{}:` means nothing here and would be lost", key.value);
            findings.push(Finding::new(RULE.id, key.span, message).help(format!("It belongs {belongs}")));
        }
    }
}
