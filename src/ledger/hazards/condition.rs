//! What the steps so far have made of the hazards: dead, vented, cold, slung. Each holds on some models.
use super::demand::ToolKind;
use super::known::Known;
use crate::ledger::states::States;
use crate::model::action::{Action, Object, PlaceTarget, Work};
use crate::model::document::{Call, Procedure};
use crate::model::quantity::{Dimension, as_float};
use crate::model::verb::{Effect, Effects};
use crate::model::{Declarations, Name};

/// Of the machine, and of each part that something was done to.
#[derive(Debug, Default)]
pub struct Condition {
    /// Switched off or locked: one proof then stands for the whole machine.
    isolated: u64,
    all: Part,
    /// By their number, as far as one was needed.
    parts: Vec<Part>,
    /// How often power came back and the machine was started: what was proved of a part before then is void.
    powered: u32,
    started: u32,
}

/// On which models what holds of a part.
#[derive(Debug, Clone, Copy, Default)]
pub struct Part {
    powered: u32,
    started: u32,
    pub dead: u64,
    pub vented: u64,
    pub cold: u64,
    /// Off the machine or let go: its spring holds nothing.
    pub relaxed: u64,
    pub slung: u64,
    pub heated: u64,
}

/// In pascals, what a gauge may still show on what is let off.
const NO_PRESSURE: f64 = 100_000.0;
/// In volts (29 CFR 1910.333(a)(1)).
const NO_VOLTAGE: f64 = 50.0;

const LETS_OFF: Effects = Effects::of(&[Effect::ReleasesEnergy, Effect::Drains, Effect::Opens]);
const OPENS_JOINT: Effects = Effects::of(&[Effect::TakesOff, Effect::Disconnects]);
const BUILDS_UP: Effects = Effects::of(&[Effect::Pressurises, Effect::Fills]);
const CUTS_OFF: Effects = Effects::of(&[Effect::Isolates, Effect::LocksOut]);
/// Power comes back.
pub const LETS_IN: Effects = Effects::of(&[Effect::Restores, Effect::Unlocks, Effect::Untags]);
const LETS_GO: Effects = Effects::of(&[Effect::ReleasesEnergy, Effect::ReleasesSupport]);
const HANGS_ON: Effects =
    Effects::of(&[Effect::Inserts, Effect::Fits, Effect::Lifts, Effect::Supports, Effect::Raises]);

impl Condition {
    /// As `requires:` leaves the machine.
    pub fn at_start(procedure: &Procedure) -> Condition {
        let mut condition = Condition::default();
        procedure.header.requires.iter().flatten().for_each(|call| condition.call(call, u64::MAX));
        condition
    }

    pub fn part(&self, id: u32) -> Part {
        let own = self.parts.get(id as usize).map_or_else(Part::default, |part| self.valid(*part));
        let Part { dead, vented, cold, .. } = self.all;
        Part { dead: own.dead | dead, vented: own.vented | vented, cold: own.cold | cold, ..own }
    }

    fn valid(&self, mut part: Part) -> Part {
        if part.powered < self.powered {
            part.dead = 0;
        }
        if part.started < self.started {
            part.cold = 0;
        }
        Part { powered: self.powered, started: self.started, ..part }
    }

    /// For writing. A number of no part has nowhere to be kept.
    fn change(&mut self, id: u32, change: impl FnOnce(&mut Part)) {
        let at = id as usize;
        if at >= self.parts.len() {
            self.parts.resize(at + 1, Part::default());
        }
        let mut part = self.parts.get(at).map_or_else(Part::default, |part| self.valid(*part));
        change(&mut part);
        if let Some(place) = self.parts.get_mut(at) {
            *place = part;
        }
    }

    /// After the action was done on those models.
    pub fn after(&mut self, action: &Action, on: u64, known: &Known<'_>) {
        match action {
            Action::Work(work) => self.work(work, on, known),
            Action::Follow(follow) => self.call(&follow.call, on),
            Action::Wait(wait)
                if wait.until.as_ref().is_some_and(|it| States::of(it.as_str()).any(States::COLD)) =>
            {
                self.all.cold |= on;
            }
            _ => {}
        }
    }

    fn call(&mut self, call: &Call, on: u64) {
        let states = States::of_call(call);
        let when = |named| if states.any(named) { on } else { 0 };
        if states.any(States::RESTORED) {
            self.let_in(on);
        }
        self.all.dead |= when(States::DEAD);
        self.all.vented |= when(States::DRAINED.and(States::VENTED));
        self.all.cold |= when(States::COLD);
    }

