//! The words that have a meaning of their own behind a declared thing (`grammar/attributes.toml`) and at the head
//! of an indented line (`grammar/details.toml`).
use crate::source::WordMap;
use serde::Deserialize;
use std::sync::LazyLock;

/// One attribute. Adding one is adding a row and, for a new fact, a field of the model.
#[derive(Debug, PartialEq, Eq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct AttributeKey {
    pub key: String,
    pub on: Vec<Owner>,
    pub form: AttributeForm,
    /// The value goes on over commas until the next attribute's key.
    #[serde(default)]
    pub list: bool,
    /// Names of the dimensions that fit, for `form = "quantity"`.
    #[serde(default)]
    pub dimensions: Vec<String>,
    /// What it means, in one line, for the reference and for hovers.
    pub about: String,
    pub example: String,
}

/// What kind of thing is declared.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Deserialize)]
#[serde(rename_all = "lowercase")]
pub enum Owner {
    Part,
    Tool,
    Supply,
    Figure,
}

impl Owner {
    /// As a message names it.
    pub fn name(self) -> &'static str {
        match self {
            Owner::Part => "part",
            Owner::Tool => "tool",
            Owner::Supply => "supply",
            Owner::Figure => "figure",
        }
    }
}

/// What follows an attribute's key.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum AttributeForm {
    /// Nothing.
    Flag,
    /// Quoted text.
    Text,
    /// One declared name.
    Name,
    /// Declared names.
    Names,
    /// A declared name, `by` and quoted text.
    NamesBy,
    /// Free words, as model names.
    Words,
    /// `300000 and up`, `100 to 199`.
    Serial,
    /// The word `fitted`.
    Fitted,
    /// The word `off`.
    Off,
    /// A quantity of one of the dimensions of the row.
    Quantity,
    Thread,
    /// `10.9`, `8`, `A2-70`.
    Strength,
    /// Torque items, or the name of a tightening list.
    Torque,
    /// `8 on fig-2`.
    Callout,
    /// `24 h at 22 degC`.
    Cure,
    /// `circle`, `2 rows`, `rectangle 4 by 3`.
    Layout,
}

/// One key of an indented `key: value` line.
#[derive(Debug, PartialEq, Eq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct DetailKey {
    pub key: String,
    pub on: Vec<Place>,
    pub value: ValueForm,
    /// What it means, in one line, for the reference and for hovers.
    pub about: String,
    pub example: String,
}

/// Under what a detail means something.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Deserialize)]
#[serde(rename_all = "lowercase")]
pub enum Place {
    /// The `procedure` or `catalogue` line.
    Header,
    Section,
    Step,
    Message,
    Declaration,
}

/// How what follows the colon is read.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Deserialize)]
#[serde(rename_all = "lowercase")]
pub enum ValueForm {
    Free,
    Prose,
    List,
    Quantity,
    Actions,
    Stage,
    Calls,
    Conditions,
    Waive,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Attributes {
    attribute: Vec<AttributeKey>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Details {
    detail: Vec<DetailKey>,
}

/// The rows of a table, sorted by key, and where each stands: nearly every indented line is asked for its key.
struct Rows<R> {
    sorted: Vec<R>,
    places: WordMap<String, usize>,
}

impl<R> Rows<R> {
    fn of(mut rows: Vec<R>, key: fn(&R) -> &String) -> Rows<R> {
        rows.sort_by(|a, b| key(a).cmp(key(b)));
        let places = rows.iter().enumerate().map(|(at, row)| (key(row).clone(), at)).collect();
        Rows { sorted: rows, places }
    }

    fn find(&self, key: &str) -> Option<&R> {
        self.sorted.get(*self.places.get(key)?)
    }
}

static ATTRIBUTES: LazyLock<Rows<AttributeKey>> = LazyLock::new(|| {
    let table: Attributes = toml::from_str(include_str!("../../grammar/attributes.toml"))
        .expect("grammar/attributes.toml is read by a test");
    Rows::of(table.attribute, |row| &row.key)
});

static DETAILS: LazyLock<Rows<DetailKey>> = LazyLock::new(|| {
    let table: Details = toml::from_str(include_str!("../../grammar/details.toml"))
        .expect("grammar/details.toml is read by a test");
    Rows::of(table.detail, |row| &row.key)
});

/// The attribute of that key.
pub fn attribute_key(key: &str) -> Option<&'static AttributeKey> {
    ATTRIBUTES.find(key)
}

/// Every attribute, sorted by key.
pub fn attributes() -> impl Iterator<Item = &'static AttributeKey> {
    ATTRIBUTES.sorted.iter()
}

/// The detail of that key.
pub fn detail_key(key: &str) -> Option<&'static DetailKey> {
    DETAILS.find(key)
}

/// Every detail, sorted by key.
pub fn details() -> impl Iterator<Item = &'static DetailKey> {
    DETAILS.sorted.iter()
}

/// What a statement that is no step starts with.
pub const OPENERS: [&str; 14] = [
    "procedure",
    "catalogue",
    "use",
    "parts",
    "tools",
    "supplies",
    "torques",
    "figures",
    "section",
    "danger",
    "warning",
    "caution",
    "notice",
    "note",
];
/// Verbs that nobody may take for the key of a detail.
const NO_KEYS: [&str; 7] = ["hold", "wait", "follow", "repeat", "choose", "do", "check"];

/// Whether the word starts a statement.
pub fn keyword(word: &str) -> bool {
    OPENERS.contains(&word) || NO_KEYS.contains(&word)
}

/// Shortest word that can be a slip of the pen for another; shorter ones are near too many.
const SHORTEST_SLIP: usize = 5;

/// One letter away from an attribute: a slip of the pen, not a name of a list before it.
pub fn nearly_attribute(word: &str) -> bool {
    nearly(word, attributes().map(|row| &row.key))
}

/// One letter away from a detail's key: a slip of the pen, not the start of wrapped prose.
pub fn nearly_detail(word: &str) -> bool {
    nearly(word, details().map(|row| &row.key))
}

fn nearly<'a>(word: &str, mut known: impl Iterator<Item = &'a String>) -> bool {
    (SHORTEST_SLIP..32).contains(&word.len()) && known.any(|key| one_letter_off(word, key))
}

/// One letter too many, too few, wrong, or two in each other's place.
pub fn one_letter_off(word: &str, known: &str) -> bool {
    known.len().abs_diff(word.len()) <= 1 && strsim::osa_distance(known, word) == 1
}
