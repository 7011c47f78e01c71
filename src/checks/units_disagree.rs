//! A value and the same value in a second unit are not the same.
use super::{Rule, Subject};
use crate::model::Slip;
use crate::report::{Finding, Severity};
use crate::source::Span;

pub static RULE: Rule = Rule {
    id: "units-disagree",
    severity: Severity::Error,
    waivable: true,
    summary: "A value and the same value in a second unit are not the same",
    explain: "\
Who has the one wrench works to the one figure, who has the other to the other, and one of them is
wrong; in published manuals it has been tenfold. Two figures must agree within 3 % or half of the
last figure, whichever is more.

Find out which is right, and leave the second unit out: Cotter prints it, rounded so that it never
leaves the limits. Waive the rule where a source that must be quoted says both.
",
    bad: r#"parts
    shims "Shim" x4

measure shims "height of the stack" 12.0 to 12.4 mm (0.47 to 0.88 in) as stack
    if outside: stop "Fit other shims."
"#,
    good: r#"parts
    shims "Shim" x4

measure shims "height of the stack" 12.0 to 12.4 mm (0.47 to 0.49 in) as stack
    if outside: stop "Fit other shims."
"#,
    check,
};

fn check(subject: &Subject<'_>, findings: &mut Vec<Finding>) {
    for slip in &subject.document.slips {
        if let Slip::UnitsDisagree { span, first, second, second_span, converted } = slip
            && !is_empty_range(span.to(*second_span), subject)
        {
            let message =
                format!("`{first}` and `{second}` are not the same; a reader follows one of the two");
            findings.push(
                Finding::new(RULE.id, *second_span, message)
                    .label(*span, format!("this is {converted}"))
                    .help(
                        "Find out which is right and leave the other out: the sheet prints the second unit",
                    ),
            );
        }
    }
}

/// A range that holds no value has its finding, and agrees with nothing.
fn is_empty_range(span: Span, subject: &Subject<'_>) -> bool {
    subject.slips_in(span).any(|slip| matches!(slip, Slip::EmptyRange { .. }))
}
