//! Temporary tools, and what the places of the work say.
use crate::ledger::Kind;
use crate::ledger::state::{Spot, State, spot};
use crate::ledger::walk::Book;
use crate::model::Name;
use crate::model::action::{Object, PlaceTarget, Work};
use crate::model::verb::Effect;

pub(super) fn tool(book: &mut Book<'_>, state: &mut State, work: &Work, object: &Object, id: u32) {
    let Some(tool) = book.declarations.tool(id).filter(|tool| tool.temporary.is_some()) else { return };
    let Some(now) = state.tools.get_mut(id as usize) else { return };
    let count = object.count.unwrap_or(tool.count).max(1);
    if work.takes_off() || work.verb.does(Effect::Withdraws) {
        if let Some((part, since)) = now.load.take() {
            let breach = book.breach(Kind::UnderLoad, Name::Tool(id), object.word.span);
            (breach.other, breach.since) = (Some(Name::Part(part)), Some(since));
        }
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

/// What is put in by the way: `plug hose with 2 of caps`, `support axle with stand`.
pub(super) fn left_with(book: &Book<'_>, state: &mut State, work: &Work) {
    if work.verb.does(Effect::Inserts) || work.verb.does(Effect::Supports) {
        work.tools.iter().for_each(|object| put_in(book, state, object));
    }
}

/// What the places of the work say: what stands on what, and what something is drained from.
pub(super) fn places(book: &mut Book<'_>, state: &mut State, work: &Work) {
    for place in &work.places {
        let PlaceTarget::Objects(objects) = &place.what else { continue };
        for object in objects {
            match object.name {
                Some(Name::Tool(_)) if work.verb.does(Effect::Supports) => {
                    put_in(book, state, object);
                }
                Some(Name::Tool(id)) if work.verb.does(Effect::Lowers) => {
                    let load = parts(work).next().map(|part| (part, work.verb_span));
                    if let Some(now) = state.tools.get_mut(id as usize) {
                        now.load = load;
                    }
                }
                Some(Name::Part(id)) => {
                    if work.verb.does(Effect::Isolates) || work.verb.does(Effect::ShutsDown) {
                        if let Some(now) = state.parts.get_mut(id) {
                            now.cut_off_at = true;
                        }
                        continue;
                    }
                    let own = work.objects.iter().any(|it| matches!(it.name, Some(Name::Part(_))));
                    let Some(now) = state.parts.get_mut(id).filter(|_| !own) else { continue };
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

/// What takes the weight of a part takes it off the tools that it rested on.
pub(super) fn relieved(state: &mut State, work: &Work) {
    for part in parts(work) {
        for now in &mut state.tools {
            now.load = now.load.filter(|(on, _)| *on != part);
        }
    }
}

fn parts(work: &Work) -> impl Iterator<Item = u32> {
    work.objects.iter().filter_map(|object| match object.name {
        Some(Name::Part(id)) => Some(id),
        _ => None,
    })
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
pub(super) fn names_temporary(book: &Book<'_>, work: &Work) -> bool {
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
