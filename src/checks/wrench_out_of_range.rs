//! A torque lies outside the scale of the wrench it is measured with.
use super::wrenches::{OfOneStep, Worst};
use super::{Rule, Subject};
use crate::model::Name;
use crate::model::fastener::wrench::{Fit, scale};
use crate::model::quantity::{Exact, Quantity};
use crate::report::{Finding, Severity};
use crate::source::Span;

pub static RULE: Rule = Rule {
    id: "wrench-out-of-range",
    severity: Severity::Error,
    waivable: true,
    summary: "A torque lies outside the scale of the wrench that is named for it",
    explain: "A wrench cannot be set to what is not on its scale. At the bench that ends in a guess past the last \
mark, a bent spring, or the next wrench that comes to hand.

The rule takes the middle of the torque, of each pass and of a check too, and works out what the wrench is set to \
where an adapter makes its lever longer. Name a wrench whose scale holds it; where two are needed, name both: each \
value is read off the one that suits it.",
    bad: "\
parts
    nut \"Clamp nut\"  torque 45 to 55 N.m

tools
    wrench-s \"Torque wrench S\"  range 2 to 12 N.m

clean nut
tighten nut with wrench-s
",
    good: "\
parts
    nut \"Clamp nut\"  torque 45 to 55 N.m

tools
    wrench-l \"Torque wrench L\"  range 40 to 200 N.m

clean nut
tighten nut with wrench-l
",
    check,
};

fn check(subject: &Subject<'_>, findings: &mut Vec<Finding>) {
    for step in subject.measured() {
        if let Some((worst, value)) = step.worst().filter(|(worst, _)| worst.fit > Fit::Low) {
            findings.extend(finding(step, &worst, value, subject));
        }
    }
}

fn finding(
    step: &OfOneStep<'_>,
    worst: &Worst<'_>,
    value: &Quantity,
    subject: &Subject<'_>,
) -> Option<Finding> {
    let side = if worst.fit == Fit::Above { "above" } else { "below" };
    let name = &worst.wrench.thing.name.value;
    let range = scale(worst.wrench)?.print();
    let wanted = value.print();
    let text = if worst.share == Exact::from_integer(1) {
        format!("{wanted} lies {side} the scale of `{name}`, {range}")
    } else {
        let set = value.scaled(worst.share).map_or_else(|_| wanted.clone(), |set| set.print());
        format!("For {wanted} at the fastener `{name}` is set to {set}, {side} its scale, {range}")
    };
    let place = word(step, worst).unwrap_or(step.work.verb_span);
    let mut finding = Finding::new(RULE.id, place, text);
    if subject.owns(value.span()) {
        finding = finding.label(value.span(), "the torque");
    }
    let Some((better, range)) = step.best(subject).and_then(|tool| Some((tool, scale(tool)?))) else {
        return Some(finding.help("Declare a torque wrench whose scale holds it, and name that"));
    };
    let better = &better.thing.name.value;
    let help = format!("Use `{better}`: its scale, {}, holds it", range.print());
    Some(finding.edit(place, better.as_str()).guessed().help(help))
}

/// Where the step names the wrench.
fn word(step: &OfOneStep<'_>, worst: &Worst<'_>) -> Option<Span> {
    let name = worst.wrench.thing.name.as_str();
    let named = |object: &&crate::model::action::Object| {
        matches!(object.name, Some(Name::Tool(_))) && object.word.value == name
    };
    step.work.tools.iter().find(named).map(|object| object.word.span)
}
