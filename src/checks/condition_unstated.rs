//! A torque on a thread whose state nobody states.
use super::judged::{ends, surface};
use super::{Rule, Subject};
use crate::model::quantity::Quantity;
use crate::model::tightening::Tightening;
use crate::report::{Finding, Severity};
use std::collections::HashSet;

pub static RULE: Rule = Rule {
    id: "condition-unstated",
    severity: Severity::Advice,
    waivable: true,
    summary: "A torque does not say whether the thread is dry, oiled or plated",
    explain: "Oil lets the same torque pull a third more and up to twice as much: a torque meant dry stretches the \
oiled screw, one meant oiled leaves the dry one loose.

Write `dry`, `oiled` or `plated` behind the torque, or with the part. A step that puts a thread locker or a \
lubricant on the thread says it too. The rule looks at parts with a `thread`.",
    bad: "\
parts
    screws \"Cover screw\"  x4  thread M6, class 8.8, torque 8 to 10 N.m

tools
    wrench \"Torque wrench S\"  range 2 to 12 N.m

clean screws
tighten screws with wrench
",
    good: "\
parts
    screws \"Cover screw\"  x4  thread M6, class 8.8, dry, torque 8 to 10 N.m

tools
    wrench \"Torque wrench S\"  range 2 to 12 N.m

clean screws
tighten screws with wrench
",
    check,
};

fn check(subject: &Subject<'_>, findings: &mut Vec<Finding>) {
    if subject.document.declarations.parts.iter().all(|part| part.thread.is_none()) {
        return;
    }
    let mut said = HashSet::new();
    for tightening in subject.tightenings() {
        let Some(of) = tightening.fastener.filter(|it| it.part.thread.is_some()) else { continue };
        if surface(tightening, subject).is_some() {
            continue;
        }
        if let Some(value) = ends(&tightening.torque).next()
            && said.insert(of.id)
        {
            findings.push(finding(tightening, value, of.part.thing.name.as_str(), subject));
        }
    }
}

fn finding(tightening: &Tightening<'_>, value: &Quantity, name: &str, subject: &Subject<'_>) -> Finding {
    let own = Some(value.span()).filter(|span| subject.owns(*span));
    let text = format!("{} for `{name}`: on a dry thread, an oiled or a plated one?", value.print());
    let help = "Say what the source says: `dry`, `oiled` or `plated`";
    Finding::new(RULE.id, own.unwrap_or(tightening.span()), text).help(help)
}
