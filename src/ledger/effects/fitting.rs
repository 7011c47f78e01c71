//! What comes off and what goes on.
use super::At;
use crate::ledger::breach::Kind;
use crate::ledger::state::{PartState, Place, Spot, State, Surface, Tightness};
use crate::ledger::walk::Book;
use crate::model::Name;
use crate::model::action::{PlaceTarget, Work};
use crate::model::verb::Effect;
use crate::source::{Span, Spanned};

/// Whatever holds the part is off, or comes off with it.
pub(in crate::ledger) fn still_held(
    book: &mut Book<'_>,
    state: &State,
    id: u32,
    at: Span,
    with: impl Fn(u32) -> bool,
) {
    let holder = book.seen.holders(id).iter().copied().find(|&holder| {
        let holds = |it: &PartState| it.is_on() && it.at != Some(Spot::Of(Name::Part(id)));
        !with(holder) && book.has(holder) && state.part(holder).is_some_and(holds)
    });
    if let Some(holder) = holder {
        let since = state.part(holder).and_then(PartState::changed_place);
        let breach = book.breach(Kind::StillHeld, Name::Part(id), at);
        (breach.other, breach.since) = (Some(Name::Part(holder)), since);
    }
}

/// Nothing that holds the part went on before it, unless both go on at once.
pub(in crate::ledger) fn covered(
    book: &mut Book<'_>,
    state: &State,
    id: u32,
    at: Span,
    with: impl Fn(u32) -> bool,
) {
    let holder = book.seen.holders(id).iter().copied().find_map(|holder| {
        let there = state.part(holder).filter(|_| !with(holder) && book.has(holder))?;
        match there.place {
            Place::On(since) if there.at != Some(Spot::Of(Name::Part(id))) => Some((holder, since)),
            _ => None,
        }
    });
    if let Some((holder, since)) = holder {
        let breach = book.breach(Kind::FittedOver, Name::Part(id), at);
        (breach.other, breach.since) = (Some(Name::Part(holder)), Some(since));
    }
}

pub(super) fn take_off(book: &mut Book<'_>, state: &mut State, at: &At<'_>) {
    if at.some {
        return;
    }
    still_held(book, state, at.id, at.span, |holder| at.with(holder));
    let Some(now) = state.parts.get_mut(at.id) else { return };
    match now.place {
        Place::Off(since) if now.at == at.spot || at.spot.is_none() || now.at.is_none() => {
            book.breach(Kind::RemovedTwice, at.name(), at.span).since = Some(since);
        }
        _ => {}
    }
    // A trial fit owes its marks too.
    if let Some(fitted) = now.owes_alignment {
        book.breach(Kind::UnalignedFit, at.name(), fitted).since = now.marked;
    }
    let unmarked = !at.part.matched.is_empty() && now.marked.is_none();
    now.off_unmarked = unmarked.then_some(at.span);
    now.place = Place::Off(at.span);
    now.at = at.spot;
    if at.does(Effect::Disconnects) {
        for end in ends(at.work) {
            if let Some(free) = now.open_ends.iter_mut().find(|open| open.is_none()) {
                *free = Some((end, at.span));
            }
        }
    } else {
        now.open_ends = [None; 3];
    }
    now.disconnected = at.does(Effect::Disconnects);
    now.set_tightness(Tightness::Found);
    now.surface = Surface::Unknown;
    (now.checked, now.fresh, now.aligned) = (false, None, None);
    (now.owes_alignment, now.supported) = (None, None);
}

