//! What one action does to how things stand.
mod energy;
pub(super) mod fitting;
mod surfaces;
mod tightening;
mod tools;

use super::breach::Kind;
use super::state::{PartState, Spot, State, Surface, spot};
use super::walk::Book;
use crate::model::Name;
use crate::model::action::{Object, Work};
use crate::model::declarations::Part;
use crate::model::quantity::{Dimension, Form};
use crate::model::verb::Effect;
use crate::source::Span;
use energy::{lock_out, measured, prove, restore, unlock};
use fitting::{fit, renew, take_off};
use tightening::{commit, lock, loosen, tighten};

/// Follows one action.
pub(super) fn work(book: &mut Book<'_>, state: &mut State, work: &Work) {
    if work.verb.effects.is_empty() || is_of_another_model(book, state, work) {
        return;
    }
    for object in &work.objects {
        match object.name {
            Some(Name::Part(id)) => part(book, state, work, object, id),
            Some(Name::Tool(id)) => tools::tool(book, state, work, object, id),
            _ => {}
        }
    }
    tools::left_with(book, state, work);
    tools::places(book, state, work);
    surfaces::supplies(book, state, work);
    whole(book, state, work);
}

/// Work on a part that these models do not have is not theirs; said once for a step.
fn is_of_another_model(book: &mut Book<'_>, state: &State, work: &Work) -> bool {
    let foreign = work.objects.iter().find_map(|object| match object.name {
        Some(Name::Part(id)) if !book.has(id) => Some((id, object.word.span)),
        _ => None,
    });
    let Some((id, span)) = foreign else { return false };
    let said = book.breaches.iter().rev().take(16).any(|it| {
        let here = book.extent.range().contains(&(it.at.start as usize));
        it.kind == Kind::WrongModel && here && it.models == book.group.models
    });
    if said {
        return true;
    }
    match fitting::in_place_of(book, state, id).filter(|_| work.fits()) {
        Some(right) => {
            book.breach(Kind::Substitute, Name::Part(id), span).other = Some(Name::Part(right));
        }
        // Whatever else is done with it comes of that.
        None if book.is_substitute(id) => {}
        None => drop(book.breach(Kind::WrongModel, Name::Part(id), span)),
    }
    true
}

/// What it is about, once for each object that is a part.
struct At<'a> {
    work: &'a Work,
    object: &'a Object,
    part: &'a Part,
    id: u32,
    span: Span,
    /// Only some of them.
    some: bool,
    /// One by its own name.
    piece: bool,
    spot: Option<Spot>,
}

impl At<'_> {
    fn name(&self) -> Name {
        Name::Part(self.id)
    }
    /// Whether the same action works on that part too.
    fn with(&self, other: u32) -> bool {
        self.work.objects.iter().any(|object| object.name == Some(Name::Part(other)))
    }
    /// How many of them it is about.
    fn pieces(&self) -> u32 {
        self.object.count.unwrap_or(if self.piece { 1 } else { self.part.count })
    }
    fn does(&self, effect: Effect) -> bool {
        self.work.verb.does(effect)
    }
}

fn part(book: &mut Book<'_>, state: &mut State, work: &Work, object: &Object, id: u32) {
    let Some(part) = book.declarations.part(id) else { return };
    let span = object.word.span;
    let piece = part.pieces.iter().any(|piece| piece.value == object.word.value);
    let some = piece || object.count.is_some_and(|count| count < part.count);
    let at = At { work, object, part, id, span, some, piece, spot: spot(work) };
    energy::worked_on(book, state, &at);
    judge(book, state, &at);
    if work.takes_off() {
        take_off(book, state, &at);
    } else if work.fits() {
        fit(book, state, &at);
    }
    for effect in &work.verb.effects {
        apply(book, state, &at, *effect);
    }
}

