//! What is still open where the work ends.
use super::breach::Kind;
use super::parts::Changed;
use super::state::{PartState, Place, State, Tightness, ToolState};
use super::walk::Book;
use super::{excuse, followed};
use crate::model::declarations::Part;
use crate::model::document::Header;
use crate::model::{Action, Name, Procedure, Step};
use crate::source::Span;

/// At the end of the procedure.
pub(super) fn of(book: &mut Book<'_>, procedure: &Procedure, state: &State) {
    let header = &procedure.header;
    if book.seen.refuses {
        substitutes(book, state);
    }
    for (id, (part, now)) in (0..).zip(book.declarations.parts.iter().zip(state.parts.iter())) {
        if !book.group.has(&part.applies) {
            continue;
        }
        for (kind, at) in open(part, now) {
            // What is missing where another part went on is that other part's fault.
            let taken = kind == Kind::LeftOff && book.is_substituted(id);
            if !excuse::leaves(header, kind) && !taken && !is_elsewhere(book, header, kind, at) {
                let since = match kind {
                    Kind::UnalignedFit => now.marked,
                    Kind::NeverTightened | Kind::LeftLoose => now.in_part,
                    _ => None,
                };
                let other = open_end(now).filter(|_| kind == Kind::LeftDisconnected).map(|(end, _)| end);
                let breach = book.breach(kind, Name::Part(id), at);
                (breach.since, breach.other) = (since, other);
            }
        }
        marks(book, state, id, now);
        if now.is_on() {
            set(book, state, id, part, now, PartState::is_on);
        }
    }
    for (id, now) in (0..).zip(&state.tools) {
        if let Some(since) = now.since.filter(|_| now.count > 0 && !excuse::leaves(header, Kind::LeftIn)) {
            book.breach(Kind::LeftIn, Name::Tool(id), since);
        }
    }
    for curing in state.cures.iter().filter(|curing| curing.left > 0.0) {
        book.breach(Kind::CureNotWaited, Name::Supply(curing.supply), curing.at);
    }
    untested(book, header, state);
}

/// Whether it was so before the work began, and another looks after it: the rule about an isolated or drained machine,
/// or a procedure of which nothing is known that comes next.
fn is_elsewhere(book: &Book<'_>, header: &Header, kind: Kind, at: Span) -> bool {
    let required = header.requires.iter().flatten().any(|call| call.span == at);
    let mut next = header.afterwards.iter().flatten();
    required
        && (matches!(kind, Kind::LeftIsolated | Kind::LeftDrained)
            || next.any(|call| !followed::is_known(book, call)))
}

/// What a branch has renewed, with all that belongs to it.
pub(super) fn sets_of_branch(book: &mut Book<'_>, changed: &Changed, after: &State) {
    for &(id, then) in changed {
        let (Some(part), Some(now)) = (book.declarations.part(id), after.part(id)) else { continue };
        if !part.set_with.is_empty() && then.fresh.is_none() && book.group.has(&part.applies) {
            // Both may lie on the bench.
            set(book, after, id, part, now, |_| true);
        }
    }
}

/// What a branch has opened that was not open before its step. `tools` are those before it.
pub(super) fn of_branch(
    book: &mut Book<'_>,
    step: &Step,
    (changed, tools): (&Changed, &[ToolState]),
    after: &State,
) {
    for &(id, then) in changed {
        let (Some(part), Some(now)) = (book.declarations.part(id), after.part(id)) else { continue };
        if then == *now || !book.group.has(&part.applies) {
            continue;
        }
        let opened = open(part, now).find(|(kind, _)| open(part, &then).all(|(was, _)| was != *kind));
        if let Some((kind, at)) = opened
            && !matches!(kind, Kind::UnalignedFit)
            && !(kind == Kind::NeverTightened && is_tightened_later(book, step, id))
        {
            book.breach(Kind::BranchEndsOpen, Name::Part(id), at);
        }
    }
    for (id, (then, now)) in (0..).zip(tools.iter().zip(&after.tools)) {
        if let Some(since) = now.since.filter(|_| now.count > then.count) {
            book.breach(Kind::BranchEndsOpen, Name::Tool(id), since);
        }
    }
}

/// What comes after the branch tightens it in any case.
fn is_tightened_later(book: &Book<'_>, step: &Step, part: u32) -> bool {
    let last = book.tightened.get_or_init(|| last_tightened(book));
    last.get(part as usize).is_some_and(|last| *last > step.number)
}

