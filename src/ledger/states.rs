//! The words for the state that a machine is left in, as `requires:`, `leaves:`, `follow` and `wait until` say it.
use crate::model::document::Call;

/// States that words name, a bit each.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub(super) struct States(u16);

impl States {
    /// Cut off from its energy.
    pub const DEAD: States = States(1);
    pub const DRAINED: States = States(1 << 1);
    /// Without pressure.
    pub const VENTED: States = States(1 << 2);
    pub const COLD: States = States(1 << 3);
    /// Its energy is back.
    pub const RESTORED: States = States(1 << 4);
    pub const FILLED: States = States(1 << 5);
    pub const OPEN: States = States(1 << 6);
    pub const RAISED: States = States(1 << 7);
    pub const SUPPORTED: States = States(1 << 8);
    /// Something was put in and stays.
    pub const PLUGGED: States = States(1 << 9);
    pub const APART: States = States(1 << 10);
    pub const LOOSE: States = States(1 << 11);
    /// `Empty the pump` is an order, so this counts only where states are listed.
    pub const EMPTY: States = States(1 << 12);

    pub const NONE: States = States(0);
}

/// What words say of a machine that comes from another procedure.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct Brought {
    /// Cut off from its energy.
    pub dead: bool,
    /// Without pressure.
    pub vented: bool,
    pub cold: bool,
    /// Up, on whatever holds it.
    pub raised: bool,
}

/// What the states in the text bring.
pub fn brought(text: &str) -> Brought {
    let states = States::of(text);
    Brought {
        dead: states.any(States::DEAD),
        vented: states.any(States::VENTED),
        cold: states.any(States::COLD),
        raised: states.any(States::RAISED.and(States::SUPPORTED)),
    }
}

/// Each found as whole words, whatever their case.
const WORDS: &[(States, &[&str])] = &[
    (
        States::DEAD,
        &["isolated", "locked out", "locked off", "dead", "de-energised", "de-energized", "zero energy"],
    ),
    (States::DRAINED, &["drained"]),
    (States::VENTED, &["depressurised", "depressurized", "vented", "bled", "zero energy"]),
    (States::COLD, &["cold", "cool", "cooled"]),
    (
        States::RESTORED,
        &["in service", "to service", "restored", "re-energised", "re-energized", "switched on", "running"],
    ),
    (States::FILLED, &["filled", "refilled"]),
    (States::OPEN, &["open", "opened"]),
    (States::RAISED, &["raised", "lifted"]),
    (States::SUPPORTED, &["supported", "on stands", "propped"]),
    (States::PLUGGED, &["plugged", "capped", "blocked", "in place"]),
    (
        States::APART,
        &["removed", "off the", "apart", "dismantled", "disassembled", "disconnected", "stripped"],
    ),
    (States::LOOSE, &["loose", "loosened", "untightened"]),
    (States::EMPTY, &["empty", "emptied", "dry"]),
];

impl States {
    /// What the text names.
    pub(super) fn of(text: &str) -> States {
        let text = text.to_lowercase();
        let named = WORDS.iter().filter(|(_, words)| words.iter().any(|word| has(&text, word)));
        named.fold(States::NONE, |all, (state, _)| all.and(*state))
    }

    /// The state that the call tells; or else what the called procedure says it leaves, or its title.
    pub(super) fn of_call(call: &Call) -> States {
        told(call).map_or(States::NONE, States::of)
    }

    pub(super) const fn and(self, more: States) -> States {
        States(self.0 | more.0)
    }

    /// Whether it names one of them.
    pub(super) const fn any(self, of: States) -> bool {
        self.0 & of.0 != 0
    }
}

/// The words for the state that a call brings.
pub fn told(call: &Call) -> Option<&str> {
    let written = call.text.as_ref().map(|text| text.as_str());
    written.or(call.leaves.as_deref()).or(call.title.as_deref())
}

/// Between other letters a word is another one: `coolant` is not cool, nor is what is assembled bled.
fn has(text: &str, words: &str) -> bool {
    text.match_indices(words).any(|(at, found)| {
        let before = text.get(..at).and_then(|before| before.chars().next_back());
        let after = text.get(at + found.len()..).and_then(|after| after.chars().next());
        let goes_on = |c: char| c.is_alphanumeric() || c == '-';
        ![before, after].into_iter().flatten().any(goes_on)
    })
}
