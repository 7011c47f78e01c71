//! Bringing a slot to its hole may take the nut past the most its torque allows.
use super::{Rule, Subject, passes};
use crate::model::quantity::{Dimension, Form, Quantity};
use crate::model::tightening::Tightening;
use crate::model::torque::{Align, AlignWay};
use crate::report::{Finding, Severity};
use crate::source::Span;
use std::collections::HashSet;

pub static RULE: Rule = Rule {
    id: "align-past-maximum",
    severity: Severity::Warning,
    waivable: true,
    summary: "A nut is tightened until its slot meets the hole, past the most its torque allows",
    explain: "From one slot to the next a nut turns up to 60 degrees, and that can double its torque. Who may tighten \
further needs to know where to stop; past it the washer or the nut is changed for another, whose slot comes elsewhere \
(AC 43.13-1B, 7-40: from the minimum, and never beyond the maximum).

Give the ceiling: `align slot by tightening, not above 60 N.m`. It lies at the upper limit of the torque, or above a \
torque that is a single value; below it the nut could not be moved at all.",
    bad: "\
parts
    nut \"Castle nut\"  torque 40 to 60 N.m align slot by tightening

tools
    wrench-l \"Torque wrench L\"  range 40 to 200 N.m

clean nut
tighten nut with wrench-l
",
    good: "\
parts
    nut \"Castle nut\"  torque 40 to 60 N.m align slot by tightening, not above 60 N.m

tools
    wrench-l \"Torque wrench L\"  range 40 to 200 N.m

clean nut
tighten nut with wrench-l
",
    check,
};

fn check(subject: &Subject<'_>, findings: &mut Vec<Finding>) {
    let mut seen = HashSet::new();
    for tightening in subject.tightenings() {
        let Some(align) = &tightening.torque.align else { continue };
        if !matches!(align.way, AlignWay::Tightening | AlignWay::Either)
            || tightening.torque.plus_drag.is_some()
        {
            continue;
        }
        let found = match &align.not_above {
            None => open(align, tightening, subject),
            Some(ceiling) => wrong(ceiling, tightening, subject),
        };
        findings.extend(found.filter(|finding| seen.insert(finding.span)));
    }
}

/// No ceiling at all. Where a torque is only a lower limit or none, as of a seat, there is nothing to go past.
fn open(align: &Align, tightening: &Tightening<'_>, subject: &Subject<'_>) -> Option<Finding> {
    let value = tightening.end()?;
    let limit = value.upper().and_then(|_| value.form().numbers().last().map(|_| value))?;
    let place = passes::place(subject, align.span, tightening);
    let text = format!("Tightening until it lines up has no ceiling; the torque is {}", limit.print());
    let finding = Finding::new(RULE.id, place, text);
    Some(match highest(value).filter(|_| place == align.span) {
        Some(highest) => {
            let after = Span { start: place.end, ..place };
            let text = format!(", not above {highest}");
            finding.help(format!("Say where to stop: `not above {highest}`")).edit(after, text).guessed()
        }
        None => finding.help("Say where to stop: `not above …`"),
    })
}

/// The upper limit as an author writes it; of a single value there is none.
fn highest(value: &Quantity) -> Option<String> {
    match value.form() {
        Form::Between(_, high) => Some(format!("{high} {}", value.unit().source)),
        Form::Max(high) => Some(format!("{high} {}", value.unit().source)),
        _ => None,
    }
}

fn wrong(ceiling: &Quantity, tightening: &Tightening<'_>, subject: &Subject<'_>) -> Option<Finding> {
    let value = tightening.end().filter(|value| value.dimension() == Dimension::Torque)?;
    let (limit, low, high) = (ceiling.upper()?, value.lower()?, value.upper()?);
    let above = low != high && limit > high;
    if !above && limit >= low {
        return None;
    }
    let place = passes::place(subject, ceiling.span(), tightening);
    let text = if above {
        format!("The ceiling, {}, lies above the most the torque allows, {}", ceiling.print(), value.print())
    } else {
        format!("The ceiling, {}, lies below the torque itself, {}", ceiling.print(), value.print())
    };
    let finding = Finding::new(RULE.id, place, text).help(
        "Stop at the upper limit; if the slot does not meet the hole by then, change the washer or the nut",
    );
    Some(if subject.owns(value.span()) { finding.label(value.span(), "the torque") } else { finding })
}
