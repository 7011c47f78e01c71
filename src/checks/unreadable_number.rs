//! A number cannot be read.
use super::{Rule, Subject};
use crate::model::Slip;
use crate::report::{Finding, Severity};

pub static RULE: Rule = Rule {
    id: "unreadable-number",
    severity: Severity::Error,
    waivable: false,
    summary: "A number cannot be read as one",
    explain: "\
A fraction over nothing, or more digits than any gauge shows, has no value that could be checked or
converted.

Write decimals with a point, `0.05`, fractions as `3/8` or `1 7/16`, thousands as they are or with a
comma before three digits, `1,200`.
",
    bad: r#"parts
    shims "Shim" x4

measure shims "height of the stack" 1/0 mm as stack
    if outside: stop "Fit other shims."
"#,
    good: r#"parts
    shims "Shim" x4

measure shims "height of the stack" 1/2 to 3/4 mm as stack
    if outside: stop "Fit other shims."
"#,
    check,
};

fn check(subject: &Subject<'_>, findings: &mut Vec<Finding>) {
    for slip in &subject.document.slips {
        if let Slip::UnreadableNumber { number, why } = slip {
            let message = format!("`{}` cannot be read: {why}", number.value);
            findings.push(
                Finding::new(RULE.id, number.span, message)
                    .help("Write decimals with a point, and fractions as `3/8` or `1 7/16`"),
            );
        }
    }
}
