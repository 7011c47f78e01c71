//! A fastener is tightened or loosened while it is off.
use super::obligations::{self, Broken};
use super::{Rule, Subject};
use crate::ledger::Kind;
use crate::report::{Finding, Severity};

pub static RULE: Rule = Rule {
    id: "worked-on-while-off",
    severity: Severity::Error,
    waivable: true,
    summary: "A fastener is tightened or loosened while it is off",
    explain: "\
The step that fits it is missing, stands too late, or is only for other models.

Whoever works by the sheet tightens nothing and ticks the box.",
    bad: "\
parts
    screws \"Cover screw\"  x4  thread M6, class 8.8, dry, torque 8 to 10 N.m

tools
    wrench \"Torque wrench\" range 2 to 12 N.m

remove screws from \"the cover\"
tighten screws with wrench
install screws finger tight
",
    good: "\
parts
    screws \"Cover screw\"  x4  thread M6, class 8.8, dry, torque 8 to 10 N.m

tools
    wrench \"Torque wrench\" range 2 to 12 N.m

remove screws from \"the cover\"
install screws in \"the cover\"
tighten screws with wrench
",
    check,
};

fn check(subject: &Subject<'_>, findings: &mut Vec<Finding>) {
    findings.extend(obligations::of(subject, &[Kind::WorkedOnWhileOff]).map(|broken| {
        let Broken { name, .. } = &broken;
        let text = format!("`{name}` is worked on and is off the machine");
        broken.finding(RULE.id, &text, "it came off here", "Fit it first")
    }));
}
