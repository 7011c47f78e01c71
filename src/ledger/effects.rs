//! What one action does to how things stand.
use super::breach::Kind;
use super::state::{Curing, PartState, Place, Spot, State, Surface, Tightness, spot};
use super::walk::Book;
use crate::model::Name;
use crate::model::action::{Object, PlaceTarget, Work};
use crate::model::declarations::{Condition, Part};
use crate::model::quantity::{Dimension, Form, as_float};
use crate::model::torque::PassTarget;
use crate::model::verb::Effect;
use crate::source::Span;

/// Follows one action.
pub(super) fn work(book: &mut Book<'_>, state: &mut State, work: &Work) {
    if work.verb.effects.is_empty() || is_of_another_model(book, work) {
        return;
    }
    for object in &work.objects {
        match object.name {
            Some(Name::Part(id)) => part(book, state, work, object, id),
            Some(Name::Tool(id)) => tool(book, state, work, object, id),
            _ => {}
        }
    }
    places(book, state, work);
    supplies(book, state, work);
    whole(book, state, work);
}

/// Work on a part that these models do not have is not theirs; said once for a step.
fn is_of_another_model(book: &mut Book<'_>, work: &Work) -> bool {
    let foreign = work.objects.iter().find_map(|object| match object.name {
        Some(Name::Part(id)) if !book.has(id) => Some((id, object.word.span)),
        _ => None,
    });
    let Some((id, span)) = foreign else { return false };
    let said = book.breaches.iter().rev().take(16).any(|it| {
        let here = book.extent.range().contains(&(it.at.start as usize));
        it.kind == Kind::WrongModel && here && it.models == book.group.models
    });
    if !said {
        book.breach(Kind::WrongModel, Name::Part(id), span);
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
    fn does(&self, effect: Effect) -> bool {
        self.work.verb.does(effect)
    }
}

fn part(book: &mut Book<'_>, state: &mut State, work: &Work, object: &Object, id: u32) {
    let Some(part) = book.declarations.part(id) else { return };
    let span = object.word.span;
    let piece = part.pieces.iter().any(|piece| piece.value == object.word.value);
    let some = piece || object.count.is_some_and(|count| count < part.count);
    let at = At { work, object, part, id, span, some, spot: spot(work) };
    energy(book, state, &at);
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
        _ => {}
    }
    let Some(now) = state.parts.get_mut(at.id as usize) else { return };
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
        Effect::Restores | Effect::Starts => now.isolated = None,
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
        Effect::Supports => now.supported = span.filter(|_| !names_temporary(book, at.work)),
        Effect::ReleasesSupport => now.supported = None,
        _ => {}
    }
}

fn take_off(book: &mut Book<'_>, state: &mut State, at: &At<'_>) {
    if at.some {
        return;
    }
    let holder = book.seen.holders(at.id).iter().copied().find(|&holder| {
        let holds = |it: &super::state::PartState| it.is_on() && it.at != Some(Spot::Of(at.name()));
        !at.with(holder) && book.has(holder) && state.part(holder).is_some_and(holds)
    });
    if let Some(holder) = holder {
        book.breach(Kind::StillHeld, at.name(), at.span).other = Some(Name::Part(holder));
    }
    let Some(now) = state.parts.get_mut(at.id as usize) else { return };
    match now.place {
        Place::Off(since) if now.at == at.spot || at.spot.is_none() || now.at.is_none() => {
            book.breach(Kind::RemovedTwice, at.name(), at.span).since = Some(since);
        }
        _ => {}
    }
    // A trial fit owes its marks too.
    if let Some(fitted) = now.owes_alignment {
        book.breach(Kind::UnalignedFit, at.name(), fitted);
    }
    let unmarked = !at.part.matched.is_empty() && now.marked.is_none();
    now.off_unmarked = unmarked.then_some(at.span);
    now.place = Place::Off(at.span);
    now.at = at.spot;
    now.disconnected = at.does(Effect::Disconnects);
    now.tightness = Tightness::Found;
    now.surface = Surface::Unknown;
    (now.checked, now.fresh, now.aligned) = (false, None, None);
    (now.owes_alignment, now.supported) = (None, None);
}

