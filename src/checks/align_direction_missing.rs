//! A slot is to be brought to its hole, and nothing says which way the nut may go.
use super::{Rule, Subject, passes};
use crate::model::declarations::Part;
use crate::model::tightening::Tightening;
use crate::model::torque::AlignWay;
use crate::report::{Finding, Severity};
use std::collections::HashSet;

pub static RULE: Rule = Rule {
    id: "align-direction-missing",
    severity: Severity::Error,
    waivable: true,
    summary: "A slot has to meet its hole, and nothing says which way the nut may be turned for it",
    explain: "The slot of a castle nut hardly ever meets the hole for its pin just at the torque. Four rules are in use: \
tighten further, loosen, either way, and never move it. The wrong one leaves a bearing too tight or a joint too loose, \
and each mechanic goes by the one he has learned.

Say which: `align slot by tightening, not above 60 N.m`, `align slot by loosening`, `align slot either way`, or `never \
moved to align`. The rule also looks at a nut that its text calls slotted or a castle nut and that a pin locks.",
    bad: "\
parts
    nut \"Castle nut\"  torque 40 to 60 N.m
    pin \"Split pin\"   starts off, single-use, locks nut

tools
    wrench-l \"Torque wrench L\"  range 40 to 200 N.m

clean nut
tighten nut with wrench-l
install new pin in nut
",
    good: "\
parts
    nut \"Castle nut\"  torque 40 to 60 N.m
    pin \"Split pin\"   starts off, single-use, locks nut

tools
    wrench-l \"Torque wrench L\"  range 40 to 200 N.m

clean nut
tighten nut align slot by tightening, not above 60 N.m with wrench-l
install new pin in nut
",
    check,
};

fn check(subject: &Subject<'_>, findings: &mut Vec<Finding>) {
    let mut seen = HashSet::new();
    for tightening in subject.tightenings().iter().filter(|it| !it.torque.is_check()) {
        let Some((place, text)) = fault(tightening, subject) else { continue };
        if seen.insert(place) {
            findings.push(Finding::new(RULE.id, place, text).help(
                "Say which way: `align slot by tightening, not above …`, `by loosening`, `either way`, or `never moved to align`",
            ));
        }
    }
}

fn fault(tightening: &Tightening<'_>, subject: &Subject<'_>) -> Option<(crate::source::Span, String)> {
    match &tightening.torque.align {
        Some(align) if align.way == AlignWay::Unsaid => {
            let place = passes::place(subject, align.span, tightening);
            let feature = &align.feature.value;
            Some((
                place,
                format!("`align {feature}` does not say which way: one mechanic tightens, the next loosens"),
            ))
        }
        Some(_) => None,
        None => {
            let fastener = tightening.fastener?;
            let pin = pin_of(fastener.id, subject).filter(|_| is_slotted(fastener.part))?;
            let (name, pin) = (&fastener.object.word.value, &pin.thing.name.value);
            let text = format!(
                "`{pin}` locks `{name}`, and nothing says which way it may be turned until its slot meets the hole"
            );
            Some((tightening.span(), text))
        }
    }
}

fn is_slotted(part: &Part) -> bool {
    let mut words = part.thing.text.value.split(|c: char| !c.is_alphanumeric());
    words.any(|word| ["castle", "slotted", "castellated"].iter().any(|it| it.eq_ignore_ascii_case(word)))
}

fn pin_of<'s>(nut: u32, subject: &'s Subject<'_>) -> Option<&'s Part> {
    let locks = |part: &&Part| part.locks.iter().any(|it| it.value == crate::model::Name::Part(nut));
    subject.document.declarations.parts.iter().find(locks)
}
