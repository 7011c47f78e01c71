//! A part goes on after what has to cover it.
use super::obligations::{self, Broken};
use super::{Rule, Subject};
use crate::ledger::Kind;
use crate::report::{Finding, Severity};

pub static RULE: Rule = Rule {
    id: "fitted-over",
    severity: Severity::Error,
    waivable: true,
    summary: "A part goes on after what has to cover it",
    explain: "\
The sequence cannot be worked: the cover is on and the part that belongs under it is still on the bench. Or it \
is worked, and the part is forced in from the side.

What a part `holds` goes on before it.",
    bad: "\
parts
    ring    \"Retaining ring\"  holds bearing
    bearing \"Bearing\"

remove ring, bearing from \"the shaft\"
install ring on \"the shaft\"
install bearing on \"the shaft\"
",
    good: "\
parts
    ring    \"Retaining ring\"  holds bearing
    bearing \"Bearing\"

remove ring, bearing from \"the shaft\"
install bearing on \"the shaft\"
install ring on \"the shaft\"
",
    check,
};

fn check(subject: &Subject<'_>, findings: &mut Vec<Finding>) {
    findings.extend(obligations::of(subject, &[Kind::FittedOver]).map(|broken| {
        let Broken { name, other, .. } = &broken;
        let text = format!("`{name}` goes on after `{other}`, which holds it");
        let help = format!("Fit `{name}` before `{other}`, or mend its `holds`");
        broken.held(broken.finding(RULE.id, &text, &format!("`{other}` went on here"), help))
    }));
}