pub(super) fn fit(book: &mut Book<'_>, state: &mut State, at: &At<'_>) {
    let Some(now) = state.part(at.id).copied() else { return };
    let new = at.object.new.is_some() || now.fresh.is_some();
    if !at.some {
        fits_in_turn(book, state, at);
    }
    let since = now.changed_place();
    let goes_further = at.does(Effect::ByPlace) || at.work.verb.name == "seat" || at.some;
    if now.is_on() && !goes_further && (now.at == at.spot || now.place == Place::There) {
        book.breach(Kind::FittedWhileFitted, at.name(), at.span).since = since;
    }
    let off = matches!(now.place, Place::Off(_));
    if !at.part.looks_like.is_empty() && !now.identified {
        let other = at.part.looks_like.first().map(|like| like.other.value);
        book.breach(Kind::Unidentified, at.name(), at.span).other = other;
    }
    if off && at.part.single_use.is_some() && now.discarded.is_none() && at.object.new.is_some() {
        let removed = since.unwrap_or(at.span);
        book.breach(Kind::NotDiscarded, at.name(), removed).since = Some(at.span);
    }
    if !new {
        goes_back(book, at, &now, off);
    }
    let owes = !new && off && !at.part.matched.is_empty() && now.marked.is_some() && now.aligned.is_none();
    let fastener = at.part.torque.is_some() || at.part.thread.is_some();
    let settled = at.work.until.is_some() || at.work.torque.is_some() || at.work.by.is_some();
    let Some(now) = state.parts.get_mut(at.id) else { return };
    if !now.is_on() || !goes_further {
        now.place = Place::On(at.span);
    }
    now.at = at.spot.or(now.at);
    let connects = |open: &(Name, Span)| ends(at.work).any(|end| end == open.0);
    // Connected to something else, or to nothing by name, it is taken to be where it belongs.
    if at.does(Effect::Connects) && now.open_ends.iter().flatten().any(connects) {
        now.open_ends = now.open_ends.map(|open| open.filter(|open| !connects(open)));
    } else {
        now.open_ends = [None; 3];
    }
    (now.disconnected, now.off_unmarked, now.raised, now.supported) = (false, None, None, None);
    now.owes_alignment = if owes { Some(at.span) } else { now.owes_alignment };
    now.mark_used |= at.work.facing.is_some();
    if new {
        (now.fresh, now.discarded) = (now.fresh.or(Some(at.span)), None);
    } else if at.part.single_use.is_none() {
        // Said once.
        now.discarded = None;
    }
    if fastener && !settled && now.tightness != Tightness::Tight(at.span) {
        now.owe(at.pieces(), at.part.count, Tightness::Owed(at.span));
    }
    let facts = &at.part.facts;
    let matters = facts.pressurised.is_some() || facts.live.is_some() || facts.contains.is_some();
    if matters && off {
        state.untested = Some((at.id, at.span));
    }
}

/// What a line is connected to or parted from, by name.
fn ends(work: &Work) -> impl Iterator<Item = Name> {
    let places = work.places.iter().filter_map(|place| match &place.what {
        PlaceTarget::Objects(objects) => Some(objects),
        _ => None,
    });
    places.flatten().filter_map(|object| object.name)
}

/// Nothing that covers it is on already, and nothing is shut in.
fn fits_in_turn(book: &mut Book<'_>, state: &State, at: &At<'_>) {
    covered(book, state, at.id, at.span, |holder| at.with(holder));
    for (tool, there) in (0..).zip(&state.tools) {
        let inside = |held: &Spanned<Name>| there.inside.is_some_and(|it| held.value == Name::Part(it));
        if there.count > 0 && at.part.holds.iter().any(inside) {
            let breach = book.breach(Kind::InTheWay, at.name(), at.span);
            (breach.other, breach.since) = (Some(Name::Tool(tool)), there.since);
        }
    }
}

/// What a part owes that is not new.
fn goes_back(book: &mut Book<'_>, at: &At<'_>, now: &PartState, off: bool) {
    if let Some(unmarked) = now.off_unmarked {
        book.breach(Kind::UnmarkedRemoval, at.name(), unmarked).since = Some(at.span);
    }
    if off && at.part.reuse_if.is_some() && !now.checked {
        book.breach(Kind::ReusedUnchecked, at.name(), at.span).since = now.changed_place();
    }
    if let Some(discarded) = now.discarded
        && at.part.single_use.is_none()
    {
        book.breach(Kind::DiscardedGoesBack, at.name(), at.span).since = Some(discarded);
    }
}

pub(super) fn renew(state: &mut State, at: &At<'_>) {
    let Some(now) = state.parts.get_mut(at.id) else { return };
    (now.fresh, now.discarded) = (Some(at.span), None);
    (now.off_unmarked, now.owes_alignment) = (None, None);
    if now.is_on() && at.part.torque.is_some() && !at.some {
        now.owe(at.pieces(), at.part.count, Tightness::Owed(at.span));
    }
}

/// The part that is off, and whose place this one may not take.
pub(super) fn in_place_of(book: &Book<'_>, state: &State, part: u32) -> Option<u32> {
    let parts = (0..).zip(&book.declarations.parts).filter(|_| book.seen.refuses);
    let mut off = parts.filter(|(id, _)| state.part(*id).is_some_and(|it| !it.is_on()) && book.has(*id));
    off.find(|(_, right)| right.never.iter().any(|never| never.value == Name::Part(part))).map(|(id, _)| id)
}
