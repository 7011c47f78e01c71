//! An order of tightening leaves a fastener out, or comes to one twice.
use super::patterns::{self, Patterned};
use super::{Rule, Subject};
use crate::model::fastener::pattern::is_whole;
use crate::model::torque::Pattern;
use crate::report::{Finding, Severity};
use std::collections::HashSet;

pub static RULE: Rule = Rule {
    id: "broken-order",
    severity: Severity::Error,
    waivable: true,
    summary: "An order of tightening leaves a fastener out or names one twice",
    explain: "Who works to the numbers leaves the missing fastener finger tight, and nobody sees it: every number on the \
sheet was done.

An order names each fastener of the set once, by its number: on a circle clockwise from the top, in rows from the top \
left. The order of one pass may leave some out, as where the long bolts go first, but has none twice.",
    bad: "\
parts
    screws \"Cover screw\"  x4  torque 8 to 10 N.m order 1 3 2

tools
    wrench-s \"Torque wrench S\"  range 2 to 12 N.m

clean screws
tighten screws with wrench-s
",
    good: "\
parts
    screws \"Cover screw\"  x4  torque 8 to 10 N.m order 1 3 2 4

tools
    wrench-s \"Torque wrench S\"  range 2 to 12 N.m

clean screws
tighten screws with wrench-s
",
    check,
};

fn check(subject: &Subject<'_>, findings: &mut Vec<Finding>) {
    let mut seen = HashSet::new();
    for it in patterns::all(subject) {
        let Pattern::Order(order) = &it.pattern.value else { continue };
        if is_whole(order, it.count) {
            continue;
        }
        let Some(what) = fault(order, &it) else { continue };
        let place = it.place(subject);
        if seen.insert(place) {
            let text = format!("Of the {} `{}` the order {what}", it.count, it.object.word.value);
            let help = format!("Name each number from 1 to {} once", it.count);
            findings.push(Finding::new(RULE.id, place, text).help(help));
        }
    }
}

fn fault(order: &[u32], it: &Patterned<'_>) -> Option<String> {
    let mut met = HashSet::new();
    let twice =
        order.iter().find(|number| !met.insert(**number)).map(|number| format!("comes to {number} twice"));
    let far = order.iter().find(|number| !(1..=it.count).contains(*number));
    let far = far.map(|number| format!("has a number {number}, which is none of them"));
    let left_out = (1..=it.count).find(|number| !met.contains(number)).filter(|_| !it.of_pass);
    twice.or(far).or(left_out.map(|number| format!("leaves out {number}")))
}
