//! An attribute is followed by something it cannot take.
use super::{Rule, Subject};
use crate::model::Slip;
use crate::report::{Finding, Severity};
use crate::source::Span;

pub static RULE: Rule = Rule {
    id: "malformed-attribute",
    severity: Severity::Error,
    waivable: false,
    summary: "An attribute is followed by something it cannot take",
    explain: "\
A mass without a number, a match without the part it matches: the fact is half there, and the checks
that live on it stay silent.

Write the attribute in the form the help shows.
",
    bad: r#"parts
    coupling "Coupling half" mass heavy

clean coupling
"#,
    good: r#"parts
    coupling "Coupling half" mass 4.2 kg

clean coupling
"#,
    check,
};

fn check(subject: &Subject<'_>, findings: &mut Vec<Finding>) {
    for slip in &subject.document.slips {
        if let Slip::MalformedAttribute { key, span, wanted } = slip
            && !says_why(key.span.to(*span), subject)
        {
            let message = format!("`{}` cannot take what stands here", key.value);
            findings.push(Finding::new(RULE.id, *span, message).help(format!("Write it as `{wanted}`")));
        }
    }
}

/// A name in the list that nothing declares may be a misspelt attribute that the list has swallowed.
fn says_why(span: Span, subject: &Subject<'_>) -> bool {
    subject.slips_in(span).any(|slip| matches!(slip, Slip::UndeclaredName { .. }))
}
