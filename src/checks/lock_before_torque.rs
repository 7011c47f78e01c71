//! A pin, tab or wire is closed before the final torque.
use super::obligations::{self, Broken};
use super::{Rule, Subject};
use crate::ledger::Kind;
use crate::report::{Finding, Severity};

pub static RULE: Rule = Rule {
    id: "lock-before-torque",
    severity: Severity::Error,
    waivable: true,
    summary: "A pin, tab or wire is closed before the final torque",
    explain: "\
The pin is in and the nut can no longer be turned to its torque, or it is turned and shears the pin.

What locks a fastener goes on after the last stage of its tightening.",
    bad: "\
parts
    nut       \"Castle nut\"  thread M12, class 8, dry, torque 40 to 60 N.m align slot by tightening, not above 60 N.m
    split-pin \"Split pin\"   single-use, locks nut

tools
    wrench \"Torque wrench\" range 10 to 100 N.m

remove split-pin from nut; discard split-pin
loosen nut
install new split-pin in nut
tighten nut with wrench
",
    good: "\
parts
    nut       \"Castle nut\"  thread M12, class 8, dry, torque 40 to 60 N.m align slot by tightening, not above 60 N.m
    split-pin \"Split pin\"   single-use, locks nut

tools
    wrench \"Torque wrench\" range 10 to 100 N.m

remove split-pin from nut; discard split-pin
loosen nut
tighten nut with wrench
install new split-pin in nut
",
    check,
};

fn check(subject: &Subject<'_>, findings: &mut Vec<Finding>) {
    findings.extend(obligations::of(subject, &[Kind::LockBeforeTorque]).map(|broken| {
        let Broken { name, other, .. } = &broken;
        let (text, since) = if other.is_empty() {
            let since = "not tightened since here".to_owned();
            (format!("`{name}` is locked before it has its torque"), since)
        } else {
            (
                format!("`{name}` is tightened after `{other}` has locked it"),
                format!("`{other}` went in here"),
            )
        };
        broken.finding(RULE.id, &text, &since, "Tighten first, then lock")
    }));
}
