//! The quantities that an action withholds.
use super::Withhold;
use crate::model::Step;
use crate::model::action::{Action, Work};
use crate::model::quantity::Quantity;
use crate::model::tightening::{self, Tightening};
use crate::model::torque::{PassTarget, Torque, percent_of};
use crate::model::verb::Quantities;
use crate::sheets::Sheet;

/// All actions of a step, those of its methods, exceptions and outcomes too.
pub fn actions(step: &Step) -> impl Iterator<Item = &Action> {
    step.actions.iter().chain(branches(step))
}

/// The actions that only some findings, choices or rounds lead to.
pub fn branches(step: &Step) -> impl Iterator<Item = &Action> {
    let options = step.options.iter().flat_map(|it| &it.actions);
    let exceptions = step.exceptions.iter().flat_map(|it| &it.actions);
    options.chain(exceptions).chain(step.outcomes.iter().flat_map(|it| &it.then))
}

/// What is withheld of an action.
pub fn of(sheet: &Sheet<'_>, action: &Action, withhold: Withhold) -> Vec<Quantity> {
    let mut found = Vec::new();
    match action {
        Action::Work(work) => {
            if withhold.torque {
                torques(&mut found, sheet, work);
            }
            if withhold.limits && work.verb.quantity == Quantities::Limit {
                found.extend(work.quantity.clone());
            }
        }
        Action::Calculate(calculate) if withhold.limits => found.extend(calculate.limits.clone()),
        _ => {}
    }
    found
}

fn torques(found: &mut Vec<Quantity>, sheet: &Sheet<'_>, work: &Work) {
    let stated = work.torque.iter().chain(work.other_torques.iter().map(|(_, torque)| torque));
    stated.for_each(|torque| of_torque(found, torque));
    for tightening in sheet.tightenings_of(work) {
        of_torque(found, &tightening.torque);
        found.extend(set_to(sheet, tightening));
    }
    found.extend(work.exceptions.iter().map(|it| it.value.clone()));
    found.extend(work.by.clone().filter(|_| work.verb.tightens()));
}

/// What the wrench is set to, with its adapter.
fn set_to(sheet: &Sheet<'_>, it: &Tightening<'_>) -> Vec<Quantity> {
    let set = |value: &Quantity| tightening::setting(it.work, value, sheet.declarations);
    it.wanted().iter().filter_map(|wanted| set(&wanted.value)).map(|setting| setting.value).collect()
}

fn of_torque(found: &mut Vec<Quantity>, torque: &Torque) {
    let wholes = [&torque.value, &torque.new, &torque.reused];
    found.extend(wholes.into_iter().chain([&torque.check]).flatten().cloned());
    found.extend(torque.align.as_ref().and_then(|align| align.not_above.clone()));
    for pass in &torque.passes {
        match &pass.target {
            PassTarget::Torque(it)
            | PassTarget::LoosenTo(it)
            | PassTarget::Length(it)
            | PassTarget::Angle(it)
            | PassTarget::BackOff(it) => found.push(it.clone()),
            PassTarget::Percent(percent) => {
                found.extend(wholes.into_iter().flatten().filter_map(|whole| percent_of(whole, percent)));
            }
            PassTarget::Feel(_) | PassTarget::LoosenToFeel(_) => {}
        }
    }
}
