//! What work demands a safety message: rows of `grammar/demands.toml`.
use crate::model::hazard::{Hazard, Wear};
use crate::model::quantity::Quantity;
use crate::model::verb::{Effect, Effects, Verb};
use serde::Deserialize;
use std::sync::LazyLock;

/// A row: where all it names holds, the work brings a hazard.
#[derive(Debug)]
pub struct Row {
    pub name: String,
    /// What is done to what, in words.
    pub about: String,
    /// The verb has one of these; where the row names none, any verb.
    pub effects: Option<Effects>,
    /// The verb is one of these; empty: any.
    pub verbs: Vec<String>,
    /// A part that is worked on has it.
    pub fact: Option<Fact>,
    /// A part named as a place counts too.
    pub places: bool,
    /// The fact is one of what the part holds, not its own.
    pub holders: bool,
    pub tool: Option<ToolKind>,
    /// First and last GHS code, each range; a supply that is used has one of them.
    pub codes: Vec<(Code, Code)>,
    /// Something is brought to more than the limit.
    pub heated: bool,
    /// The fact counts where it is more than the one of these that it can be compared with; empty: always.
    pub above: Vec<Quantity>,
    /// A message of any of them guards; the first is asked for. Never empty.
    pub classes: Vec<&'static Hazard>,
    /// Of each list one piece is needed.
    pub wear: Vec<Vec<&'static Wear>>,
    /// Follows from what is declared; else from the verb alone, which may mean harmless work too.
    pub sure: bool,
    /// A clause; names `{it}`, and may name `{value}`, `{limit}` and `{codes}`.
    pub why: String,
    /// Where the duty to warn or to protect is published.
    pub source: String,
}

/// A physical fact that a part may have.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Fact {
    SpringLoaded,
    Pressed,
    Sharp,
    Rotating,
    Pressurised,
    Hot,
    Live,
    Mass,
}

impl Fact {
    pub const ALL: [Fact; 8] = [
        Fact::SpringLoaded,
        Fact::Pressed,
        Fact::Sharp,
        Fact::Rotating,
        Fact::Pressurised,
        Fact::Hot,
        Fact::Live,
        Fact::Mass,
    ];

    /// Its place in a set of facts.
    pub fn bit(self) -> u32 {
        1 << self as u32
    }
}

#[derive(Debug, Clone, Copy, PartialEq, Eq, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum ToolKind {
    /// Has a force as its capacity.
    Press,
    /// A load hangs from it.
    Hoist,
}

/// `H225`: a letter and three figures, in the order of which they stand in ranges.
type Code = [u8; 4];

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Table {
    demand: Vec<Written>,
}

/// A row as it stands in the file.
#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Written {
    name: String,
    about: String,
    #[serde(default)]
    effects: Vec<Effect>,
    #[serde(default)]
    verbs: Vec<String>,
    fact: Option<Fact>,
    #[serde(default)]
    places: bool,
    #[serde(default)]
    holders: bool,
    tool: Option<ToolKind>,
    #[serde(default)]
    codes: Vec<String>,
    #[serde(default)]
    heated: bool,
    #[serde(default)]
    above: Vec<String>,
    classes: Vec<String>,
    #[serde(default)]
    wear: Vec<Vec<String>>,
    #[serde(default = "yes")]
    sure: bool,
    why: String,
    source: String,
}

fn yes() -> bool {
    true
}

static ROWS: LazyLock<Vec<Row>> = LazyLock::new(|| {
    let table: Table = toml::from_str(include_str!("../../../grammar/demands.toml"))
        .expect("grammar/demands.toml is read by a test");
    table.demand.into_iter().map(Row::of).collect()
});

/// The rows that each verb can bring, a bit each.
static BY_VERB: LazyLock<Vec<u32>> = LazyLock::new(|| {
    let can = |row: &Row, verb: &Verb| {
        row.effects.is_none_or(|effects| verb.does_any(effects))
            && (row.verbs.is_empty() || row.verbs.contains(&verb.name))
    };
    let bits = |verb| ROWS.iter().zip(0..).fold(0, |rows, (row, at)| rows | u32::from(can(row, verb)) << at);
    Verb::all().iter().map(bits).collect()
});

impl Row {
    /// The rows that the verb can bring, a bit each, as far as the verb decides.
    pub fn of_verb(verb: &Verb) -> u32 {
        BY_VERB.get(verb.place).copied().unwrap_or(0)
    }

    /// At most 32, so that a set of them is a number.
    pub fn all() -> &'static [Row] {
        &ROWS
    }

    /// The class that is asked for.
    ///
    /// # Panics
    /// Never: a test holds every row to at least one class.
    pub fn class(&self) -> &'static Hazard {
        self.classes.first().expect("every row has a class")
    }

    fn of(written: Written) -> Row {
        let Written {
            name,
            about,
            effects,
            verbs,
            fact,
            places,
            holders,
            tool,
            heated,
            sure,
            why,
            source,
            ..
        } = written;
        let hazard = |word: &String| Hazard::find(word).expect("demands.toml names classes of hazards.toml");
        let wear = |word: &String| Wear::find(word).expect("demands.toml names equipment of hazards.toml");
        let end = |text: &str| text.as_bytes().try_into().expect("a code has a letter and three figures");
        let range = |text: &String| {
            let (first, last) = text.split_once('-').expect("a range of codes has two ends");
            (end(first), end(last))
        };
        Row {
            name,
            about,
            effects: (!effects.is_empty()).then(|| Effects::of(&effects)),
            verbs,
            fact,
            places,
            holders,
            tool,
            codes: written.codes.iter().map(range).collect(),
            heated,
            above: written
                .above
                .iter()
                .map(|it| Quantity::read(it).expect("a limit is a quantity"))
                .collect(),
            classes: written.classes.iter().map(hazard).collect(),
            wear: written.wear.iter().map(|any_of| any_of.iter().map(wear).collect()).collect(),
            sure,
            why,
            source,
        }
    }

    pub fn has_code(&self, code: &str) -> bool {
        // `H360FD` is a kind of `H360`; what is shorter is no code.
        let Some(code) = code.as_bytes().first_chunk() else { return false };
        self.codes.iter().any(|(first, last)| first <= code && code <= last)
    }
}
