//! A torque lies so low on a wrench's scale that the wrench need not be true there.
use super::wrenches::Worst;
use super::{Rule, Subject};
use crate::model::fastener::wrench::{Fit, scale};
use crate::model::quantity::Quantity;
use crate::report::{Finding, Severity};

pub static RULE: Rule = Rule {
    id: "wrench-too-large",
    severity: Severity::Warning,
    waivable: true,
    summary: "A torque lies under a fifth of the wrench's full scale",
    explain: "The deviation a torque wrench may have is promised from 20 % of its full scale upwards (ISO 6789-1). \
Below that a large wrench clicks when it likes, and the hand at the end of a long lever feels nothing of a small \
screw.

Name a smaller wrench, one with the torque near the middle of its scale.",
    bad: "\
parts
    screw \"Cover screw\"  torque 6 to 8 N.m

tools
    wrench-m \"Torque wrench M\"  range 5 to 50 N.m

clean screw
tighten screw with wrench-m
",
    good: "\
parts
    screw \"Cover screw\"  torque 6 to 8 N.m

tools
    wrench-s \"Torque wrench S\"  range 2 to 12 N.m

clean screw
tighten screw with wrench-s
",
    check,
};

fn check(subject: &Subject<'_>, findings: &mut Vec<Finding>) {
    for step in subject.measured() {
        let Some((worst, value)) = step.worst().filter(|(worst, _)| worst.fit == Fit::Low) else { continue };
        let better = step.best(subject).filter(|tool| tool.thing.name != worst.wrench.thing.name);
        let name = worst.wrench.thing.name.as_str();
        let word = step.work.tools.iter().find(|tool| tool.word.value == name).map(|tool| tool.word.span);
        let place = word.unwrap_or(step.work.verb_span);
        let Some(text) = text(&worst, value) else { continue };
        let mut finding = Finding::new(RULE.id, place, text);
        if subject.owns(value.span()) {
            finding = finding.label(value.span(), "the torque");
        }
        findings.push(match better.and_then(|tool| Some((&tool.thing.name.value, scale(tool)?))) {
            Some((better, range)) => {
                let help = format!("Use `{better}`: its scale is {}", range.print());
                finding.edit(place, better.as_str()).guessed().help(help)
            }
            None => finding.help("Name a smaller wrench, one with the torque near the middle of its scale"),
        });
    }
}

fn text(worst: &Worst<'_>, value: &Quantity) -> Option<String> {
    let range = scale(worst.wrench)?.print();
    let name = &worst.wrench.thing.name.value;
    let set = value.scaled(worst.share).ok()?.print();
    Some(format!("{set} is under a fifth of the full scale of `{name}`, {range}: it need not be true there"))
}