/// By the number of the part: the last step that tightens it whatever was found, or 0.
fn last_tightened(book: &Book<'_>) -> Vec<u32> {
    let mut last = vec![0; book.declarations.parts.len()];
    for step in book.procedure.steps().filter(|it| it.conditions.is_empty() && book.group.has(&it.applies)) {
        let works = step.actions.iter().filter_map(Action::work).filter(|work| work.verb.tightens());
        for object in works.flat_map(|work| &work.objects) {
            if let Some(Name::Part(part)) = object.name
                && let Some(number) = last.get_mut(part as usize)
            {
                *number = step.number;
            }
        }
    }
    last
}

/// What a line that is connected again is still open at, and since when.
fn open_end(now: &PartState) -> Option<(Name, Span)> {
    now.open_ends.iter().flatten().next().copied().filter(|_| now.is_on())
}

/// What the part still owes, and since when.
pub(super) fn open(part: &Part, now: &PartState) -> impl Iterator<Item = (Kind, Span)> + use<> {
    let place = match now.place {
        Place::Off(_) if part.stays_off => None,
        Place::Off(since) if now.disconnected => Some((Kind::LeftDisconnected, since)),
        Place::Off(since) => Some((Kind::LeftOff, since)),
        _ => open_end(now).map(|(_, since)| (Kind::LeftDisconnected, since)),
    };
    let wants = part.torque.as_ref().is_none_or(|torque| torque.has_value() || torque.says_something());
    let tightness = match now.tightness {
        _ if place.is_some() => None,
        Tightness::Owed(since) if wants => Some((Kind::NeverTightened, since)),
        Tightness::Snug(since) => Some((Kind::NeverTightenedFully, since)),
        Tightness::Loosened(since) => Some((Kind::LeftLoose, since)),
        _ => None,
    };
    let isolated = now.isolated.or(now.locked_out).map(|since| (Kind::LeftIsolated, since));
    [
        place,
        tightness,
        now.owes_alignment.map(|since| (Kind::UnalignedFit, since)),
        now.drained.map(|since| (Kind::LeftDrained, since)),
        isolated,
        now.raised.map(|since| (Kind::LeftRaised, since)),
        now.opened.map(|since| (Kind::LeftOpen, since)),
        now.supported.map(|since| (Kind::LeftIn, since)),
    ]
    .into_iter()
    .flatten()
}

/// A mark that nothing was set by, on a part that went back.
fn marks(book: &mut Book<'_>, state: &State, id: u32, now: &PartState) {
    let Some(mark) = now.marked.filter(|_| !now.mark_used && now.owes_alignment.is_none()) else { return };
    let used =
        state.parts.iter().any(|it| it.marked == Some(mark) && (it.mark_used || it.owes_alignment.is_some()));
    let first = state.parts.iter().position(|it| it.marked == Some(mark)) == Some(id as usize);
    if !used && first {
        book.breach(Kind::MarkNeverUsed, Name::Part(id), mark);
    }
}

/// A part is new and one of its set is not.
fn set(
    book: &mut Book<'_>,
    state: &State,
    id: u32,
    part: &Part,
    now: &PartState,
    counts: fn(&PartState) -> bool,
) {
    let Some(new) = now.fresh else { return };
    for other in &part.set_with {
        let Name::Part(with) = other.value else { continue };
        if book.has(with) && state.part(with).is_some_and(|it| it.fresh.is_none() && counts(it)) {
            book.breach(Kind::RenewedAlone, Name::Part(id), new).other = Some(other.value);
        }
    }
}

/// A part went on where another belongs that it may not replace.
fn substitutes(book: &mut Book<'_>, state: &State) {
    for (id, part) in (0..).zip(&book.declarations.parts) {
        let missing = book.group.has(&part.applies) && state.part(id).is_some_and(|it| !it.is_on());
        for never in part.never.iter().filter(|_| missing) {
            let Name::Part(other) = never.value else { continue };
            if let Some(Place::On(at)) = state.part(other).map(|it| it.place) {
                book.breach(Kind::Substitute, never.value, at).other = Some(Name::Part(id));
            }
        }
    }
}

fn untested(book: &mut Book<'_>, header: &Header, state: &State) {
    let Some((part, at)) = state.untested else { return };
    let goes_on = header.afterwards.as_ref().is_some_and(|calls| !calls.is_empty());
    if !goes_on && !excuse::leaves(header, Kind::NotTested) {
        book.breach(Kind::NotTested, Name::Part(part), at);
    }
}
