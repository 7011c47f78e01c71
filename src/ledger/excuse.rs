//! What a procedure leaves open on purpose, and what others have left or settle, read off the words for states.
use super::breach::Kind;
use super::state::{PartState, State};
use super::states::States;
use crate::model::action::Action;
use crate::model::document::{Call, Header, Procedure};
use crate::model::verb::Effect;

/// What another procedure has done before this one.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub(super) struct Elsewhere {
    pub isolated: bool,
    pub released: bool,
}

impl Elsewhere {
    pub(super) fn of(states: States) -> Elsewhere {
        Elsewhere { isolated: states.any(States::DEAD), released: states.any(RELEASED) }
    }

    pub(super) fn join(&mut self, more: Elsewhere) {
        self.isolated |= more.isolated;
        self.released |= more.released;
    }
}

const RELEASED: States = States::DRAINED.and(States::VENTED);
/// Nothing is left of having been off or empty.
const UNDONE: States = States::RESTORED.and(States::FILLED);

/// The states that the calls name.
pub(super) fn brought(calls: &[Call]) -> Elsewhere {
    let mut all = Elsewhere::default();
    calls.iter().for_each(|call| all.join(Elsewhere::of(States::of_call(call))));
    all
}

/// What the words of a call say about a procedure that is worked here.
pub(super) fn follow(state: &mut State, call: &Call) {
    let now = States::of_call(call);
    if !now.any(UNDONE) {
        state.elsewhere.join(Elsewhere::of(now));
        return;
    }
    state.elsewhere = Elsewhere::default();
    let filled = now.any(States::FILLED);
    let open = |it: &PartState| it.isolated.or(it.locked_out).or(it.drained).is_some();
    state.parts.change(open, |part| {
        (part.isolated, part.locked_out) = (None, None);
        part.drained = part.drained.filter(|_| !filled);
    });
}

/// Whether the header's `leaves:` says that things of this kind stay open.
pub(super) fn leaves(header: &Header, kind: Kind) -> bool {
    let named = match kind {
        Kind::LeftIsolated => States::DEAD,
        Kind::LeftDrained => States::DRAINED.and(States::EMPTY),
        Kind::LeftOpen => States::OPEN.and(RELEASED).and(States::RESTORED),
        Kind::LeftRaised => States::RAISED.and(States::SUPPORTED),
        Kind::LeftOff | Kind::LeftDisconnected | Kind::NotTested => States::APART,
        Kind::LeftIn => States::SUPPORTED.and(States::PLUGGED),
        Kind::LeftLoose | Kind::NeverTightened | Kind::NeverTightenedFully => States::LOOSE,
        _ => States::NONE,
    };
    left(header).any(named)
}

/// All that `leaves:` names.
fn left(header: &Header) -> States {
    let texts = header.leaves.as_deref().unwrap_or(&[]);
    texts.iter().fold(States::NONE, |all, text| all.and(States::of(&text.value)))
}

/// The calls of `requires:` and of steps that leave the machine off or empty, where nothing undoes that.
pub fn never_restored(procedure: &Procedure) -> Vec<&Call> {
    let header = &procedure.header;
    let off = |call: &&Call| States::of_call(call).any(States::DEAD.and(States::DRAINED));
    let followed = procedure.steps().flat_map(|step| &step.actions).filter_map(|action| match action {
        Action::Follow(follow) => Some(&follow.call),
        _ => None,
    });
    let required = header.requires.as_deref().unwrap_or(&[]);
    let open: Vec<&Call> = required.iter().chain(followed).filter(off).collect();
    let goes_on = || header.afterwards.as_deref().unwrap_or(&[]).iter().any(|call| !off(&call));
    let says = || left(header).any(States::DEAD.and(States::DRAINED).and(States::EMPTY).and(UNDONE));
    let undoes = |action: &Action| match action {
        Action::Work(work) => [Effect::Restores, Effect::Starts].into_iter().any(|it| work.verb.does(it)),
        Action::Follow(follow) => States::of_call(&follow.call).any(UNDONE),
        _ => false,
    };
    let undone = || procedure.steps().any(|step| step.actions.iter().any(undoes));
    if open.is_empty() || goes_on() || says() || undone() { Vec::new() } else { open }
}
