//! What a procedure leaves behind: it is walked from the machine as it stands, and again from one on which everything
//! is open, which shows what it closes.
use super::breach::{Breach, Kind};
use super::groups::{Group, Groups};
use super::state::{PartState, Place, State, Tightness};
use super::walk;
use crate::model::declarations::{Declarations, Part, Tool};
use crate::model::net::{Change, Need, Net, OfModels, Owed, Shared};
use crate::model::{Document, Name, Procedure, Register};
use crate::source::Span;

/// Of the procedure, for each group of models; none of a catalogue.
pub fn net(document: &Document, register: &Register) -> Option<Net> {
    let procedure = document.procedure()?;
    let of_group = |group: &Group<'_>| {
        let known = procedure.header.models.as_deref().unwrap_or(&[]);
        let models = match &group.models {
            super::Models::All => Vec::new(),
            super::Models::Some(some) => some
                .iter()
                .filter_map(|&at| known.get(at as usize))
                .map(|model| model.value.to_string())
                .collect(),
        };
        OfModels { models, ..Walks::of(procedure, &document.declarations, group, register).told() }
    };
    let groups = Groups::with_called(procedure, &document.declarations, register);
    Some(Net { groups: groups.iter().map(of_group).collect() })
}

/// How things stand at the end of every way, from three beginnings.
struct Walks<'a> {
    declarations: &'a Declarations,
    group: &'a Group<'a>,
    /// Where what was open at the start is said to have been opened.
    start: Span,
    as_it_is: Vec<State>,
    all_open: Vec<State>,
    all_off: Vec<State>,
    /// What is wrong with working it on parts that are off.
    missed: Vec<Breach>,
}

impl<'a> Walks<'a> {
    fn of(
        procedure: &'a Procedure,
        declarations: &'a Declarations,
        group: &'a Group<'a>,
        register: &'a Register,
    ) -> Walks<'a> {
        let start = procedure.span;
        let mut missed = Vec::new();
        let mut from = |state: State| {
            missed.clear();
            walk::to_end(procedure, declarations, group, register, state, &mut missed)
        };
        let as_it_is = from(State::at_start(declarations));
        let all_open = from(State::all_open(declarations, start));
        let all_off = from(State::all_off(declarations, start));
        Walks { declarations, group, start, as_it_is, all_open, all_off, missed }
    }

    fn told(&self) -> OfModels {
        let every =
            |states: &[State], holds: fn(&State) -> bool| !states.is_empty() && states.iter().all(holds);
        let parts = (0..).zip(&self.declarations.parts).filter(|(_, part)| part.thing.from_catalogue);
        let parts = parts.filter(|(_, part)| self.group.has(&part.applies));
        let parts = parts.filter_map(|(id, part)| self.part(id, part));
        let tools = (0..).zip(&self.declarations.tools).filter(|(_, tool)| tool.thing.from_catalogue);
        let tools = tools.filter_map(|(id, tool)| self.tool(id, tool));
        OfModels {
            models: Vec::new(),
            changes: parts.chain(tools).collect(),
            isolates: every(&self.as_it_is, |state| state.isolated.is_some() || state.elsewhere.isolated),
            restores: every(&self.all_open, |state| state.isolated.is_none() && !state.elsewhere.isolated),
            tests: every(&self.all_open, |state| state.untested.is_none()),
        }
    }

    fn part(&self, id: u32, part: &Part) -> Option<Change> {
        let every = |states: &[State], holds: &dyn Fn(&PartState) -> bool| {
            !states.is_empty() && states.iter().all(|state| state.part(id).is_some_and(holds))
        };
        let left = |owed: Owed| every(&self.as_it_is, &|now| is_open(now, owed));
        // Tightening or loosening what is off takes it to be on from then: that closes nothing.
        let need = self.need(id);
        let closes_off = need != Some(Need::ToWorkOn)
            && every(&self.all_off, &|now| matches!(now.place, Place::On(at) if at != self.start));
        let tight = every(&self.as_it_is, &|now| matches!(now.tightness, Tightness::Tight(_)));
        let closed = |owed: Owed| every(&self.all_open, &|now| !is_open(now, owed));
        let opens: Vec<Owed> = STANDING.into_iter().chain(PLACED).filter(|owed| left(*owed)).collect();
        let mut closes: Vec<Owed> = STANDING.into_iter().filter(|owed| closed(*owed)).collect();
        closes.extend(closes_off.then_some(Owed::Off));
        closes.extend(tight.then_some(Owed::Untightened));
        let fits = part.starts_off && closes_off;
        let change = Change {
            thing: Shared::of(&part.thing.name),
            needs: need.or_else(|| fits.then_some(Need::ToFit)),
            opens,
            closes,
            discards: every(&self.as_it_is, &|now| now.discarded.is_some()),
            renews: every(&self.as_it_is, &|now| now.fresh.is_some()),
            relieves: every(&self.as_it_is, &|now| now.released),
        };
        let says = change.relieves
            || change.needs.is_some()
            || !change.opens.is_empty()
            || !change.closes.is_empty();
        says.then_some(change)
    }

    /// What it does first to a part that it takes to be on.
    fn need(&self, id: u32) -> Option<Need> {
        let mine = |breach: &&Breach| breach.what == Name::Part(id) && breach.since == Some(self.start);
        self.missed.iter().filter(mine).find_map(|breach| match breach.kind {
            Kind::RemovedTwice => Some(Need::ToRemove),
            Kind::WorkedOnWhileOff => Some(Need::ToWorkOn),
            _ => None,
        })
    }

    fn tool(&self, id: u32, tool: &Tool) -> Option<Change> {
        let counts = |states: &[State], holds: fn(u32) -> bool| {
            let count = |state: &State| state.tools.get(id as usize).is_some_and(|it| holds(it.count));
            !states.is_empty() && states.iter().all(count)
        };
        tool.temporary?;
        let (left, taken) =
            (counts(&self.as_it_is, |count| count > 0), counts(&self.all_open, |count| count == 0));
        (left || taken).then(|| Change {
            thing: Shared::of(&tool.thing.name),
            needs: None,
            opens: left.then_some(Owed::In).into_iter().collect(),
            closes: (taken && !left).then_some(Owed::In).into_iter().collect(),
            discards: false,
            renews: false,
            relieves: false,
        })
    }
}

/// What a part may be left in without coming off.
const STANDING: [Owed; 6] =
    [Owed::Drained, Owed::Isolated, Owed::LockedOut, Owed::Raised, Owed::Open, Owed::Supported];
/// What hangs on whether it is on.
const PLACED: [Owed; 5] = [Owed::Off, Owed::Disconnected, Owed::Untightened, Owed::Snug, Owed::Loose];

fn is_open(now: &PartState, owed: Owed) -> bool {
    let off = matches!(now.place, Place::Off(_));
    match owed {
        Owed::Off => off,
        Owed::Disconnected => off && now.disconnected,
        Owed::Untightened => matches!(now.tightness, Tightness::Owed(_)),
        Owed::Snug => matches!(now.tightness, Tightness::Snug(_)),
        Owed::Loose => matches!(now.tightness, Tightness::Loosened(_)),
        Owed::Drained => now.drained.is_some(),
        Owed::Isolated => now.isolated.is_some(),
        Owed::LockedOut => now.locked_out.is_some(),
        Owed::Raised => now.raised.is_some(),
        Owed::Open => now.opened.is_some(),
        Owed::Supported => now.supported.is_some(),
        Owed::In => false,
    }
}
