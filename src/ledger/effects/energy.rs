//! The order of a lockout, and what is worked on before it is dead.
use super::At;
use crate::ledger::breach::Kind;
use crate::ledger::state::State;
use crate::ledger::walk::Book;
use crate::model::Name;
use crate::model::quantity::Dimension;
use crate::model::verb::Effect;

pub(super) fn lock_out(book: &mut Book<'_>, state: &mut State, at: &At<'_>) {
    let Some(now) = state.part(at.id).copied() else { return };
    let off =
        now.isolated.is_some() || now.cut_off_at || now.closed || !now.is_on() || state.elsewhere.isolated;
    if !off {
        book.breach(Kind::LockoutOutOfOrder, at.name(), at.span);
    } else if let Some(early) = state.released.or(state.proved) {
        book.breach(Kind::LockoutOutOfOrder, at.name(), at.span).since = Some(early);
    }
    if let Some(now) = state.parts.get_mut(at.id) {
        (now.locked_out, now.proved_dead) = (Some(at.span), false);
    }
}

/// What was locked out is opened: it must have been locked, and proved dead while it was.
pub(super) fn unlock(book: &mut Book<'_>, state: &State, at: &At<'_>) {
    let Some(now) = state.part(at.id).copied().filter(|_| !state.elsewhere.isolated) else { return };
    let live = at.part.facts.live.is_some();
    match (now.locked_out, now.isolated) {
        (None, Some(off)) => book.breach(Kind::NeverLockedOut, at.name(), at.span).since = Some(off),
        (Some(locked), _) if live && !now.proved_dead => {
            book.breach(Kind::NeverProvedDead, at.name(), at.span).since = Some(locked);
        }
        _ => {}
    }
}

/// Nobody can switch on what is locked off.
pub(super) fn restore(book: &mut Book<'_>, state: &mut State, at: &At<'_>) {
    // Said here; that the lock then stays on is not another fault.
    if let Some(locked) = state.parts.get_mut(at.id).and_then(|now| now.locked_out.take()) {
        book.breach(Kind::OnWhileLocked, at.name(), at.span).since = Some(locked);
    }
}

pub(super) fn prove(book: &mut Book<'_>, state: &mut State, at: &At<'_>) {
    if state.isolated.is_none() && !state.elsewhere.isolated {
        book.breach(Kind::LockoutOutOfOrder, at.name(), at.span);
    }
    state.proved = state.proved.or(Some(at.span));
    proved(state);
}

/// A voltage was read: whoever reads none has proved it dead.
pub(super) fn measured(state: &mut State, at: &At<'_>) {
    if at.work.quantity.as_ref().is_some_and(|it| it.dimension() == Dimension::Voltage) {
        proved(state);
    }
}

fn proved(state: &mut State) {
    for part in state.parts.iter_mut().filter(|part| part.locked_out.is_some()) {
        part.proved_dead = true;
    }
}

/// Live or pressurised parts are worked on only once they are dead.
pub(super) fn worked_on(book: &mut Book<'_>, state: &State, at: &At<'_>) {
    let works =
        at.work.takes_off() || at.does(Effect::Loosens) || at.does(Effect::Cuts) || at.does(Effect::Drills);
    if !works {
        return;
    }
    let isolated = state.isolated.is_some() || state.elsewhere.isolated;
    // Said once of each part.
    let said =
        |book: &Book<'_>, id| book.said(|it| it.kind == Kind::EnergyNotIsolated && it.what == Name::Part(id));
    if at.part.facts.live.is_some() && !isolated {
        if !said(book, at.id) {
            book.breach(Kind::EnergyNotIsolated, at.name(), at.span);
        }
        return;
    }
    let held = at.part.holds.iter().filter_map(|held| match held.value {
        Name::Part(id) => Some(id),
        _ => None,
    });
    let under_pressure = std::iter::once(at.id).chain(held).find(|&id| {
        let released = || state.part(id).is_some_and(|it| it.released || !it.is_on());
        let pressurised = book.declarations.part(id).is_some_and(|it| it.facts.pressurised.is_some());
        pressurised && book.has(id) && !state.elsewhere.released && !released()
    });
    if let Some(id) = under_pressure.filter(|&id| !said(book, id)) {
        let breach = book.breach(Kind::EnergyNotIsolated, Name::Part(id), at.span);
        breach.other = Some(at.name()).filter(|_| id != at.id);
    }
}
