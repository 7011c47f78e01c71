//! What a procedure leaves open on purpose, and what others have left or settle, read off the words for states.
use super::breach::Kind;
use super::state::State;
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
    pub(super) fn join(&mut self, more: Elsewhere) {
        self.isolated |= more.isolated;
        self.released |= more.released;
    }
}

const ISOLATED: [&str; 6] = ["isolated", "locked out", "locked off", "dead", "de-energised", "zero energy"];
const RELEASED: [&str; 5] = ["drained", "depressurised", "vented", "bled", "zero energy"];
const RESTORED: [&str; 6] = ["in service", "to service", "restored", "filled", "re-energised", "running"];

/// The states that the calls name.
pub(super) fn brought(calls: &[Call]) -> Elsewhere {
    calls.iter().fold(Elsewhere::default(), |all, call| {
        let now = of(call);
        Elsewhere { isolated: all.isolated || now.isolated, released: all.released || now.released }
    })
}

fn of(call: &Call) -> Elsewhere {
    Elsewhere { isolated: names(call, &ISOLATED), released: names(call, &RELEASED) }
}

fn names(call: &Call, states: &[&str]) -> bool {
    let text = call.text.as_ref().map_or("", |text| text.as_str()).to_lowercase();
    let title = call.title.as_deref().unwrap_or("").to_lowercase();
    states.iter().any(|state| text.contains(state) || text.is_empty() && title.contains(state))
}

/// What the words of a call say about a procedure that is worked here.
pub(super) fn follow(state: &mut State, call: &Call) {
    if names(call, &RESTORED) {
        state.elsewhere = Elsewhere::default();
        let filled = names(call, &["filled"]);
        for part in &mut state.parts {
            (part.isolated, part.locked_out) = (None, None);
            part.drained = part.drained.filter(|_| !filled);
        }
        return;
    }
    state.elsewhere.join(of(call));
}

/// Whether the header's `leaves:` says that things of this kind stay open.
pub(super) fn leaves(header: &Header, kind: Kind) -> bool {
    let words: &[&str] = match kind {
        Kind::LeftIsolated => &ISOLATED,
        Kind::LeftDrained => &["drained", "empty", "dry"],
        Kind::LeftOpen => &["open", "vented", "drained", "in service", "to service"],
        Kind::LeftRaised => &["raised", "lifted", "on stands", "propped", "supported"],
        Kind::LeftOff | Kind::LeftDisconnected | Kind::NotTested => {
            &["removed", "off the", "apart", "dismantled", "disassembled", "disconnected", "stripped"]
        }
        Kind::LeftIn => &["supported", "on stands", "propped", "plugged", "capped", "blocked", "in place"],
        Kind::LeftLoose | Kind::NeverTightened | Kind::NeverTightenedFully => &["loose", "untightened"],
        _ => &[],
    };
    let texts = header.leaves.as_deref().unwrap_or(&[]);
    texts.iter().any(|text| {
        let text = text.value.to_lowercase();
        words.iter().any(|word| text.contains(word))
    })
}

/// The calls of `requires:` and of steps that leave the machine off or empty, where nothing undoes that.
pub fn never_restored(procedure: &Procedure) -> Vec<&Call> {
    let header = &procedure.header;
    let off = |call: &&Call| names(call, &ISOLATED) || names(call, &["drained"]);
    let followed = procedure.steps().flat_map(|step| &step.actions).filter_map(|action| match action {
        Action::Follow(follow) => Some(&follow.call),
        _ => None,
    });
    let required = header.requires.as_deref().unwrap_or(&[]);
    let open: Vec<&Call> = required.iter().chain(followed).filter(off).collect();
    let goes_on = || header.afterwards.as_deref().unwrap_or(&[]).iter().any(|call| !off(&call));
    let says = || {
        let texts = header.leaves.as_deref().unwrap_or(&[]);
        let words = || ISOLATED.iter().chain(&RESTORED).chain(&["drained", "empty"]);
        texts.iter().any(|text| words().any(|word| text.value.to_lowercase().contains(word)))
    };
    let undoes = |action: &Action| match action {
        Action::Work(work) => [Effect::Restores, Effect::Starts].into_iter().any(|it| work.verb.does(it)),
        Action::Follow(follow) => names(&follow.call, &RESTORED),
        _ => false,
    };
    let undone = || procedure.steps().any(|step| step.actions.iter().any(undoes));
    if open.is_empty() || goes_on() || says() || undone() { Vec::new() } else { open }
}
