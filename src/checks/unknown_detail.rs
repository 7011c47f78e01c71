//! An indented `key: value` line has a key that nothing knows.
use super::suggestion::did_you_mean;
use super::{Rule, Subject};
use crate::model::Slip;
use crate::report::{Finding, Severity};

pub static RULE: Rule = Rule {
    id: "unknown-detail",
    severity: Severity::Error,
    waivable: false,
    summary: "A detail has a key that nothing knows",
    explain: "\
Details steer the sheet: who does a step, on which model, what happens if a reading is off. A
misspelt key takes its line out of the sheet.

Mend the spelling. If the line is plain prose that happens to have a colon after its first word,
word it so that the colon comes later.
",
    bad: r#"check "make sure that the pump is cold"
    becuase: A hot cover warps when it comes off.
    if not ok: stop "Let the pump cool down."
"#,
    good: r#"check "make sure that the pump is cold"
    because: A hot cover warps when it comes off.
    if not ok: stop "Let the pump cool down."
"#,
    check,
};

fn check(subject: &Subject<'_>, findings: &mut Vec<Finding>) {
    for slip in &subject.document.slips {
        if let Slip::UnknownDetail { key, near } = slip {
            let message = format!("`{}:` is no detail Cotter knows, so the line would be lost", key.value);
            let help = did_you_mean(near)
                .unwrap_or_else(|| "If the line is prose, word it so that the colon comes later".to_owned());
            findings.push(Finding::new(RULE.id, key.span, message).help(help));
        }
    }
}
