//! Thread locker goes on a thread that has oil on it.
use super::judged::is_oiled;
use super::{Rule, Subject, part_objects};
use crate::model::Declarations;
use crate::model::Name;
use crate::model::action::{Object, PlaceTarget, Work};
use crate::model::declarations::Part;
use crate::model::verb::Effect;
use crate::report::{Finding, Severity};
use crate::source::Span;

pub static RULE: Rule = Rule {
    id: "locker-on-oiled-thread",
    severity: Severity::Error,
    waivable: true,
    summary: "A thread locker is put on a thread that is oiled or greased",
    explain: "A thread locker does not stick to oil. It stays wet, the screw shakes loose, and its torque is wrong \
too: two lubricants pull more than one.

The rule follows what the steps put on each part: a supply declared `lubricant`, until the part is cleaned or taken \
off. It speaks where a supply declared `thread-locker` goes on top, and where the part or its torque is declared \
`oiled`.

Clean and dry the thread first, or leave the oil away. Where the torque was stated for an oiled thread, ask the \
source which of the two it wants.",
    bad: "\
parts
    screws \"Cover screw\"  x4  thread M6, class 8.8, torque 7 to 9 N.m

tools
    wrench \"Torque wrench S\"  range 2 to 12 N.m

supplies
    oil    \"Clean oil\"      lubricant
    locker \"Thread locker\"  thread-locker

lubricate screws using oil
apply locker to screws
tighten screws with wrench
",
    good: "\
parts
    screws \"Cover screw\"  x4  thread M6, class 8.8, torque 7 to 9 N.m

tools
    wrench \"Torque wrench S\"  range 2 to 12 N.m

supplies
    solvent \"Degreasing solvent\"
    locker  \"Thread locker\"       thread-locker

clean screws using solvent; dry screws
apply locker to screws
tighten screws with wrench
",
    check,
};

fn check(subject: &Subject<'_>, findings: &mut Vec<Finding>) {
    let all = &subject.document.declarations;
    if all.supplies.iter().all(|supply| supply.thread_locker.is_none()) {
        return;
    }
    let mut oiled: Vec<(u32, Span)> = Vec::new();
    for work in &subject.contents.works {
        if work.verb.does(Effect::Cleans) || work.takes_off() {
            let cleaned = |id| part_objects::of(work, all).any(|(other, ..)| other == id);
            oiled.retain(|(id, _)| !cleaned(*id));
        }
        let Some((supply, is_locker)) = applied(work, all) else { continue };
        for (id, object, part) in targets(work, all) {
            let before = oiled.iter().find(|(other, _)| *other == id).map(|(_, span)| *span);
            if !is_locker {
                oiled.retain(|(other, _)| *other != id);
                oiled.push((id, supply));
            } else if let Some(oil) = before.filter(|_| object.new.is_none()).or_else(|| is_oiled(part)) {
                findings.push(finding(object, part, oil, before.is_some(), subject));
            }
        }
    }
}

/// The locker or lubricant that the line puts on something, and whether it is a locker.
fn applied(work: &Work, all: &Declarations) -> Option<(Span, bool)> {
    let puts_on = work.verb.does(Effect::Applies) || work.verb.tightens() || work.fits();
    let supply = |object: &Object| match object.name {
        Some(Name::Supply(id)) => all.supply(id).map(|supply| (supply, object.word.span)),
        _ => None,
    };
    let named = || work.supplies.iter().chain(&work.objects).filter_map(supply);
    named().filter(|_| puts_on).find_map(|(supply, span)| {
        let is_locker = supply.thread_locker.is_some();
        (is_locker || supply.lubricant.is_some()).then_some((span, is_locker))
    })
}

/// The parts it goes on: those the line works on, and for `apply … to` those of its place.
fn targets<'a>(work: &'a Work, all: &'a Declarations) -> impl Iterator<Item = (u32, &'a Object, &'a Part)> {
    let places = work.places.iter().filter(|_| !work.fits()).filter_map(|place| match &place.what {
        PlaceTarget::Objects(objects) => Some(objects),
        _ => None,
    });
    work.objects.iter().chain(places.flatten()).filter_map(|object| match object.name {
        Some(Name::Part(id)) => all.part(id).map(|part| (id, object, part)),
        _ => None,
    })
}

fn finding(object: &Object, part: &Part, oil: Span, by_step: bool, subject: &Subject<'_>) -> Finding {
    let name = &part.thing.name.value;
    let text = format!("The locker goes on the oiled thread of `{name}`, where it neither sticks nor sets");
    let help = match by_step {
        true => format!("Clean and dry `{name}` before the locker, or leave the oil away"),
        false => "Ask the source whether the thread is oiled or gets a locker, and take the other one out"
            .to_owned(),
    };
    let finding = Finding::new(RULE.id, object.word.span, text).help(help);
    let why = if by_step { "oiled here" } else { "declared oiled here" };
    if subject.owns(oil) { finding.label(oil, why) } else { finding }
}