fn apply(book: &mut Book<'_>, state: &mut State, at: &At<'_>, effect: Effect) {
    match effect {
        Effect::Tightens => return tighten(book, state, at),
        Effect::Loosens if !at.work.takes_off() => return loosen(book, state, at),
        Effect::Renews => return renew(state, at),
        Effect::Locks => return lock(book, state, at.id, at.span),
        Effect::Bends if !at.does(Effect::Unlocks) => {
            for locked in &at.part.locks {
                if let Name::Part(id) = locked.value {
                    lock(book, state, id, at.span);
                }
            }
            return;
        }
        Effect::Presses | Effect::Joins => return commit(book, state, at.id, at),
        Effect::LocksOut => return lock_out(book, state, at),
        Effect::Isolates => state.isolated = state.isolated.or(Some(at.span)),
        Effect::ShutsDown if state.isolated.is_some() => {
            let since = state.isolated;
            book.breach(Kind::LockoutOutOfOrder, at.name(), at.span).since = since;
        }
        Effect::VerifiesDead => prove(book, state, at),
        Effect::Measures | Effect::Tests => measured(state, at),
        Effect::Unlocks => unlock(book, state, at),
        Effect::Restores | Effect::Starts => restore(book, state, at),
        _ => {}
    }
    let Some(now) = state.parts.get_mut(at.id) else { return };
    let span = Some(at.span);
    match effect {
        Effect::Discards => {
            now.discarded = span;
            if !now.is_on() {
                now.fresh = None;
            }
        }
        Effect::Marks => (now.marked, now.mark_used) = (Some(at.work.verb_span), false),
        Effect::Aligns => {
            (now.aligned, now.disturbed_since_aligned) = (span, false);
            (now.owes_alignment, now.mark_used) = (None, true);
        }
        Effect::Identifies => now.identified = true,
        Effect::Cleans => now.surface = Surface::Clean,
        // Drying takes no dirt off.
        Effect::Dries if now.surface == Surface::Clean => now.surface = Surface::Dry,
        Effect::Lubricates => now.surface = Surface::Oiled,
        Effect::Measures | Effect::Inspects | Effect::Tests | Effect::Checks => {
            (now.checked, now.disturbed_since_aligned) = (true, false);
            let pressure = at.work.quantity.as_ref().is_some_and(|it| it.dimension() == Dimension::Pressure);
            now.released |= pressure;
        }
        Effect::Drains => (now.drained, now.released) = (span, true),
        Effect::Fills => now.drained = None,
        Effect::Isolates => now.isolated = span,
        Effect::Restores | Effect::Starts => (now.isolated, now.cut_off_at) = (None, false),
        Effect::Unlocks => now.locked_out = None,
        Effect::ReleasesEnergy => now.released = true,
        Effect::Pressurises => now.released = false,
        Effect::Raises => now.raised = span,
        Effect::Lowers => (now.raised, now.supported) = (None, None),
        // What was found open is only as it was again.
        Effect::Opens => {
            let found_open = *now.found_open.get_or_insert(false);
            now.opened = span.filter(|_| !found_open);
            (now.closed, now.released) = (false, true);
        }
        Effect::Closes => {
            now.found_open.get_or_insert(true);
            (now.opened, now.closed) = (None, true);
        }
        Effect::Supports => now.supported = span.filter(|_| !tools::names_temporary(book, at.work)),
        Effect::ReleasesSupport => now.supported = None,
        _ => {}
    }
}

/// What is held against a wear limit is not covered: a clearance may well be measured in place.
fn judge(book: &mut Book<'_>, state: &State, at: &At<'_>) {
    let wear = at.work.quantity.as_ref().is_some_and(|it| matches!(it.form(), Form::NewWorn { .. }));
    if !wear || !at.does(Effect::Measures) || !state.part(at.id).is_some_and(PartState::is_on) {
        return;
    }
    let on = |&holder: &u32| book.has(holder) && state.part(holder).is_some_and(PartState::is_on);
    if let Some(holder) = book.seen.holders(at.id).iter().copied().find(on) {
        let since = state.part(holder).and_then(PartState::changed_place);
        let breach = book.breach(Kind::MeasuredWhileFitted, at.name(), at.span);
        (breach.other, breach.since) = (Some(Name::Part(holder)), since);
    }
}

/// What the action means for everything at once.
fn whole(book: &mut Book<'_>, state: &mut State, work: &Work) {
    let does = |effect| work.verb.does(effect);
    if does(Effect::ReleasesEnergy) && !does(Effect::ReleasesSupport) {
        state.released = state.released.or(Some(work.verb_span));
    }
    if [Effect::Raises, Effect::Lifts, Effect::Supports].into_iter().any(does) {
        tools::relieved(state, work);
    }
    // To let power in again tries nothing yet.
    let runs = does(Effect::Starts) && !does(Effect::Restores);
    let looks = [Effect::Tests, Effect::Measures, Effect::Inspects, Effect::Checks, Effect::Turns];
    if runs || looks.into_iter().any(does) {
        state.untested = None;
    }
    if does(Effect::Restores) || does(Effect::Starts) {
        (state.isolated, state.released, state.proved) = (None, None, None);
    }
    if (does(Effect::Starts) || does(Effect::Pressurises))
        && let Some(curing) = state.cures.iter_mut().find(|curing| curing.left > 0.0)
    {
        curing.left = 0.0;
        book.breach(Kind::CureNotWaited, Name::Supply(curing.supply), work.verb_span).since = Some(curing.at);
    }
    if [Effect::Turns, Effect::Strikes, Effect::Moves, Effect::Raises, Effect::Lowers].into_iter().any(does) {
        let aligned = |it: &PartState| it.aligned.is_some();
        state.parts.change(aligned, |part| part.disturbed_since_aligned = true);
    }
}
