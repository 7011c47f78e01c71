//! A range has its upper limit below its lower one.
use super::{Rule, Subject};
use crate::model::Slip;
use crate::report::{Finding, Severity};

pub static RULE: Rule = Rule {
    id: "empty-range",
    severity: Severity::Error,
    waivable: false,
    summary: "A range holds no value: its upper limit is below its lower one",
    explain: "\
No reading lies between 12.4 and 12.0. Either the two were swapped, or one of them lost a digit, and
then the limit that looks right is worth a second look as well.

Look at the source; write the lower limit first.
",
    bad: r#"parts
    shims "Shim" x4

measure shims "height of the stack" 12.4 to 12.0 mm as stack
    if outside: stop "Fit other shims."
"#,
    good: r#"parts
    shims "Shim" x4

measure shims "height of the stack" 12.0 to 12.4 mm as stack
    if outside: stop "Fit other shims."
"#,
    check,
};

fn check(subject: &Subject<'_>, findings: &mut Vec<Finding>) {
    for slip in &subject.document.slips {
        if let Slip::EmptyRange { span, low, high } = slip {
            let message =
                format!("No value lies between `{low}` and `{high}`: the upper limit is the smaller one");
            findings.push(
                Finding::new(RULE.id, *span, message)
                    .help("Look at the source, and write the lower limit first; do not swap them unseen"),
            );
        }
    }
}