fn fit(book: &mut Book<'_>, state: &mut State, at: &At<'_>) {
    let Some(now) = state.part(at.id).copied() else { return };
    let new = at.object.new.is_some() || now.fresh.is_some();
    if !at.some {
        fits_in_turn(book, state, at);
    }
    let since = match now.place {
        Place::On(since) | Place::Off(since) => Some(since),
        Place::There | Place::NotYet => None,
    };
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
    let Some(now) = state.parts.get_mut(at.id as usize) else { return };
    if !now.is_on() || !goes_further {
        now.place = Place::On(at.span);
    }
    now.at = at.spot.or(now.at);
    (now.disconnected, now.off_unmarked, now.raised, now.supported) = (false, None, None, None);
    now.owes_alignment = if owes { Some(at.span) } else { now.owes_alignment };
    now.mark_used |= at.work.facing.is_some();
    if new {
        (now.fresh, now.discarded) = (now.fresh.or(Some(at.span)), None);
    }
    if fastener && !settled && now.tightness != Tightness::Tight(at.span) {
        now.tightness = Tightness::Owed(at.span);
    }
    let facts = &at.part.facts;
    let matters = facts.pressurised.is_some() || facts.live.is_some() || facts.contains.is_some();
    if matters && off {
        state.untested = Some((at.id, at.span));
    }
}

/// Nothing that covers it is on already, and nothing is shut in.
fn fits_in_turn(book: &mut Book<'_>, state: &State, at: &At<'_>) {
    let seen = book.seen;
    for &holder in seen.holders(at.id) {
        let Some(there) = state.part(holder).filter(|_| !at.with(holder) && book.has(holder)) else {
            continue;
        };
        if let Place::On(since) = there.place
            && there.at != Some(Spot::Of(at.name()))
        {
            let breach = book.breach(Kind::FittedOver, at.name(), at.span);
            (breach.other, breach.since) = (Some(Name::Part(holder)), Some(since));
            break;
        }
    }
    for (tool, there) in (0..).zip(&state.tools) {
        let inside =
            |held: &crate::source::Spanned<Name>| there.inside.is_some_and(|it| held.value == Name::Part(it));
        if there.count > 0 && at.part.holds.iter().any(inside) {
            let breach = book.breach(Kind::InTheWay, at.name(), at.span);
            (breach.other, breach.since) = (Some(Name::Tool(tool)), there.since);
        }
    }
}

/// What a part owes that is not new.
fn goes_back(book: &mut Book<'_>, at: &At<'_>, now: &super::state::PartState, off: bool) {
    if let Some(unmarked) = now.off_unmarked {
        book.breach(Kind::UnmarkedRemoval, at.name(), unmarked).since = Some(at.span);
    }
    if off && at.part.reuse_if.is_some() && !now.checked {
        book.breach(Kind::ReusedUnchecked, at.name(), at.span);
    }
    if let Some(discarded) = now.discarded
        && at.part.single_use.is_none()
    {
        book.breach(Kind::DiscardedGoesBack, at.name(), at.span).since = Some(discarded);
    }
}

fn renew(state: &mut State, at: &At<'_>) {
    let Some(now) = state.parts.get_mut(at.id as usize) else { return };
    (now.fresh, now.discarded) = (Some(at.span), None);
    (now.off_unmarked, now.owes_alignment) = (None, None);
    if now.is_on() && at.part.torque.is_some() && !at.some {
        now.tightness = Tightness::Owed(at.span);
    }
}

