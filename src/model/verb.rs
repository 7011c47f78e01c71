//! The verbs of the trade: rows of `grammar/verbs.toml`, with what each needs, does, and reads like.
use super::template::Template;
use crate::source::WordMap;
use serde::Deserialize;
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
    /// The same, a bit each: they are asked for many times a step.
    #[serde(skip)]
    pub set: Effects,
    /// Its row, from 0.
    #[serde(skip)]
    pub place: usize,
    /// Whether objects must be given.
    #[serde(default)]
    pub objects: Need,
    /// Whether the first text says what is looked at, read or done. Where that is refused, a text on the line is
    /// the author's own sentence.
    #[serde(default = "refused")]
    pub what: Need,
    /// Whether a quantity belongs to it, and of what sense.
    #[serde(default)]
    pub quantity: Quantities,
    /// Gives a result that outcomes can follow.
    #[serde(default)]
    pub finds: bool,
    /// The generated sentence; see [`Template`]. Names `{rest}`, so that nothing an author wrote is lost.
    pub sentence: Template,
    /// The sentence where no objects are given, if it differs.
    #[serde(default)]
    pub bare: Option<Template>,
    /// An example line that parses, resolves and reads well; a test renders it.
    pub example: String,
    /// What that example reads like.
    pub reads: String,
}

fn refused() -> Need {
    Need::Refused
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

/// What a verb opens or settles. Where an effect is of a part and a tool is named, it does not hold, and the
/// other way round: `attach` fits a part and inserts a sling.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Effect {
    /// Parts come off; they are fitted again or discarded.
    TakesOff,
    /// Parts go on.
    Fits,
    /// Parts come off where the place says `off`, `out of` or `from`, and go on at any other place; without a
    /// place they only move.
    ByPlace,
    /// Old ones go out for good and new ones go in (`renew`).
    Renews,
    Discards,
    /// A fastener no longer clamps: tighten it or take it off.
    Loosens,
    Tightens,
    /// A pin, tab or wire is closed so that a fastener cannot turn.
    Locks,
    /// What locks, also a padlock of a lockout, is open again.
    Unlocks,
    /// The tag that says who works is off again; the lock stays.
    Untags,
    /// Parts carry marks that they must be aligned by.
    Marks,
    Aligns,
    /// It is made sure which of two like parts it is.
    Identifies,
    /// Surfaces are clean until they are disturbed.
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
    /// Liquid or gas goes out; it is filled again.
    Drains,
    Fills,
    Disconnects,
    Connects,
    ShutsDown,
    /// One source of energy is cut off.
    Isolates,
    LocksOut,
    Tags,
    ReleasesEnergy,
    VerifiesDead,
    /// Energy is let in again.
    Restores,
    Starts,
    /// A temporary tool, plug or support goes in and must come out.
    Inserts,
    Withdraws,
    Supports,
    ReleasesSupport,
    /// Something is steadied for the moment; nothing stays owed.
    Holds,
    /// Something is up and must come down.
    Raises,
    Lowers,
    /// A weight is carried; nothing stays owed.
    Lifts,
    Opens,
    Closes,
    Pressurises,
    Presses,
    Strikes,
    Heats,
    Cools,
    Cuts,
    Drills,
    Grinds,
    BlowsAir,
    Bends,
    /// Permanently, by metal or adhesive.
    Joins,
    Turns,
    Moves,
    Adjusts,
    Makes,
    Tells,
}

/// A set of effects.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct Effects(u64);

impl Effects {
    pub const fn of(list: &[Effect]) -> Effects {
        let (mut set, mut rest) = (0, list);
        while let [first, others @ ..] = rest {
            set |= 1 << *first as u32;
            rest = others;
        }
        Effects(set)
    }
    /// Whether the two have one in common.
    pub fn meets(self, other: Effects) -> bool {
        self.0 & other.0 != 0
    }
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Table {
    verb: Vec<Verb>,
}

static VERBS: LazyLock<Vec<Verb>> = LazyLock::new(|| {
    let table: Table = toml::from_str(include_str!("../../grammar/verbs.toml"))
        .expect("grammar/verbs.toml is read by a test");
    let of_row = |(place, verb): (usize, Verb)| Verb { set: Effects::of(&verb.effects), place, ..verb };
    table.verb.into_iter().enumerate().map(of_row).collect()
});

static BY_WORD: LazyLock<WordMap<&'static str, &'static Verb>> = LazyLock::new(|| {
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
        self.set.0 & 1 << effect as u32 != 0
    }
    /// Has any of the effects.
    pub fn does_any(&self, effects: Effects) -> bool {
        self.set.meets(effects)
    }
    /// Tightens a fastener in the sense that a torque belongs to it.
    pub fn tightens(&self) -> bool {
        self.does(Effect::Tightens)
    }
}
