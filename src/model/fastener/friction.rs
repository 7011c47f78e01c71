//! How much of a torque stretches the fastener: the nut factor K of `T = K·d·F`, by the state of the thread.
//!
//! K is no coefficient of friction. It lumps the friction of thread and head with the shape of the thread, is found
//! by test, and scatters; so each state has a range. A torque is called wrong only where it is wrong all over it.
use crate::model::declarations::Condition;

/// What is on a thread when it is tightened.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Surface {
    Dry,
    Oiled,
    Plated,
    /// A wet thread locker; it lubricates until it sets.
    Locker,
    AntiSeize,
}

/// A row of the table: the least, the usual and the greatest K.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Friction {
    /// `None`: the row for a thread whose state nobody stated.
    pub surface: Option<Surface>,
    pub low: f64,
    pub usual: f64,
    pub high: f64,
    /// Where the three come from.
    pub source: &'static str,
}

/// NASA RP-1228 gives 0.11 to 0.15 lubricated and about 0.2 dry, inside these ranges (from memory).
pub static FRICTIONS: &[Friction] = &[
    Friction {
        surface: Some(Surface::Dry),
        low: 0.18,
        usual: 0.20,
        high: 0.27,
        source: "test laboratories' lists for plain steel, and the handbook value",
    },
    Friction {
        surface: Some(Surface::Oiled),
        low: 0.10,
        usual: 0.15,
        high: 0.26,
        source: "test laboratories' lists for machine oil, and the handbook value",
    },
    Friction {
        surface: Some(Surface::Plated),
        low: 0.15,
        usual: 0.17,
        high: 0.35,
        source: "test laboratories' lists: cadmium 0.15 to 0.19, zinc 0.17 to 0.35",
    },
    Friction {
        surface: Some(Surface::Locker),
        low: 0.11,
        usual: 0.18,
        high: 0.25,
        source: "data sheets of anaerobic thread lockers, from memory",
    },
    Friction {
        surface: Some(Surface::AntiSeize),
        low: 0.10,
        usual: 0.13,
        high: 0.18,
        source: "handbook values for molybdenum, copper and nickel pastes",
    },
    UNSTATED,
];

const UNSTATED: Friction = Friction {
    surface: None,
    low: 0.10,
    usual: 0.18,
    high: 0.35,
    source: "from anti-seize to the roughest plating",
};

/// The row for a state; the widest where it is not stated.
pub fn friction(surface: Option<Surface>) -> &'static Friction {
    FRICTIONS.iter().find(|row| row.surface == surface).unwrap_or(&UNSTATED)
}

impl Surface {
    pub const ALL: [Surface; 5] =
        [Surface::Dry, Surface::Oiled, Surface::Plated, Surface::Locker, Surface::AntiSeize];

    /// As a sentence says it: "dry", "with thread locker".
    pub fn name(self) -> &'static str {
        match self {
            Surface::Dry => "dry",
            Surface::Oiled => "oiled",
            Surface::Plated => "plated",
            Surface::Locker => "with thread locker",
            Surface::AntiSeize => "with anti-seize",
        }
    }
}

impl From<Condition> for Surface {
    fn from(condition: Condition) -> Surface {
        match condition {
            Condition::Dry => Surface::Dry,
            Condition::Oiled => Surface::Oiled,
            Condition::Plated => Surface::Plated,
        }
    }
}
