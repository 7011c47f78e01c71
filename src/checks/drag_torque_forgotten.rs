//! A locking nut's torque leaves out its drag.
use super::judged::ends;
use super::{Rule, Subject};
use crate::model::declarations::Part;
use crate::model::tightening::Tightening;
use crate::report::{Finding, Severity};
use std::collections::HashSet;

pub static RULE: Rule = Rule {
    id: "drag-torque-forgotten",
    severity: Severity::Advice,
    waivable: true,
    summary: "A locking nut is tightened to a torque without `plus drag`",
    explain: "A locking nut takes torque to turn before it clamps anything. Set the wrench to the bare value, and \
what the insert eats is missing from the clamp.

A part is a locking nut where its text says so (`locking nut`, `self-locking`, `prevailing torque`, `insert nut`), \
or where its `reuse-if` asks for a drag or prevailing torque. Measure what it takes to turn it on the thread and \
add that to the value (AC 43.13-1B, 7-40): write `plus drag` behind the torque. Where the source gives a value that \
has the drag in it, or lets it be left out, set the rule aside with that reason.",
    bad: "\
parts
    nut \"Self-locking nut\"  single-use, thread M10, class 8, oiled, torque 40 to 45 N.m

tools
    wrench \"Torque wrench M\"  range 10 to 50 N.m

clean new nut
tighten nut with wrench
",
    good: "\
parts
    nut \"Self-locking nut\"  single-use, thread M10, class 8, oiled, torque 40 to 45 N.m plus drag

tools
    wrench \"Torque wrench M\"  range 10 to 50 N.m

clean new nut
tighten nut with wrench
",
    check,
};

fn check(subject: &Subject<'_>, findings: &mut Vec<Finding>) {
    let mut said = HashSet::new();
    for tightening in subject.tightenings().iter().filter(|it| it.torque.plus_drag.is_none()) {
        let Some(of) = tightening.fastener.filter(|it| drags(it.part)) else { continue };
        if ends(&tightening.torque).next().is_some() && said.insert(of.id) {
            findings.push(finding(tightening, of.part, subject));
        }
    }
}

/// Whether it takes torque to turn before it clamps.
fn drags(part: &Part) -> bool {
    // A lock nut may also be the second of two, which does not drag.
    const NUTS: [&str; 4] = ["locking nut", "self-locking", "prevailing", "insert nut"];
    const DRAG: [&str; 3] = ["drag", "prevailing", "running torque"];
    let says = |text: &str, words: &[&str]| words.iter().any(|word| contains(text, word));
    says(part.thing.text.as_str(), &NUTS)
        || part.reuse_if.as_ref().is_some_and(|text| says(text.as_str(), &DRAG))
}

/// Whatever the case; `word` is in small letters.
fn contains(text: &str, word: &str) -> bool {
    text.as_bytes().windows(word.len()).any(|piece| piece.eq_ignore_ascii_case(word.as_bytes()))
}

fn finding(tightening: &Tightening<'_>, part: &Part, subject: &Subject<'_>) -> Finding {
    let torque = ends(&tightening.torque).next();
    let span = torque.map(|value| value.span()).filter(|span| subject.owns(*span));
    let value = torque.map_or_else(String::new, |value| value.print());
    let name = &part.thing.name.value;
    let text = format!("`{name}` drags on its thread, and {value} leaves that out");
    let help = "Add what it takes to turn it: `plus drag` behind the torque";
    let finding = Finding::new(RULE.id, span.unwrap_or(tightening.span()), text).help(help);
    let told = part.reuse_if.as_ref().map_or(part.thing.text.span, |text| text.span);
    if subject.owns(told) { finding.label(told, "a locking nut") } else { finding }
}
