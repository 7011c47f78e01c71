//! Steps that find something out: their limits, their outcomes, and who asks for them later.
use super::{Subject, misspelt_outcome};
use crate::model::action::{Calculate, Expression};
use crate::model::quantity::{Exact, Quantity};
use crate::model::step::When;
use crate::model::verb::Quantities;
use crate::model::{Action, Procedure, Step};
use crate::source::Span;

/// On which sides a reading can miss its limits.
pub struct Limits {
    pub below: bool,
    pub above: bool,
    pub span: Span,
}

/// The limits that the step's own line sets; none for a reading without.
pub fn limits(step: &Step) -> Option<Limits> {
    let stated = step.actions.iter().find_map(|action| match action {
        Action::Work(work) if work.verb.finds && work.verb.quantity == Quantities::Limit => {
            work.quantity.as_ref()
        }
        Action::Calculate(calculate) => calculate.limits.as_ref(),
        _ => None,
    })?;
    // Nothing is less than none of it.
    let can_miss = |lower: Exact| lower != Exact::from_integer(0);
    Some(Limits {
        below: stated.lower().is_some_and(can_miss),
        above: stated.upper().is_some(),
        span: Quantity::span(stated),
    })
}

/// Whether outcomes say what follows below the limits, and what above.
pub fn covered(step: &Step) -> (bool, bool) {
    let says = step.outcomes.iter().flat_map(|outcome| &outcome.when);
    says.fold((false, false), |(below, above), when| match when.value {
        When::Below => (true, above),
        When::Above => (below, true),
        When::Outside | When::NotOk | When::Otherwise => (true, true),
        // The slip of the pen has its finding.
        When::Found(ref words) if misspelt_outcome::is_slip(words) => (true, true),
        When::Impossible | When::Found(_) => (below, above),
    })
}

/// Whether a later step hangs on what comes out.
pub fn is_asked(subject: &Subject<'_>, step: &Step) -> bool {
    let later = subject.procedure().into_iter().flat_map(Procedure::steps);
    let mut later = later.skip_while(|it| it.number <= step.number);
    later.any(|it| it.conditions.iter().any(|condition| condition.step == Some(step.number)))
}

/// Whether something is worked out from what the step reads.
pub fn is_read(subject: &Subject<'_>, step: &Step) -> bool {
    let mut later = subject.contents.finders.iter().filter(|it| it.number > step.number);
    later.any(|it| {
        it.actions.iter().any(|action| match action {
            Action::Calculate(calculate) => reads(calculate, step.number),
            _ => false,
        })
    })
}

fn reads(calculate: &Calculate, number: u32) -> bool {
    let mut left = vec![&calculate.expression];
    while let Some(expression) = left.pop() {
        match expression {
            Expression::Reading { step, .. } if *step == Some(number) => return true,
            Expression::Binary { left: one, right: other, .. } => left.extend([&**one, &**other]),
            _ => {}
        }
    }
    false
}
