//! A label, figure or tightening list is called that is not there.
use super::once::Once;
use super::suggestion::did_you_mean;
use super::{Rule, Subject};
use crate::model::Slip;
use crate::report::{Finding, Severity};
use std::collections::HashSet;

pub static RULE: Rule = Rule {
    id: "dangling-reference",
    severity: Severity::Error,
    waivable: false,
    summary: "A step, figure or tightening list is referred to that is not there",
    explain: r#""See step 12" that is not step 12 any more sends people to the wrong work, and they do it. So a step
is only ever referred to by its label, and a label that leads nowhere stops the sheet.

Give the step the label with `as NAME`, declare the figure under `figures` or the list under
`torques`, or mend the spelling.
"#,
    bad: r#"check "make sure that the pump is cold" as cold-pump
    if not ok: repeat from cold-pmup, at most 2 times
"#,
    good: r#"check "make sure that the pump is cold" as cold-pump
    if not ok: repeat from cold-pump, at most 2 times
"#,
    check,
};

fn check(subject: &Subject<'_>, findings: &mut Vec<Finding>) {
    let slips = &subject.document.slips;
    let undeclared: HashSet<&str> = slips.iter().filter_map(undeclared).collect();
    let mut once = Once::default();
    for slip in slips {
        if let Slip::DanglingReference { label, expected, near } = slip
            && !undeclared.contains(label.as_str())
        {
            once.push(subject, findings, label, || {
                let message = format!("`{}` leads nowhere; {expected} belongs here", label.value);
                let help = did_you_mean(near).unwrap_or_else(|| {
                    "Label the step with `as`, or declare the thing at the head of the file".to_owned()
                });
                Finding::new(RULE.id, label.span, message).help(help)
            });
        }
    }
}

/// A name with a finding of its own already.
fn undeclared(slip: &Slip) -> Option<&str> {
    if let Slip::UndeclaredName { name, .. } = slip { Some(name.as_str()) } else { None }
}
