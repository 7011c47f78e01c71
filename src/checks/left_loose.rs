//! A fastener is loosened and not tightened again.
use super::obligations::{self, Broken};
use super::{Rule, Subject};
use crate::ledger::Kind;
use crate::report::{Finding, Severity};

pub static RULE: Rule = Rule {
    id: "left-loose",
    severity: Severity::Error,
    waivable: true,
    summary: "A fastener is loosened and not tightened again",
    explain: "\
A nut slackened for an adjustment and forgotten lets go on the road.

What is loosened is tightened again, or taken off and fitted again, before the end.",
    bad: "\
parts
    nut \"Lock nut\"  torque 20 to 25 N.m

loosen nut
",
    good: "\
parts
    nut \"Lock nut\"  thread M10, class 8, dry, torque 20 to 25 N.m

tools
    wrench \"Torque wrench\" range 10 to 50 N.m

loosen nut
tighten nut with wrench
",
    check,
};

fn check(subject: &Subject<'_>, findings: &mut Vec<Finding>) {
    findings.extend(obligations::of(subject, &[Kind::LeftLoose]).map(|broken| {
        let Broken { name, .. } = &broken;
        let text = if broken.breach.since.is_some() {
            format!("`{name}` is loosened here, and not all of it is tightened again")
        } else {
            format!("`{name}` is loosened here and never tightened again")
        };
        let help = format!("Add `tighten {name} with …`");
        broken.finding(RULE.id, &text, "only some of the pieces are tightened here", help)
    }));
}