fn tighten(book: &mut Book<'_>, state: &mut State, at: &At<'_>) {
    let torque = at.work.torque.as_ref();
    if torque.is_some_and(crate::model::Torque::is_check) {
        return;
    }
    let Some(now) = state.part(at.id).copied() else { return };
    while_off(book, state, at);
    let feel = torque.is_some_and(|it| {
        !it.passes.is_empty() && it.passes.iter().all(|pass| matches!(pass.target, PassTarget::Feel(_)))
    });
    let wanted = at.part.torque.as_ref().is_some_and(crate::model::Torque::has_value);
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
    if let Some(now) = state.parts.get_mut(at.id as usize) {
        now.tightness = if feel && wanted { Tightness::Snug(at.span) } else { Tightness::Tight(at.span) };
    }
}

fn loosen(book: &mut Book<'_>, state: &mut State, at: &At<'_>) {
    while_off(book, state, at);
    if let Some(now) = state.parts.get_mut(at.id as usize) {
        (now.tightness, now.surface) = (Tightness::Loosened(at.span), Surface::Unknown);
    }
}

fn while_off(book: &mut Book<'_>, state: &mut State, at: &At<'_>) {
    let Some(now) = state.parts.get_mut(at.id as usize).filter(|_| !at.some) else { return };
    if let Place::Off(since) = now.place {
        // Said once; what follows takes it to be on.
        now.place = Place::On(at.span);
        book.breach(Kind::WorkedOnWhileOff, at.name(), at.span).since = Some(since);
    }
}

fn lock(book: &mut Book<'_>, state: &State, part: u32, at: Span) {
    let Some(now) = state.part(part) else { return };
    if let Tightness::Owed(since) | Tightness::Loosened(since) | Tightness::Snug(since) = now.tightness {
        book.breach(Kind::LockBeforeTorque, Name::Part(part), at).since = Some(since);
    }
}

/// The work fixes the part for good: what it was aligned to must still hold.
fn commit(book: &mut Book<'_>, state: &State, part: u32, at: &At<'_>) {
    let Some(now) = state.part(part) else { return };
    if let (Some(aligned), true) = (now.aligned, now.disturbed_since_aligned) {
        book.breach(Kind::UnverifiedBeforeCommit, Name::Part(part), at.span).since = Some(aligned);
    }
}

fn lock_out(book: &mut Book<'_>, state: &mut State, at: &At<'_>) {
    let Some(now) = state.part(at.id).copied() else { return };
    let off = now.isolated.is_some() || now.closed || !now.is_on() || state.elsewhere.isolated;
    if !off {
        book.breach(Kind::LockoutOutOfOrder, at.name(), at.span);
    } else if let Some(early) = state.released.or(state.proved) {
        book.breach(Kind::LockoutOutOfOrder, at.name(), at.span).since = Some(early);
    }
    if let Some(now) = state.parts.get_mut(at.id as usize) {
        now.locked_out = Some(at.span);
    }
}

fn prove(book: &mut Book<'_>, state: &mut State, at: &At<'_>) {
    if state.isolated.is_none() && !state.elsewhere.isolated {
        book.breach(Kind::LockoutOutOfOrder, at.name(), at.span);
    }
    state.proved = state.proved.or(Some(at.span));
}

