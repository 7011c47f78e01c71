//! Procedures that are worked before, within and after this one: their net effects on what both have from one
//! catalogue, and their words.
use super::breach::Kind;
use super::effects::fitting;
use super::excuse::{self, Elsewhere};
use super::groups::Group;
use super::state::{Place, State, Surface, Tightness};
use super::walk::Book;
use crate::model::declarations::Declarations;
use crate::model::document::Call;
use crate::model::net::{Change, Need, OfModels, Owed, Shared};
use crate::model::{Name, Procedure, Register};
use crate::source::Span;

/// Works it.
pub(super) fn follow(book: &mut Book<'_>, state: &mut State, call: &Call) {
    excuse::follow(state, call);
    let Some(net) = net(book.register, call, book.group) else { return };
    let changes = changes(book.declarations, net);
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

/// The machine as the procedures that have to come first leave it.
pub(super) fn required(
    procedure: &Procedure,
    declarations: &Declarations,
    group: &Group<'_>,
    register: &Register,
) -> State {
    let mut state = State::at_start(declarations);
    for call in procedure.header.requires.iter().flatten() {
        let Some(net) = net(register, call, group) else { continue };
        for (name, change) in changes(declarations, net) {
            match name {
                Name::Part(id) => part(&mut state, id, change, call.span),
                Name::Tool(id) => tool(declarations, &mut state, id, change, call.span),
                _ => {}
            }
        }
        whole(&mut state, net);
    }
    state
}

/// What the procedures that come next close is not left open.
pub(super) fn settled_afterwards(book: &Book<'_>, mut state: State) -> State {
    for call in book.procedure.header.afterwards.iter().flatten() {
        let Some(net) = net(book.register, call, book.group) else { continue };
        for (name, change) in changes(book.declarations, net) {
            let closing = Change { opens: Vec::new(), ..change.clone() };
            match name {
                Name::Part(id) => part(&mut state, id, &closing, call.span),
                Name::Tool(id) => tool(book.declarations, &mut state, id, &closing, call.span),
                _ => {}
            }
        }
    }
    state
}

fn net<'r>(register: &'r Register, call: &Call, group: &Group<'_>) -> Option<&'r OfModels> {
    register.net(call.number.as_ref()?.as_str())?.of(group.model)
}

/// Whether it is known what the called procedure leaves behind.
pub(super) fn is_known(book: &Book<'_>, call: &Call) -> bool {
    net(book.register, call, book.group).is_some()
}

/// What it changes of the things of this file.
fn changes<'r>(declarations: &Declarations, net: &'r OfModels) -> Vec<(Name, &'r Change)> {
    net.changes.iter().filter_map(|change| Some((ours(declarations, &change.thing)?, change))).collect()
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
    let Some(now) = state.parts.get_mut(id) else { return };
    let opens = |owed: Owed| change.opens.contains(&owed);
    let closes = |owed: Owed| change.closes.contains(&owed);
    if closes(Owed::Off) && !now.is_on() {
        (now.place, now.at, now.disconnected) = (Place::On(at), None, false);
        now.open_ends = [None; 3];
        (now.off_unmarked, now.owes_alignment) = (None, None);
    }
    if opens(Owed::Off) {
        (now.place, now.at, now.disconnected) = (Place::Off(at), None, opens(Owed::Disconnected));
        now.set_tightness(Tightness::Found);
        now.surface = Surface::Unknown;
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
        now.set_tightness(tightness);
    }
    // Of this part alone: what else is under pressure stays so, whatever was let go there.
    now.released |= change.relieves;
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
    if net.tests {
        state.untested = None;
    }
}
