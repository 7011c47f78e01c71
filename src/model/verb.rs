//! The verbs of the trade: rows of `grammar/verbs.toml`, with what each needs, does, and reads like.
use serde::Deserialize;
use std::collections::HashMap;
use std::sync::LazyLock;

/// One verb. Adding one is adding a row.
#[derive(Debug, PartialEq, Eq, Deserialize)]
#[serde(deny_unknown_fields, rename_all = "kebab-case")]
pub struct Verb {
    /// As written in the source, words joined by blanks: `install`, `back off`.
    pub name: String,
    /// Other words for the same; folded into `name`.
    #[serde(default)]
    pub synonyms: Vec<String>,
    /// What it is for, in one line, for the reference and for hovers.
    pub about: String,
    #[serde(default)]
    pub effects: Vec<Effect>,
    /// Whether objects must be given.
    #[serde(default)]
    pub objects: Need,
    /// Whether a text says what is looked at, read or done.
    #[serde(default)]
    pub what: Need,
    /// Whether a quantity belongs to it, and of what sense.
    #[serde(default)]
    pub quantity: Quantities,
    /// Gives a result that outcomes can follow.
    #[serde(default)]
    pub finds: bool,
    /// The generated sentence: literal words and slots in braces; a slot that is empty goes with the words
    /// glued to it inside `[…]`. Slots: objects, what, quantity, places, tools, supplies, facing, until,
    /// during, times, lasting, by, torque.
    pub sentence: String,
    /// An example line that parses, resolves and reads well; a test renders it.
    pub example: String,
    /// What that example reads like.
    pub reads: String,
}

#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Need {
    Required,
    #[default]
    Optional,
    Refused,
}

/// What a bare quantity on the verb's line means.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Quantities {
    /// An amount: how much oil, how many degrees.
    #[default]
    Amount,
    /// A limit that a reading is held against.
    Limit,
    /// What a fastener is tightened to.
    Torque,
    Refused,
}

/// What a verb opens or settles.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Effect {
    /// The objects come off.
    TakesOff,
    /// The objects go on.
    Fits,
    /// Old ones go out for good and new ones go in (`renew`).
    Renews,
    Discards,
    Loosens,
    Tightens,
    /// A pin, tab or wire is closed so that a fastener cannot turn.
    Locks,
    Unlocks,
    Marks,
    Aligns,
    Identifies,
    Cleans,
    Dries,
    /// A supply goes on (locker, sealant, grease, oil).
    Applies,
    Lubricates,
    Measures,
    Inspects,
    Tests,
    Checks,
    Records,
    Drains,
    Fills,
    Disconnects,
    Connects,
    ShutsDown,
    Isolates,
    LocksOut,
    Tags,
    ReleasesEnergy,
    VerifiesDead,
    Restores,
    Starts,
    /// A temporary tool, plug or support goes in.
    Inserts,
    Withdraws,
    Supports,
    ReleasesSupport,
    Raises,
    Lowers,
    Opens,
    Closes,
    Presses,
    Strikes,
    Heats,
    Cools,
    Cuts,
    Drills,
    Grinds,
    BlowsAir,
    Turns,
    Moves,
    Adjusts,
    Makes,
    Waits,
    Tells,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Table {
    verb: Vec<Verb>,
}

static VERBS: LazyLock<Vec<Verb>> = LazyLock::new(|| {
    let table: Table = toml::from_str(include_str!("../../grammar/verbs.toml"))
        .expect("grammar/verbs.toml is read by a test");
    table.verb
});

static BY_WORD: LazyLock<HashMap<&'static str, &'static Verb>> = LazyLock::new(|| {
    let words = |verb: &'static Verb| {
        std::iter::once(&verb.name).chain(&verb.synonyms).map(move |w| (w.as_str(), verb))
    };
    VERBS.iter().flat_map(words).collect()
});

impl Verb {
    pub fn all() -> &'static [Verb] {
        &VERBS
    }
    /// By its name or a synonym; hyphens count as blanks, so `back-off` is `back off`.
    pub fn find(word: &str) -> Option<&'static Verb> {
        BY_WORD.get(word).copied().or_else(|| {
            if word.contains('-') { BY_WORD.get(word.replace('-', " ").as_str()).copied() } else { None }
        })
    }
    /// Every word that leads to a verb, for suggestions.
    pub fn words() -> impl Iterator<Item = &'static str> {
        BY_WORD.keys().copied()
    }
    pub fn does(&self, effect: Effect) -> bool {
        self.effects.contains(&effect)
    }
    /// Tightens a fastener in the sense that a torque belongs to it.
    pub fn tightens(&self) -> bool {
        self.does(Effect::Tightens)
    }
}