/// Live or pressurised parts are worked on only once they are dead.
fn energy(book: &mut Book<'_>, state: &State, at: &At<'_>) {
    let works =
        at.work.takes_off() || at.does(Effect::Loosens) || at.does(Effect::Cuts) || at.does(Effect::Drills);
    if !works {
        return;
    }
    let isolated = state.isolated.is_some() || state.elsewhere.isolated;
    if at.part.facts.live.is_some() && !isolated {
        book.breach(Kind::EnergyNotIsolated, at.name(), at.span);
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
    if let Some(id) = under_pressure {
        let breach = book.breach(Kind::EnergyNotIsolated, Name::Part(id), at.span);
        breach.other = Some(at.name()).filter(|_| id != at.id);
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
        book.breach(Kind::MeasuredWhileFitted, at.name(), at.span).other = Some(Name::Part(holder));
    }
}

fn tool(book: &mut Book<'_>, state: &mut State, work: &Work, object: &Object, id: u32) {
    let Some(tool) = book.declarations.tool(id).filter(|tool| tool.temporary.is_some()) else { return };
    let Some(now) = state.tools.get_mut(id as usize) else { return };
    let count = object.count.unwrap_or(tool.count).max(1);
    if work.takes_off() || work.verb.does(Effect::Withdraws) {
        now.count = if object.count.is_some() { now.count.saturating_sub(count) } else { 0 };
        now.since = now.since.filter(|_| now.count > 0);
    } else if work.fits() || work.verb.does(Effect::Inserts) {
        now.count = now.count.saturating_add(count).min(tool.count.max(1));
        now.since = now.since.or(Some(object.word.span));
        let inside = work
            .places
            .first()
            .is_some_and(|it| matches!(it.preposition.as_str(), "in" | "into" | "through"));
        now.inside = match spot(work) {
            Some(Spot::Of(Name::Part(part))) if inside => Some(part),
            _ => None,
        };
    }
}

/// What the places of the work say: what stands on what, and what something is drained from.
fn places(book: &mut Book<'_>, state: &mut State, work: &Work) {
    for place in &work.places {
        let PlaceTarget::Objects(objects) = &place.what else { continue };
        for object in objects {
            match object.name {
                Some(Name::Tool(_)) if work.verb.does(Effect::Supports) => {
                    put_in(book, state, object);
                }
                Some(Name::Part(id)) => {
                    let own = work.objects.iter().any(|it| matches!(it.name, Some(Name::Part(_))));
                    let Some(now) = state.parts.get_mut(id as usize).filter(|_| !own) else { continue };
                    if work.verb.does(Effect::Drains) {
                        (now.drained, now.released) = (Some(object.word.span), true);
                    }
                    if work.verb.does(Effect::Fills) {
                        now.drained = None;
                    }
                }
                _ => {}
            }
        }
    }
}

fn put_in(book: &Book<'_>, state: &mut State, object: &Object) {
    let Some(Name::Tool(id)) = object.name else { return };
    let Some(tool) = book.declarations.tool(id).filter(|tool| tool.temporary.is_some()) else { return };
    if let Some(now) = state.tools.get_mut(id as usize) {
        now.count = now.count.max(object.count.unwrap_or(tool.count).max(1));
        now.since = now.since.or(Some(object.word.span));
    }
}

/// Whether a temporary tool carries it, which has to come out itself.
fn names_temporary(book: &Book<'_>, work: &Work) -> bool {
    let placed = work.places.iter().filter_map(|place| match &place.what {
        PlaceTarget::Objects(objects) => Some(objects),
        _ => None,
    });
    let temporary = |object: &Object| match object.name {
        Some(Name::Tool(id)) => book.declarations.tool(id).is_some_and(|tool| tool.temporary.is_some()),
        _ => false,
    };
    work.tools.iter().chain(placed.flatten()).any(temporary)
}

/// What goes on wants its surface, and may have to set.
fn supplies(book: &mut Book<'_>, state: &mut State, work: &Work) {
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
                let Some(now) = state.part(part).filter(|_| !(new || locks && oiled(book, part))) else {
                    continue;
                };
                let kind = match now.surface {
                    Surface::Unknown if clean => Kind::NotClean,
                    Surface::Unknown | Surface::Clean if dry => Kind::NotDry,
                    _ => continue,
                };
                if now.fresh.is_none() {
                    book.breach(kind, Name::Part(part), span).other = Some(Name::Supply(id));
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

/// What the action means for everything at once.
fn whole(book: &mut Book<'_>, state: &mut State, work: &Work) {
    let does = |effect| work.verb.does(effect);
    if does(Effect::ReleasesEnergy) && !does(Effect::ReleasesSupport) {
        state.released = state.released.or(Some(work.verb_span));
    }
    if does(Effect::Tests) || does(Effect::Starts) || does(Effect::Measures) || does(Effect::Inspects) {
        state.untested = None;
    }
    if does(Effect::Checks) || does(Effect::Turns) {
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
        for part in &mut state.parts {
            part.disturbed_since_aligned |= part.aligned.is_some();
        }
    }
}
