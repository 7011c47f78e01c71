//! A number is followed by a unit that nothing knows.
use super::suggestion::did_you_mean;
use super::{Rule, Subject};
use crate::model::Slip;
use crate::report::{Finding, Severity};

pub static RULE: Rule = Rule {
    id: "unknown-unit",
    severity: Severity::Error,
    waivable: false,
    summary: "A number has a unit that Cotter does not know",
    explain: "\
A unit that is guessed wrong is a wrong torque. Cotter knows the spellings the trade writes, `N.m`,
`Nm`, `ft-lb`, `lbf·in`, `kgf.m`, `thou`, `psi`, `degC` and their like, and guesses none.

Mend the spelling.
",
    bad: r#"parts
    shims "Shim" x4

measure shims "height of the stack" 12.0 to 12.4 milimeters as stack
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
        if let Slip::UnknownUnit { unit, near } = slip {
            let message = format!("`{}` is no unit Cotter knows, and it guesses none", unit.value);
            let times = (unit.value == "x").then(|| {
                "A number of pieces is `x5` in a declaration and `5 of screws` in a step; how often is `10 times`".to_owned()
            });
            let help = times
                .or_else(|| did_you_mean(near))
                .unwrap_or_else(|| "Write the unit as the trade does: `N.m`, `mm`, `bar`".to_owned());
            findings.push(Finding::new(RULE.id, unit.span, message).help(help));
        }
    }
}
