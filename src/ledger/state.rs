//! How things stand between two steps.
use super::excuse::Elsewhere;
use super::parts::{Changed, Parts};
use crate::model::action::{PlaceTarget, Work};
use crate::model::quantity::{Quantity, as_float};
use crate::model::{Declarations, Name};
use crate::source::Span;

/// Everything that the procedure works with.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct State {
    pub parts: Parts,
    /// By the number of the tool; the count of a temporary tool that is in place, and since when.
    pub tools: Vec<ToolState>,
    /// Supplies that set, with the time in seconds that they still need.
    pub cures: Vec<Curing>,
    pub elsewhere: Elsewhere,
    /// Something was cut off from its energy here.
    pub isolated: Option<Span>,
    /// Stored energy was let go.
    pub released: Option<Span>,
    /// Something was proved dead.
    pub proved: Option<Span>,
    /// A part that matters to safety went back, and nothing was tried or looked at since.
    pub untested: Option<(u32, Span)>,
}

/// A supply that has gone on and sets.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Curing {
    pub supply: u32,
    pub at: Span,
    /// In seconds. No sum of waits is too long to be held.
    pub left: f64,
}

#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct PartState {
    pub place: Place,
    /// What it was last put on or taken from.
    pub at: Option<Spot>,
    /// By a verb that disconnects.
    pub disconnected: bool,
    /// What it was disconnected from by name, and not connected to again, since where; a line has two ends, some three.
    pub open_ends: [Option<(Name, Span)>; 3],
    pub discarded: Option<Span>,
    /// A new one is in hand or in place.
    pub fresh: Option<Span>,
    pub tightness: Tightness,
    /// How many of the pieces owe it, where that is known; otherwise 0.
    pub owing: u32,
    /// Where the first of those pieces were tightened, while others still owe it.
    pub in_part: Option<Span>,
    /// The mark, by the verb that made it.
    pub marked: Option<Span>,
    pub mark_used: bool,
    /// Taken off without the mark it needs.
    pub off_unmarked: Option<Span>,
    /// Fitted by a mark that it has not been aligned by yet.
    pub owes_alignment: Option<Span>,
    /// Aligned, and not looked at since something else was done.
    pub aligned: Option<Span>,
    pub disturbed_since_aligned: bool,
    pub identified: bool,
    /// Looked at since it came off.
    pub checked: bool,
    pub surface: Surface,
    pub drained: Option<Span>,
    pub isolated: Option<Span>,
    pub locked_out: Option<Span>,
    /// Something was proved dead while it was locked out.
    pub proved_dead: bool,
    /// Something is cut off at it: a switch, a valve.
    pub cut_off_at: bool,
    pub raised: Option<Span>,
    pub opened: Option<Span>,
    pub supported: Option<Span>,
    /// Pressure let out, or charge let go.
    pub released: bool,
    pub closed: bool,
    /// Whether it was open when the work came to it; none while nothing opened or closed it.
    pub found_open: Option<bool>,
}

#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) enum Place {
    /// From the start.
    There,
    /// Since it was fitted.
    On(Span),
    Off(Span),
    /// From the start (`starts off`).
    NotYet,
}

#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) enum Tightness {
    /// As it was found, or not a fastener.
    Found,
    /// Fitted, and owes its torque.
    Owed(Span),
    Loosened(Span),
    Snug(Span),
    Tight(Span),
}

#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Surface {
    /// Nothing is known, or it was disturbed since.
    Unknown,
    Clean,
    Dry,
    /// Oil or grease is on it on purpose, which has a rule of its own.
    Oiled,
}

/// A declared thing or a place in words.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Spot {
    Of(Name),
    Words,
}

#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub(super) struct ToolState {
    pub count: u32,
    pub since: Option<Span>,
    /// The part it is in.
    pub inside: Option<u32>,
    /// The part that was let down on it, and where.
    pub load: Option<(u32, Span)>,
}

impl PartState {
    pub(super) fn is_on(&self) -> bool {
        matches!(self.place, Place::There | Place::On(_))
    }

    /// Where it was last fitted or taken off.
    pub(super) fn changed_place(&self) -> Option<Span> {
        match self.place {
            Place::On(since) | Place::Off(since) => Some(since),
            Place::There | Place::NotYet => None,
        }
    }

    /// Of all its pieces, as far as is known.
    pub(super) fn set_tightness(&mut self, tightness: Tightness) {
        (self.tightness, self.owing, self.in_part) = (tightness, 0, None);
    }

