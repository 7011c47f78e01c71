//! A step works on a part that the model does not have.
use super::obligations::{self, Broken};
use super::{Rule, Subject};
use crate::ledger::Kind;
use crate::report::{Finding, Severity};

pub static RULE: Rule = Rule {
    id: "wrong-model-part",
    severity: Severity::Error,
    waivable: true,
    summary: "A step works on a part that the model does not have",
    explain: "\
The reader of the other model looks for a part that is not there, or takes the nearest.

Say which models the step is for, `only: F40`, or mend the models of the part.",
    bad: "\
parts
    port \"Flush port\"  models F40S

clean port
",
    good: "\
parts
    port \"Flush port\"  models F40S

clean port
    only: F40S
",
    check,
};

fn check(subject: &Subject<'_>, findings: &mut Vec<Finding>) {
    findings.extend(obligations::of(subject, &[Kind::WrongModel]).map(|broken| {
        let Broken { name, .. } = &broken;
        let text = format!("`{name}` is not there");
        let finding = broken.finding(RULE.id, &text, "", "Say which models the step is for: `only: …`");
        broken.labelled(
            finding,
            broken.declaration(broken.breach.what),
            "declared here, with the models that have it",
        )
    }));
}
