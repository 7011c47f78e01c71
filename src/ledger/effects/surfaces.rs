//! What goes on wants its surface, and may have to set.
use crate::ledger::breach::Kind;
use crate::ledger::state::{Curing, State, Surface};
use crate::ledger::walk::Book;
use crate::model::Name;
use crate::model::action::{PlaceTarget, Work};
use crate::model::declarations::Condition;
use crate::model::quantity::as_float;
use crate::model::verb::Effect;
use crate::source::Span;

/// What goes on wants its surface, and may have to set.
pub(super) fn supplies(book: &mut Book<'_>, state: &mut State, work: &Work) {
    if !work.verb.does(Effect::Applies) && !work.fits() {
        return;
    }
    for object in work.supplies.iter().chain(&work.objects) {
        let Some(Name::Supply(id)) = object.name else { continue };
        let Some(supply) = book.declarations.supply(id) else { continue };
        let locks = supply.thread_locker.is_some();
        let (clean, dry) = (supply.needs_clean.is_some() || locks, supply.needs_dry.is_some() || locks);
        if clean || dry {
            for (part, span, new) in targets(work) {
                let Some(now) = state.part(part).copied().filter(|_| !(new || locks && oiled(book, part)))
                else {
                    continue;
                };
                let kind = match now.surface {
                    Surface::Unknown if clean => Kind::NotClean,
                    Surface::Unknown | Surface::Clean if dry => Kind::NotDry,
                    _ => continue,
                };
                if now.fresh.is_none() {
                    let since = now.disturbed().filter(|_| kind == Kind::NotClean);
                    let breach = book.breach(kind, Name::Part(part), span);
                    (breach.other, breach.since) = (Some(Name::Supply(id)), since);
                }
            }
        }
        if let Some(left) = supply.cure.as_ref().and_then(|cure| cure.time.lower()).map(as_float) {
            state.cures.retain(|curing| curing.supply != id);
            state.cures.push(Curing { supply: id, at: object.word.span, left });
        }
    }
}

/// Whether it is tightened oiled, which no cleaning mends; a locker on it has a finding of its own.
fn oiled(book: &Book<'_>, part: u32) -> bool {
    let Some(part) = book.declarations.part(part) else { return false };
    let stated = [part.condition, part.torque.as_ref().and_then(|torque| torque.condition)];
    stated.into_iter().flatten().any(|it| it.value == Condition::Oiled)
}

/// The parts that a supply goes on: number, place, whether a new one.
fn targets(work: &Work) -> Vec<(u32, Span, bool)> {
    let placed = work.places.iter().filter_map(|place| match &place.what {
        PlaceTarget::Objects(objects) if !work.fits() => Some(objects),
        _ => None,
    });
    let objects = work.objects.iter().chain(placed.flatten());
    objects
        .filter_map(|object| match object.name {
            Some(Name::Part(id)) => Some((id, object.word.span, object.new.is_some())),
            _ => None,
        })
        .collect()
}
