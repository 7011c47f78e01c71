//! A procedure that is worked within this one: its net effects on what both have from one catalogue, and its words.
use super::breach::Kind;
use super::effects::fitting;
use super::excuse::{self, Elsewhere};
use super::state::{Place, State, Surface, Tightness};
use super::walk::Book;
use crate::model::Name;
use crate::model::declarations::Declarations;
use crate::model::document::Call;
use crate::model::net::{Change, Need, OfModels, Owed, Shared};
use crate::source::Span;

/// Works it.
pub(super) fn follow(book: &mut Book<'_>, state: &mut State, call: &Call) {
    excuse::follow(state, call);
    let register = book.register;
    let net = call.number.as_ref().and_then(|number| register.net(number.as_str()));
    let Some(net) = net.and_then(|net| net.of(book.group.model.as_deref())) else { return };
    let changes: Vec<(Name, &Change)> = net
        .changes
        .iter()
        .filter_map(|change| Some((ours(book.declarations, &change.thing)?, change)))
        .collect();
    let at = call.span;
    for (name, change) in &changes {
        match name {
            Name::Part(id) => {
                order(book, state, *id, change, &changes, at);
                part(state, *id, change, at);
            }
            Name::Tool(id) => tool(book.declarations, state, *id, change, at),
            _ => {}
        }
    }
    whole(state, net);
}

/// The same thing by its name in this file.
fn ours(declarations: &Declarations, shared: &Shared) -> Option<Name> {
    let name = declarations.find(&shared.name)?;
    declarations.thing(name).filter(|thing| shared.is(&thing.name)).map(|_| name)
}

/// Whether it can be worked with the machine as it stands here.
fn order(
    book: &mut Book<'_>,
    state: &State,
    id: u32,
    change: &Change,
    changes: &[(Name, &Change)],
    at: Span,
) {
    let Some(now) = state.part(id).filter(|_| book.has(id)) else { return };
    let kind = match (change.needs, now.place) {
        (Some(Need::ToRemove), Place::Off(_)) => Some(Kind::RemovedTwice),
        (Some(Need::ToWorkOn), Place::Off(_)) => Some(Kind::WorkedOnWhileOff),
        (Some(Need::ToFit), Place::On(_)) => Some(Kind::FittedWhileFitted),
        _ => None,
    };
    if let Some(kind) = kind {
        let since = now.changed_place();
        book.breach(kind, Name::Part(id), at).since = since;
        return;
    }
    let theirs = |other: u32, owed: Owed| {
        let does = |change: &Change| {
            change.opens.contains(&owed) || change.closes.contains(&owed) || change.needs.is_some()
        };
        changes.iter().any(|(name, change)| *name == Name::Part(other) && does(change))
    };
    if change.opens.contains(&Owed::Off) || change.needs == Some(Need::ToRemove) {
        fitting::still_held(book, state, id, at, |holder| theirs(holder, Owed::Off));
    }
    if change.closes.contains(&Owed::Off) && !now.is_on() {
        fitting::covered(book, state, id, at, |holder| theirs(holder, Owed::Off));
    }
}

fn part(state: &mut State, id: u32, change: &Change, at: Span) {
    let Some(now) = state.parts.get_mut(id as usize) else { return };
    let opens = |owed: Owed| change.opens.contains(&owed);
    let closes = |owed: Owed| change.closes.contains(&owed);
    if closes(Owed::Off) && !now.is_on() {
        (now.place, now.at, now.disconnected) = (Place::On(at), None, false);
        (now.off_unmarked, now.owes_alignment) = (None, None);
    }
    if opens(Owed::Off) {
        (now.place, now.at, now.disconnected) = (Place::Off(at), None, opens(Owed::Disconnected));
        (now.tightness, now.surface) = (Tightness::Found, Surface::Unknown);
        (now.checked, now.fresh, now.aligned) = (false, None, None);
    }
    if change.discards {
        now.discarded = Some(at);
    }
    if change.renews {
        (now.fresh, now.discarded) = (Some(at), None);
    }
    let tightness = [
        (opens(Owed::Untightened), Tightness::Owed(at)),
        (opens(Owed::Snug), Tightness::Snug(at)),
        (opens(Owed::Loose), Tightness::Loosened(at)),
        (closes(Owed::Untightened), Tightness::Tight(at)),
    ];
    if let Some((_, tightness)) = tightness.into_iter().find(|(holds, _)| *holds) {
        now.tightness = tightness;
    }
    now.released |= opens(Owed::Drained) || opens(Owed::Open);
    now.closed = if opens(Owed::Open) { false } else { now.closed || closes(Owed::Open) };
    for (slot, owed) in [
        (&mut now.drained, Owed::Drained),
        (&mut now.isolated, Owed::Isolated),
        (&mut now.locked_out, Owed::LockedOut),
        (&mut now.raised, Owed::Raised),
        (&mut now.opened, Owed::Open),
        (&mut now.supported, Owed::Supported),
    ] {
        if opens(owed) {
            *slot = Some(at);
        } else if closes(owed) {
            *slot = None;
        }
    }
}

fn tool(declarations: &Declarations, state: &mut State, id: u32, change: &Change, at: Span) {
    let (Some(tool), Some(now)) = (declarations.tool(id), state.tools.get_mut(id as usize)) else { return };
    if change.opens.contains(&Owed::In) {
        (now.count, now.since) = (now.count.max(tool.count.max(1)), now.since.or(Some(at)));
    } else if change.closes.contains(&Owed::In) {
        (now.count, now.since) = (0, None);
    }
}

fn whole(state: &mut State, net: &OfModels) {
    if net.restores {
        state.elsewhere = Elsewhere::default();
        (state.isolated, state.released, state.proved) = (None, None, None);
    }
    state.elsewhere.isolated |= net.isolates;
    state.elsewhere.released |= net.releases;
    if net.tests {
        state.untested = None;
    }
}
