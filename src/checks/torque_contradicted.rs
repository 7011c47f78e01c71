//! A step states another torque than the part that it tightens.
use super::{Rule, Subject};
use crate::model::action::TorqueSource;
use crate::model::quantity::{Dimension, Exact, Quantity};
use crate::model::tightening::{Fastener, Tightening};
use crate::model::torque::Torque;
use crate::report::{Finding, Severity};

pub static RULE: Rule = Rule {
    id: "torque-contradicted",
    severity: Severity::Warning,
    waivable: true,
    summary: "A step tightens a part to another torque than the part states",
    explain: "The torque in a step goes before that of its part, and the sheet shows the step's. Where the two have no \
value in common, one of them is wrong: a manual was changed in one place and not in the other, or the line tightens \
the wrong fastener.

A step may stay below the part's torque, to seat a joint first, where a later one reaches it. To go above it nothing \
allows. Take the torque out of the step, or mend the one that is old; where both hold, set the rule aside with that \
reason.",
    bad: "\
parts
    screws \"Cover screw\"  x4  torque 8 to 10 N.m

tools
    wrench-m \"Torque wrench M\"  range 2 to 25 N.m

clean screws
tighten screws to 20 N.m with wrench-m
",
    good: "\
parts
    screws \"Cover screw\"  x4  torque 8 to 10 N.m

tools
    wrench-m \"Torque wrench M\"  range 2 to 25 N.m

clean screws
tighten screws to 5 N.m with wrench-m
tighten screws with wrench-m
",
    check,
};

fn check(subject: &Subject<'_>, findings: &mut Vec<Finding>) {
    let own = |it: &&Tightening<'_>| it.work.torque_source == TorqueSource::Step;
    for tightening in subject.tightenings().iter().filter(own) {
        let Some(fastener) = tightening.fastener else { continue };
        let Some(declared) =
            fastener.part.torque.as_ref().filter(|_| !subject.unclear(fastener.part.thing.span))
        else {
            continue;
        };
        let (Some(step), Some(part)) = (Reach::of(&tightening.torque), Reach::of(declared)) else { continue };
        let is_above = step.least > part.most;
        let is_below = step.most < part.least && !is_reached(subject, fastener.id, &part);
        if is_above || is_below {
            findings.push(finding(subject, &step, &part, fastener));
        }
    }
}

/// Whether any step tightens the part to its own torque.
fn is_reached(subject: &Subject<'_>, id: u32, part: &Reach<'_>) -> bool {
    let of_part = |it: &&Tightening<'_>| it.fastener.is_some_and(|fastener| fastener.id == id);
    subject.tightenings().iter().filter(of_part).any(|it| {
        Reach::of(&it.torque).is_some_and(|step| step.least <= part.most && part.least <= step.most)
    })
}

/// What a torque may come to in the end, of a new fastener or a reused one.
struct Reach<'a> {
    least: Exact,
    most: Exact,
    /// The first of its values.
    said: &'a Quantity,
}

impl<'a> Reach<'a> {
    /// None where no value says it, or a side of it is open.
    fn of(torque: &'a Torque) -> Option<Reach<'a>> {
        let values = [&torque.value, &torque.new, &torque.reused].into_iter().flatten();
        let mut values = values.filter(|value| value.dimension() == Dimension::Torque);
        let first = values.next()?;
        let mut reach = Reach { least: first.lower()?, most: first.upper()?, said: first };
        for value in values {
            reach.least = reach.least.min(value.lower()?);
            reach.most = reach.most.max(value.upper()?);
        }
        Some(reach)
    }
}

fn finding(subject: &Subject<'_>, step: &Reach<'_>, part: &Reach<'_>, fastener: Fastener<'_>) -> Finding {
    let name = &fastener.object.word.value;
    let (here, there) = (step.said.print(), part.said.print());
    let text = format!("The step tightens `{name}` to {here}, and the part says {there}");
    let help = "Leave the torque out here, or mend the one that is wrong; nobody at the bench can tell which";
    let finding = Finding::new(RULE.id, step.said.span(), text).help(help);
    if subject.owns(part.said.span()) {
        finding.label(part.said.span(), "the torque of the part")
    } else {
        finding
    }
}
