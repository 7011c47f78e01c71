//! A torque is asked for that no wrench of the shop can show.
use super::wrenches;
use super::{Rule, Subject};
use crate::report::{Finding, Severity};

pub static RULE: Rule = Rule {
    id: "no-wrench-fits",
    severity: Severity::Warning,
    waivable: true,
    summary: "No torque wrench is named, and none that is declared has the torque on its scale",
    explain: "The mechanic would look through the whole drawer and find no wrench that can be set to this torque, \
with the machine open on the bench.

Declare the wrench the work needs, here or in the shop's catalogue, and name it after `with`. Where two wrenches \
share the passes, name both. If none of the shop's wrenches looks right, look at the torque and its unit again.",
    bad: "\
parts
    nut \"Shaft nut\"  torque 450 to 500 N.m

tools
    wrench-s \"Torque wrench S\"  range 2 to 12 N.m
    key      \"Hexagon key\"

clean nut with key
tighten nut
do \"hang the torque wrench up\" with wrench-s
",
    good: "\
parts
    nut \"Shaft nut\"  torque 450 to 500 N.m

tools
    wrench-xl \"Torque wrench XL\"  range 140 to 700 N.m

clean nut
tighten nut with wrench-xl
",
    check,
};

fn check(subject: &Subject<'_>, findings: &mut Vec<Finding>) {
    for step in subject.measured().iter().filter(|step| !step.has_wrench(subject)) {
        if step.best(subject).is_some() || !wrenches::any(subject) {
            continue;
        }
        let values: Vec<String> = step.values.iter().map(|value| value.print()).collect();
        let text = format!(
            "No torque wrench is named for {}, and none that is declared covers it",
            values.join(", ")
        );
        let finding = Finding::new(RULE.id, step.work.verb_span, text)
            .help("Declare a torque wrench whose scale holds it, and name it after `with`");
        findings.push(match step.values.last().filter(|value| subject.owns(value.span())) {
            Some(value) => finding.label(value.span(), "the torque"),
            None => finding,
        });
    }
}
