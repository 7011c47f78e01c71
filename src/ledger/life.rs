//! The life of one part: what each step that touches it leaves it in.
use super::breach::{Kind, Models};
use super::end;
use super::groups::{Group, Groups};
use super::state::{PartState, Place, State, Surface, Tightness};
use super::walk;
use crate::model::action::{PlaceTarget, Work};
use crate::model::declarations::Part;
use crate::model::{Action, Document, Name, Register, Step};

/// What becomes of a part on these models.
#[derive(Debug, Clone)]
pub struct Life {
    pub models: Models,
    pub events: Vec<Event>,
}

/// After one step.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Event {
    pub step: u32,
    /// How it stands, in words: `off`, `marked`.
    pub state: Vec<&'static str>,
    /// What is still to be done: `to be fitted`.
    pub open: Vec<&'static str>,
    /// Where an earlier finding came out so.
    pub only_if: Option<String>,
}

/// Of the part of that number, for each group of models that has it.
pub fn trace(document: &Document, register: &Register, part: u32) -> Vec<Life> {
    let Some(procedure) = document.procedure() else { return Vec::new() };
    let declarations = &document.declarations;
    let Some(declared) = declarations.part(part) else { return Vec::new() };
    let groups = Groups::with_called(procedure, declarations, register);
    let having = groups.iter().filter(|group| group.has(&declared.applies));
    let life = |group: &Group<'_>| {
        let watch = Watch { part, declared, events: Vec::new() };
        let events = walk::watched(procedure, declarations, group, register, watch);
        Life { models: group.models.clone(), events }
    };
    having.map(life).collect()
}

/// Looks on while the steps are walked.
pub(super) struct Watch<'a> {
    part: u32,
    declared: &'a Part,
    events: Vec<Event>,
}

impl Watch<'_> {
    pub(super) fn part(&self, state: &State) -> Option<PartState> {
        state.part(self.part).copied()
    }

    /// After the step's own line.
    pub(super) fn look(
        &mut self,
        step: &Step,
        before: Option<PartState>,
        state: &State,
        only_if: Option<String>,
    ) {
        let Some(now) = self.part(state) else { return };
        if before == Some(now) && !self.is_named(step) {
            return;
        }
        let open = end::open(self.declared, &now).map(|(kind, _)| owed(kind)).collect();
        let event = Event { step: step.number, state: told(&now), open, only_if };
        let like = |it: &Event| it.step == event.step && it.state == event.state && it.open == event.open;
        // Ways that have not parted yet say the same.
        if !self.events.iter().rev().take_while(|it| it.step == event.step).any(like) {
            self.events.push(event);
        }
    }

    pub(super) fn events(self) -> Vec<Event> {
        self.events
    }

    fn is_named(&self, step: &Step) -> bool {
        let mine = |name: Option<Name>| name == Some(Name::Part(self.part));
        let placed = |work: &Work| {
            work.places.iter().any(|place| match &place.what {
                PlaceTarget::Objects(objects) => objects.iter().any(|it| mine(it.name)),
                _ => false,
            })
        };
        let mut works = step.actions.iter().filter_map(Action::work);
        works.any(|work| work.objects.iter().any(|it| mine(it.name)) || placed(work))
    }
}

fn told(now: &PartState) -> Vec<&'static str> {
    let place = match now.place {
        Place::There => "on the machine",
        Place::On(_) => "fitted",
        Place::Off(_) if now.disconnected => "disconnected",
        Place::Off(_) => "off",
        Place::NotYet => "not fitted yet",
    };
    let tightness = match now.tightness {
        Tightness::Found => None,
        Tightness::Owed(_) => Some("not tightened"),
        Tightness::Loosened(_) => Some("loosened"),
        Tightness::Snug(_) => Some("snug"),
        Tightness::Tight(_) => Some("tightened"),
    };
    let surface = match now.surface {
        Surface::Unknown => None,
        Surface::Clean => Some("clean"),
        Surface::Dry => Some("clean and dry"),
        Surface::Oiled => Some("oiled"),
    };
    let facts = [
        (now.fresh.is_some(), "new"),
        (now.discarded.is_some(), "the old one discarded"),
        (now.marked.is_some(), "marked"),
        (now.aligned.is_some(), "aligned"),
        (now.identified, "identified"),
        (now.checked, "looked at"),
        (now.drained.is_some(), "drained"),
        (now.isolated.is_some(), "isolated"),
        (now.locked_out.is_some(), "locked out"),
        (now.raised.is_some(), "raised"),
        (now.opened.is_some(), "open"),
        (now.supported.is_some(), "supported"),
    ];
    let facts = facts.into_iter().filter_map(|(holds, word)| holds.then_some(word));
    std::iter::once(place).chain(tightness).chain(surface).chain(facts).collect()
}

/// What settles it.
fn owed(kind: Kind) -> &'static str {
    match kind {
        Kind::LeftOff => "to be fitted",
        Kind::LeftDisconnected => "to be connected",
        Kind::NeverTightened | Kind::NeverTightenedFully | Kind::LeftLoose => "to be tightened",
        Kind::UnalignedFit => "to be aligned",
        Kind::LeftDrained => "to be filled",
        Kind::LeftIsolated => "to be restored",
        Kind::LeftRaised => "to be lowered",
        Kind::LeftOpen => "to be closed",
        _ => "to be let go",
    }
}
