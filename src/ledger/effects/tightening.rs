//! Fasteners tightened, loosened and locked, and what they fix for good.
use super::At;
use crate::ledger::breach::Kind;
use crate::ledger::state::{Place, State, Surface, Tightness};
use crate::ledger::walk::Book;
use crate::model::torque::PassTarget;
use crate::model::{Name, Torque};
use crate::source::Span;

pub(super) fn tighten(book: &mut Book<'_>, state: &mut State, at: &At<'_>) {
    let torque = at.work.torque.as_ref();
    if torque.is_some_and(Torque::is_check) {
        return;
    }
    let Some(now) = state.part(at.id).copied() else { return };
    while_off(book, state, at);
    let feel = torque.is_some_and(|it| {
        !it.passes.is_empty() && it.passes.iter().all(|pass| matches!(pass.target, PassTarget::Feel(_)))
    });
    let wanted = at.part.torque.as_ref().is_some_and(Torque::has_value);
    // A tab under the nut is bent over it later; what goes in after the nut locks it at once.
    let owed = match now.tightness {
        Tightness::Owed(since) | Tightness::Loosened(since) | Tightness::Snug(since) => Some(since.start),
        Tightness::Found | Tightness::Tight(_) => None,
    };
    let seen = book.seen;
    for &locker in seen.lockers(at.id) {
        if let Some(Place::On(since)) = state.part(locker).map(|it| it.place)
            && owed.is_some_and(|owed| since.start > owed)
            && !at.with(locker)
        {
            let breach = book.breach(Kind::LockBeforeTorque, at.name(), at.span);
            (breach.other, breach.since) = (Some(Name::Part(locker)), Some(since));
        }
    }
    for held in &at.part.holds {
        if let Name::Part(id) = held.value {
            commit(book, state, id, at);
        }
    }
    let Some(now) = state.parts.get_mut(at.id) else { return };
    // Which of the pieces have their turn more than once is not known, so that each turn counts.
    if at.object.count.is_some() && now.owing > at.pieces() {
        if !(feel && wanted) {
            now.owing -= at.pieces();
            now.in_part = now.in_part.or(Some(at.span));
        }
        return;
    }
    now.set_tightness(if feel && wanted { Tightness::Snug(at.span) } else { Tightness::Tight(at.span) });
}

pub(super) fn loosen(book: &mut Book<'_>, state: &mut State, at: &At<'_>) {
    while_off(book, state, at);
    if let Some(now) = state.parts.get_mut(at.id) {
        now.owe(at.pieces(), at.part.count, Tightness::Loosened(at.span));
        now.surface = Surface::Unknown;
    }
}

fn while_off(book: &mut Book<'_>, state: &mut State, at: &At<'_>) {
    let Some(now) = state.parts.get_mut(at.id).filter(|_| !at.some) else { return };
    if let Place::Off(since) = now.place {
        // Said once; what follows takes it to be on.
        (now.place, now.open_ends) = (Place::On(at.span), [None; 3]);
        book.breach(Kind::WorkedOnWhileOff, at.name(), at.span).since = Some(since);
    }
}

pub(super) fn lock(book: &mut Book<'_>, state: &State, part: u32, at: Span) {
    let Some(now) = state.part(part) else { return };
    if let Tightness::Owed(since) | Tightness::Loosened(since) | Tightness::Snug(since) = now.tightness {
        book.breach(Kind::LockBeforeTorque, Name::Part(part), at).since = Some(since);
    }
}

/// The work fixes the part for good: what it was aligned to must still hold.
pub(super) fn commit(book: &mut Book<'_>, state: &State, part: u32, at: &At<'_>) {
    let Some(now) = state.part(part) else { return };
    if let (Some(aligned), true) = (now.aligned, now.disturbed_since_aligned) {
        book.breach(Kind::UnverifiedBeforeCommit, Name::Part(part), at.span).since = Some(aligned);
    }
}
