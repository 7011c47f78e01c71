//! A quantity is of a kind that does not fit its place.
use super::{Rule, Subject};
use crate::model::Slip;
use crate::model::quantity::Dimension;
use crate::report::{Finding, Severity};

pub static RULE: Rule = Rule {
    id: "wrong-dimension",
    severity: Severity::Error,
    waivable: false,
    summary: "A quantity is of a kind that does not fit its place",
    explain: "\
A torque in millimetres or a mass in newtons is a slip of the pen, in the number or in the place.
Nobody at the bench can tell which.

Look at the source, and mend the unit or move the value to where it belongs.
",
    bad: r#"parts
    coupling "Coupling half" mass 42 mm

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
        if let Slip::WrongDimension { span, found, expected, context } = slip {
            let written = subject.source.slice(*span);
            let message = format!("`{written}` is {}, which is no value for {context}", with_article(*found));
            let wanted = expected.iter().map(|&it| with_article(it)).collect::<Vec<_>>().join(" or ");
            findings.push(
                Finding::new(RULE.id, *span, message).help(format!(
                    "Look at the source: write {wanted}, or move the value to where it belongs"
                )),
            );
        }
    }
}

/// "a length", "an angle".
fn with_article(dimension: Dimension) -> String {
    let name = dimension.name();
    let article = if name.starts_with(['a', 'e', 'i', 'o', 'u']) { "an" } else { "a" };
    format!("{article} {name}")
}
