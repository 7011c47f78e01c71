//! A torque on a thread whose class nobody states.
use super::judged::ends;
use super::{Rule, Subject};
use crate::model::declarations::Part;
use crate::report::{Finding, Severity};
use std::collections::HashSet;

pub static RULE: Rule = Rule {
    id: "class-unknown",
    severity: Severity::Advice,
    waivable: true,
    summary: "A threaded part has a torque and neither class nor grade",
    explain: "The torque that is right for a class 10.9 screw pulls the thread of a class 5.8 one. Who fetches a new \
screw from the bin has to know which.

A part with a `thread` and a torque says its `class` (metric, stainless) or `grade` (inch). With it the torque is \
held against what the fastener bears.

Read it off the head. Plugs, banjo bolts, unions, fittings and sensors have no class and need none here. Where \
nothing is stamped on something else, set the rule aside with that reason.",
    bad: "\
parts
    screws \"Cover screw\"  x4  thread M6, dry, torque 8 to 10 N.m

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
    let silent = |part: &&Part| {
        part.strength.is_none() && part.thread.is_some() && subject.owns(part.thing.span) && has_classes(part)
    };
    let parts = &subject.document.declarations.parts;
    if !parts.iter().any(|part| silent(&part)) {
        return;
    }
    let tightened = subject.tightenings().iter().filter(|it| ends(&it.torque).next().is_some());
    let tightened: HashSet<u32> = tightened.filter_map(|it| it.fastener).map(|it| it.id).collect();
    for (id, part) in (0..).zip(parts).filter(|(_, part)| silent(part)) {
        let has_torque = || part.torque.as_ref().is_some_and(|torque| ends(torque).next().is_some());
        if has_torque() || tightened.contains(&id) {
            findings.extend(finding(part));
        }
    }
}

/// Bought by class, not by its own number only.
fn has_classes(part: &Part) -> bool {
    const OTHERS: [&str; 9] =
        ["plug", "banjo", "union", "fitting", "sensor", "switch", "valve", "nipple", "adapter"];
    let mut words = part.thing.text.as_str().split(|c: char| !c.is_alphanumeric());
    !words.any(|word| OTHERS.iter().any(|other| other.eq_ignore_ascii_case(word)))
}

fn finding(part: &Part) -> Option<Finding> {
    let thread = part.thread.as_ref()?;
    let text = format!("`{}` has a torque and no class", part.thing.name.value);
    let metric = thread.designation.as_str().starts_with('M');
    let example = if metric { "class 8.8" } else { "grade 5" };
    let help = format!("Say what is stamped on the head, `{example}`; it is what a new one is bought by");
    let label = "the size alone does not say what it bears";
    let finding = Finding::new(RULE.id, part.thing.name.span, text).help(help);
    Some(finding.label(thread.designation.span, label))
}
