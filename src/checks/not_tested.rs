//! Something that matters to safety goes back and is not tried.
use super::obligations::{self, Broken};
use super::{Rule, Subject};
use crate::ledger::Kind;
use crate::report::{Finding, Severity};

pub static RULE: Rule = Rule {
    id: "not-tested",
    severity: Severity::Warning,
    waivable: true,
    summary: "Something that matters to safety goes back and is not tried",
    explain: "\
A pressurised, live or filled part was off and is on again, and nothing after that shows that it holds.

End with a `test`, a `measure`, an `inspect` under load or a `run`; or name in `afterwards:` the procedure that \
does.",
    bad: "\
parts
    hose \"Pressure hose\"  contains \"oil\"

disconnect hose from \"the pump\"
connect hose to \"the pump\"
",
    good: "\
parts
    hose \"Pressure hose\"  contains \"oil\"

disconnect hose from \"the pump\"
connect hose to \"the pump\"
inspect hose \"both ends, for oil\" as hose-tight
    if wet: stop \"Seal the joint again.\"
",
    check,
};

fn check(subject: &Subject<'_>, findings: &mut Vec<Finding>) {
    findings.extend(obligations::of(subject, &[Kind::NotTested]).map(|broken| {
        let Broken { name, .. } = &broken;
        let text = format!("`{name}` goes back and nothing after it shows that it holds");
        broken.finding(
            RULE.id,
            &text,
            "",
            "Add a closing `test`, `measure` or `inspect`, or name in `afterwards:` the procedure that tests",
        )
    }));
}
