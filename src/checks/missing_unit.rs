//! A number has no unit.
use super::suggestion::one_of;
use super::{Rule, Subject};
use crate::model::Slip;
use crate::report::{Finding, Severity};

pub static RULE: Rule = Rule {
    id: "missing-unit",
    severity: Severity::Error,
    waivable: false,
    summary: "A number has no unit",
    explain: "\
`25` is a snug bolt in newton metres, and a bolt that falls out in inch pounds. Who knows the
machine guesses right; a learner guesses.

Write the unit behind the number, or behind the last number of a range: `8 to 10 N.m`.
",
    bad: r#"parts
    shims "Shim" x4

measure shims "height of the stack" 12.0 to 12.4 as stack
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
        if let Slip::MissingUnit { number, likely } = slip {
            let message = format!("`{}` has no unit, so the reader has to guess it", number.value);
            let written: Vec<String> = likely.iter().map(|unit| format!("{} {unit}", number.value)).collect();
            let help = one_of(&written).map_or_else(
                || "Write the unit behind the number".to_owned(),
                |forms| format!("Write {forms}"),
            );
            findings.push(Finding::new(RULE.id, number.span, message).help(help));
        }
    }
}