    /// So many of its pieces, of `all` there are, owe their tightness; others may owe it already.
    pub(super) fn owe(&mut self, pieces: u32, all: u32, tightness: Tightness) {
        let owes = !matches!(self.tightness, Tightness::Found | Tightness::Tight(_));
        // Where it is not known how many owe it already, none is counted.
        self.owing = match (owes, self.owing) {
            (true, 0) if pieces < all => 0,
            (true, owing) => owing.saturating_add(pieces).min(all),
            (false, _) => pieces.min(all),
        };
        (self.tightness, self.in_part) = (tightness, None);
    }

    /// Where it was last handled in a way that leaves dirt.
    pub(super) fn disturbed(&self) -> Option<Span> {
        match self.tightness {
            Tightness::Loosened(since) => Some(since),
            _ => self.changed_place(),
        }
    }
}

impl State {
    pub(super) fn at_start(declarations: &Declarations) -> State {
        let parts = declarations.parts.iter().map(|part| PartState {
            place: if part.starts_off || part.made_from.is_some() { Place::NotYet } else { Place::There },
            at: None,
            disconnected: false,
            open_ends: [None; 3],
            discarded: None,
            fresh: None,
            tightness: Tightness::Found,
            owing: 0,
            in_part: None,
            marked: None,
            mark_used: false,
            off_unmarked: None,
            owes_alignment: None,
            aligned: None,
            disturbed_since_aligned: false,
            identified: false,
            checked: false,
            surface: Surface::Unknown,
            drained: None,
            isolated: None,
            locked_out: None,
            proved_dead: false,
            cut_off_at: false,
            raised: None,
            opened: None,
            supported: None,
            released: false,
            closed: false,
            found_open: None,
        });
        State {
            parts: parts.collect(),
            tools: vec![ToolState::default(); declarations.tools.len()],
            cures: Vec::new(),
            elsewhere: Elsewhere::default(),
            isolated: None,
            released: None,
            proved: None,
            untested: None,
        }
    }

    /// A machine on which all parts are on and everything that can be is open, since `at`.
    pub(super) fn all_open(declarations: &Declarations, at: Span) -> State {
        let mut state = State::at_start(declarations);
        let open = Some(at);
        for part in state.parts.iter_mut() {
            (part.drained, part.isolated, part.locked_out) = (open, open, open);
            (part.raised, part.opened, part.supported) = (open, open, open);
            part.found_open = Some(false);
        }
        for (now, tool) in state.tools.iter_mut().zip(&declarations.tools) {
            (now.count, now.since) = (tool.count.max(1), open);
        }
        (state.isolated, state.untested) = (open, Some((0, at)));
        state
    }

    /// A machine that lies in parts since `at`.
    pub(super) fn all_off(declarations: &Declarations, at: Span) -> State {
        let mut state = State::at_start(declarations);
        for part in state.parts.iter_mut() {
            part.place = Place::Off(at);
        }
        state
    }

    /// Time passes.
    pub(super) fn wait(&mut self, time: Option<&Quantity>) {
        let Some(passed) = time.and_then(Quantity::lower).map(as_float) else { return };
        for curing in &mut self.cures {
            curing.left = (curing.left - passed).max(0.0);
        }
    }

    /// Somebody has looked and signed.
    pub(super) fn looked_at_all(&mut self) {
        self.untested = None;
        self.parts.change(|it| it.disturbed_since_aligned, |it| it.disturbed_since_aligned = false);
    }

    pub(super) fn part(&self, id: u32) -> Option<&PartState> {
        self.parts.get(id)
    }

    /// Before a branch is followed: all but the parts, which keep what they were themselves.
    pub(super) fn enter(&mut self) -> State {
        self.parts.enter();
        State {
            parts: Parts::default(),
            tools: self.tools.clone(),
            cures: self.cures.clone(),
            elsewhere: self.elsewhere,
            isolated: self.isolated,
            released: self.released,
            proved: self.proved,
            untested: self.untested,
        }
    }

    /// As it was before the branch.
    pub(super) fn leave(&mut self, before: State, changed: Changed) {
        self.parts.leave(changed);
        let parts = std::mem::take(&mut self.parts);
        *self = State { parts, ..before };
    }
}

/// Where the work goes to or comes from, by its first place.
pub(super) fn spot(work: &Work) -> Option<Spot> {
    work.places.first().map(|place| match &place.what {
        PlaceTarget::Objects(objects) => objects.iter().find_map(|it| it.name).map_or(Spot::Words, Spot::Of),
        PlaceTarget::Quantity(_) | PlaceTarget::Text(_) => Spot::Words,
    })
}
