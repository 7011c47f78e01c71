//! A fastener that is turned past yield may go back in.
use super::bolt_length::bolt_length;
use super::judged::{ends, fastener, surface};
use super::{Rule, Subject};
use crate::model::declarations::Part;
use crate::model::fastener::preload::{Fastener, force, limits};
use crate::model::quantity::as_float;
use crate::model::tightening::Tightening;
use crate::model::torque::PassTarget;
use crate::report::{Finding, Severity};
use crate::source::Span;
use std::collections::HashSet;

pub static RULE: Rule = Rule {
    id: "torque-to-yield-reused",
    severity: Severity::Warning,
    waivable: true,
    summary: "A fastener is turned past yield by torque and angle and is not `single-use`",
    explain: "A bolt tightened by torque and angle stretches past yield and stays longer. The second time it necks, \
and breaks in the block.

The rule adds to the preload of the torque what the angle stretches: three quarters of pitch times turn, over the \
length in the part's text (`M8 x 65`), ten diameters where there is none, by Hooke's law with 205 GPa. Where that \
is over the yield load of the class, the part is to be `single-use`, or to have a `reuse-if` with the maker's limit \
of stretch or necking.",
    bad: "\
parts
    bolts \"Head bolt, M8 x 65\"  x8  thread M8, class 10.9, oiled, torque 20 N.m then 90 deg

tools
    wrench \"Torque wrench M\"  range 10 to 50 N.m

clean bolts
tighten bolts with wrench
",
    good: "\
parts
    bolts \"Head bolt, M8 x 65\"  x8  thread M8, class 10.9, oiled, single-use, torque 20 N.m then 90 deg

tools
    wrench \"Torque wrench M\"  range 10 to 50 N.m

clean new bolts
tighten bolts with wrench
",
    check,
};

fn check(subject: &Subject<'_>, findings: &mut Vec<Finding>) {
    let may_come_back =
        |part: &Part| part.thread.is_some() && part.single_use.is_none() && part.reuse_if.is_none();
    let mut said = HashSet::new();
    for tightening in subject.tightenings() {
        let Some(of) = tightening.fastener.filter(|it| may_come_back(it.part)) else { continue };
        if let Some((fastener, force, at)) = stretched(tightening, of.part, subject)
            && said.insert(of.id)
        {
            findings.push(finding(tightening, of.part, &fastener, force, at, subject));
        }
    }
}

/// All its angle passes together, in degrees, and where the first stands.
fn angle(tightening: &Tightening<'_>) -> Option<(f64, Span)> {
    let angles = tightening.torque.passes.iter().filter_map(|pass| match &pass.target {
        PassTarget::Angle(angle) => angle.lower().or(angle.upper()).map(|angle| (as_float(angle), pass.span)),
        _ => None,
    });
    angles.reduce(|(sum, first), (angle, _)| (sum + angle, first))
}

/// The fastener, the force it would bear by Hooke's law, and where the angle stands; none short of yield.
fn stretched(
    tightening: &Tightening<'_>,
    part: &Part,
    subject: &Subject<'_>,
) -> Option<(Fastener, f64, Span)> {
    let (degrees, at) = angle(tightening)?;
    let fastener = fastener(part, surface(tightening, subject).map(|it| it.0))?;
    let (least, most) = ends(&tightening.torque).next().and_then(limits).unwrap_or((0.0, 0.0));
    let start = fastener.preload(least, most).usual;
    let force = fastener.turned(start, degrees, bolt_length(part));
    (force > fastener.yield_load()?).then_some((fastener, force, at))
}

fn finding(
    tightening: &Tightening<'_>,
    part: &Part,
    fastener: &Fastener,
    reached: f64,
    at: Span,
    subject: &Subject<'_>,
) -> Finding {
    let name = &part.thing.name.value;
    let text = format!(
        "`{name}` is turned past yield and is not single-use: stretched once, it breaks the next time"
    );
    let help = format!("Declare `{name}` `single-use`, or give it a `reuse-if` with the maker's limit");
    let place = if subject.owns(at) { at } else { tightening.span() };
    let mut finding = Finding::new(RULE.id, place, text).help(help);
    if let (Some(thread), Some(limit)) = (&part.thread, fastener.yield_load())
        && subject.owns(thread.designation.span)
    {
        let sum = format!(
            "torque and turn would bring it to about {}; it yields at {}",
            force(reached),
            force(limit)
        );
        finding = finding.label(thread.designation.span, sum);
    }
    finding
}
