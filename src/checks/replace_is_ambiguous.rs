//! A step says `replace`.
use super::{Rule, Subject};
use crate::model::Slip;
use crate::report::{Finding, Severity};

pub static RULE: Rule = Rule {
    id: "replace-is-ambiguous",
    severity: Severity::Error,
    waivable: false,
    summary: "A step says `replace`, which readers take in two ways",
    explain: r#"Half the trade reads "replace the gasket" as "fit a new one", the other half as "put it back". The
wrong half puts a used seal back, or waits for a part that was never ordered.

Write `renew` for taking the old one out for good and fitting a new one, `refit` for putting the
same one back.
"#,
    bad: r#"parts
    cover "Bearing cover"

clean cover
replace cover
"#,
    good: r#"parts
    cover "Bearing cover"

remove cover
refit cover
"#,
    check,
};

fn check(subject: &Subject<'_>, findings: &mut Vec<Finding>) {
    for slip in &subject.document.slips {
        if let Slip::ReplaceIsAmbiguous { verb } = slip {
            let message = format!(
                "`{}` means \"fit a new one\" to one reader and \"put it back\" to another",
                verb.value
            );
            findings.push(
                Finding::new(RULE.id, verb.span, message)
                    .help("Write `renew` to fit a new one, `refit` to put the same one back"),
            );
        }
    }
}
