//! A stronger fastener takes the place of a weaker one and is tightened to its own torque.
use super::judged::{ends, fastener};
use super::{Rule, Subject};
use crate::model::Name;
use crate::model::declarations::Part;
use crate::model::fastener::preload::limits;
use crate::model::quantity::Quantity;
use crate::report::{Finding, Severity};

pub static RULE: Rule = Rule {
    id: "grade-raised-torque-kept",
    severity: Severity::Warning,
    waivable: true,
    summary: "A stronger fastener in place of a weaker one is tightened to more than the weaker one was",
    explain: "The stronger screw bears more; the thread it goes into, the gasket and the flange do not. Tightened to \
the table of its own class it strips the casting.

A part declared `in-place-of` another takes its place. Where its class is the higher, the torque of the first one \
stays (US Army general torque tables say so beside the table, as TM 9-2320-362-14&P, appendix F). Give it that \
torque. Where the maker raises both, set the rule aside with that reason.",
    bad: "\
parts
    old-screws \"Cover screw, class 5.8\"  x4  thread M8, class 5.8, dry, torque 13 to 15 N.m, stays off
    screws \"Cover screw, class 8.8\"      x4  thread M8, class 8.8, dry, torque 20 to 24 N.m, starts off,
        in-place-of old-screws

tools
    wrench \"Torque wrench M\"  range 10 to 50 N.m

remove old-screws; discard old-screws
install screws; tighten screws with wrench
",
    good: "\
parts
    old-screws \"Cover screw, class 5.8\"  x4  thread M8, class 5.8, dry, torque 13 to 15 N.m, stays off
    screws \"Cover screw, class 8.8\"      x4  thread M8, class 8.8, dry, torque 13 to 15 N.m, starts off,
        in-place-of old-screws

tools
    wrench \"Torque wrench M\"  range 10 to 50 N.m

remove old-screws; discard old-screws
install screws; tighten screws with wrench
",
    check,
};

fn check(subject: &Subject<'_>, findings: &mut Vec<Finding>) {
    let declarations = &subject.document.declarations;
    for (id, part) in (0..).zip(&declarations.parts) {
        let Some(place) = part.in_place_of else { continue };
        let Name::Part(first) = place.value else { continue };
        let Some(first) = declarations.part(first).filter(|first| is_stronger(part, first)) else { continue };
        let (Some(torque), Some(was)) = (torque_of(id, part, subject), first.torque.as_ref()) else {
            continue;
        };
        let Some(was) = ends(was).next().filter(|was| is_more(&torque, was)) else { continue };
        findings.push(finding(part, first, &torque, was, subject));
    }
}

fn is_stronger(part: &Part, than: &Part) -> bool {
    let ultimate = |part| fastener(part, None).and_then(|it| it.strength).map(|it| it.ultimate);
    matches!((ultimate(part), ultimate(than)), (Some(ours), Some(theirs)) if ours > theirs)
}

/// What the steps tighten it to, else what it is declared with.
fn torque_of(id: u32, part: &Part, subject: &Subject<'_>) -> Option<Quantity> {
    let own = subject.tightenings().iter().filter(|it| it.fastener.is_some_and(|of| of.id == id));
    let in_steps = own.filter_map(|it| ends(&it.torque).next().cloned()).next();
    in_steps.or_else(|| ends(part.torque.as_ref()?).next().cloned())
}

/// More than rounding to another unit makes.
fn is_more(torque: &Quantity, was: &Quantity) -> bool {
    matches!((limits(torque), limits(was)), (Some((_, ours)), Some((_, theirs))) if ours > theirs * 1.03)
}

fn finding(part: &Part, first: &Part, torque: &Quantity, was: &Quantity, subject: &Subject<'_>) -> Finding {
    let (name, other) = (&part.thing.name.value, &first.thing.name.value);
    let text = format!(
        "`{name}` is stronger than `{other}` and is tightened to more: the joint was made for the old torque"
    );
    let span = Some(torque.span()).filter(|span| subject.owns(*span)).unwrap_or(part.thing.name.span);
    let help = format!("Keep the torque of `{other}`, {}", was.print());
    let finding = Finding::new(RULE.id, span, text).help(help);
    if subject.owns(was.span()) {
        finding.label(was.span(), "what the joint was tightened to")
    } else {
        finding
    }
}