    fn let_in(&mut self, on: u64) {
        self.isolated &= !on;
        self.all.dead &= !on;
        self.powered += 1;
    }

    fn work(&mut self, work: &Work, on: u64, known: &Known<'_>) {
        let verb = work.verb;
        if verb.does_any(CUTS_OFF) {
            self.isolated |= on;
        }
        if verb.does_any(LETS_IN) && lets_in(work, known.declarations) {
            self.let_in(on);
        }
        if verb.does(Effect::Starts) {
            self.all.cold &= !on;
            self.started += 1;
        }
        if verb.does_any(BUILDS_UP) && fills(work, known.declarations) {
            self.all.vented &= !on;
        }
        let hangs = known.tool(work, ToolKind::Hoist).is_some();
        let slings = hangs && verb.does_any(HANGS_ON);
        for id in work.objects.iter().filter_map(part_of) {
            self.change(id, |part| {
                set(&mut part.relaxed, on, work.takes_off() || verb.does_any(LETS_GO));
                clear(&mut part.relaxed, on, work.fits());
                set(&mut part.vented, on, verb.does_any(LETS_OFF));
                clear(&mut part.vented, on, verb.does_any(BUILDS_UP));
                set(&mut part.slung, on, slings);
                set(&mut part.heated, on, verb.does(Effect::Heats));
                clear(&mut part.cold, on, verb.does(Effect::Heats));
                clear(&mut part.heated, on, verb.does(Effect::Cools));
                set(&mut part.cold, on, verb.does(Effect::Cools));
            });
            self.read(work, id, on, known);
        }
        let unslings = hangs && work.takes_off();
        for id in places(work).filter_map(part_of) {
            self.change(id, |part| {
                set(&mut part.vented, on, verb.does_any(OPENS_JOINT));
                set(&mut part.slung, on, slings);
                clear(&mut part.slung, on, unslings);
            });
        }
    }

    /// A reading or a proof ends what it shows to be over.
    fn read(&mut self, work: &Work, id: u32, on: u64, known: &Known<'_>) {
        let proves = work.verb.does(Effect::VerifiesDead);
        let most = work.quantity.as_ref().filter(|_| proves || work.verb.does(Effect::Measures));
        let most = most.and_then(|it| Some((it.dimension(), as_float(it.upper()?))));
        match most {
            Some((Dimension::Voltage, most)) if most > NO_VOLTAGE => {}
            Some((Dimension::Voltage, _)) => self.prove_dead(id, on),
            Some((Dimension::Pressure, most)) if most <= NO_PRESSURE => {
                self.change(id, |part| part.vented |= on);
            }
            Some((Dimension::Temperature, most)) if known.touch().is_some_and(|touch| most <= touch) => {
                self.change(id, |part| {
                    part.cold |= on;
                    part.heated &= !on;
                });
            }
            _ if proves => self.prove_dead(id, on),
            _ => {}
        }
    }

    fn prove_dead(&mut self, id: u32, on: u64) {
        self.all.dead |= on & self.isolated;
        self.change(id, |part| part.dead |= on);
    }
}

fn set(mask: &mut u64, on: u64, when: bool) {
    *mask |= if when { on } else { 0 };
}

fn clear(mask: &mut u64, on: u64, when: bool) {
    *mask &= if when { !on } else { u64::MAX };
}

/// What is unlocked is a padlock's switch, not a tab or a pin.
fn lets_in(work: &Work, declarations: &Declarations) -> bool {
    let is_live = |id| declarations.part(id).is_some_and(|part| part.facts.live.is_some());
    work.verb.does(Effect::Restores) || work.objects.iter().filter_map(part_of).any(is_live)
}

/// What stands under pressure in service is filled, not a hub with grease.
fn fills(work: &Work, declarations: &Declarations) -> bool {
    let holds = |id| declarations.part(id).is_some_and(|part| part.facts.pressurised.is_some());
    work.verb.does(Effect::Pressurises) || work.objects.iter().filter_map(part_of).any(holds)
}

/// What is named behind a preposition.
pub fn places(work: &Work) -> impl Iterator<Item = &Object> {
    work.places.iter().flat_map(|place| match &place.what {
        PlaceTarget::Objects(objects) => objects.as_slice(),
        PlaceTarget::Quantity(_) | PlaceTarget::Text(_) => &[],
    })
}

pub fn part_of(object: &Object) -> Option<u32> {
    match object.name {
        Some(Name::Part(id)) => Some(id),
        _ => None,
    }
}
