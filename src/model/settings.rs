//! House settings, from `cotter.toml`. Unknown keys are refused.
use super::language::Language;
use super::levels::Levels;
use super::quantity::{Dimension, Quantity, UnitPreferences};
use serde::de::Error;
use serde::{Deserialize, Deserializer, Serialize};
use std::collections::BTreeMap;

/// The newest edition of the language that this program reads. It reads all before it too.
pub const NEWEST_EDITION: u32 = 1;

#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case", deny_unknown_fields, default)]
pub struct Settings {
    /// The edition of the language that the files are written in, from 1 to [`NEWEST_EDITION`].
    pub edition: u32,
    /// The shop's name, printed on every sheet.
    pub house: String,
    /// What the sheets are printed in.
    pub language: Language,
    /// What the procedures are written in: on sheets of another language the author's words stay, and are marked.
    pub written_in: Language,
    pub units: Units,
    pub signal_words: SignalWords,
    pub paper: Paper,
    /// How many benches do the same work at the same time: what a kit list is multiplied by.
    pub benches: u32,
    /// A catalogue every procedure uses without naming it, relative to the workspace.
    pub cautions: Option<String>,
    /// Header fields a procedure must state; `none` counts as stated.
    pub required_header: Vec<String>,
    /// Level of each rule: its name, then `error`, `warning`, `advice` or `off`.
    pub rules: Levels,
    pub limits: Limits,
    pub pictures: Sizes,
    /// The house's own words for verbs: `nip-up = "tighten"`.
    pub verbs: BTreeMap<String, String>,
}

impl Default for Settings {
    fn default() -> Settings {
        Settings {
            // Who says nothing wrote before there was another; that stays so when there is one.
            edition: 1,
            house: String::new(),
            language: Language::English,
            written_in: Language::English,
            units: Units::default(),
            signal_words: SignalWords::Ansi,
            paper: Paper::A4,
            benches: 1,
            cautions: None,
            required_header: [
                "revision",
                "equipment",
                "models",
                "source",
                "time",
                "people",
                "requires",
                "afterwards",
            ]
            .map(str::to_owned)
            .to_vec(),
            rules: Levels::default(),
            limits: Limits::default(),
            pictures: Sizes::default(),
            verbs: BTreeMap::new(),
        }
    }
}

/// From where on work needs a safety message, where the house draws the line elsewhere than `grammar/demands.toml`.
#[derive(Debug, Clone, PartialEq, Default, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case", deny_unknown_fields, default)]
pub struct Limits {
    /// What one person lifts at most: `lift = "20 kg"`.
    #[serde(deserialize_with = "mass", skip_serializing)]
    pub lift: Option<Quantity>,
    /// What bare metal may be touched at: `touch = "60 degC"`.
    #[serde(deserialize_with = "temperature", skip_serializing)]
    pub touch: Option<Quantity>,
}

/// How large pictures may be, in kilobytes of 1000 bytes: sheets are kept on tablets, and sent.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case", deny_unknown_fields, default)]
pub struct Sizes {
    /// One picture.
    pub each: u32,
    /// All that one procedure shows.
    pub page: u32,
}

impl Default for Sizes {
    fn default() -> Sizes {
        Sizes { each: 500, page: 2000 }
    }
}

fn mass<'de, D: Deserializer<'de>>(from: D) -> Result<Option<Quantity>, D::Error> {
    amount(from, Dimension::Mass, "23 kg")
}

fn temperature<'de, D: Deserializer<'de>>(from: D) -> Result<Option<Quantity>, D::Error> {
    amount(from, Dimension::Temperature, "51 degC")
}

fn amount<'de, D: Deserializer<'de>>(
    from: D,
    dimension: Dimension,
    example: &str,
) -> Result<Option<Quantity>, D::Error> {
    let text = String::deserialize(from)?;
    let read = Quantity::read(&text).filter(|it| it.dimension() == dimension);
    read.map(Some)
        .ok_or_else(|| D::Error::custom(format!("`{text}` is no {}, as `{example}`", dimension.name())))
}

#[derive(Debug, Clone, PartialEq, Default, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case", deny_unknown_fields, default)]
pub struct Units {
    /// Which unit is shown beside the author's, per dimension (`torque = "lbf.ft"`).
    pub second: UnitPreferences,
    /// Show the author's unit alone.
    pub single: bool,
}

/// Which convention the signal words follow.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "lowercase")]
pub enum SignalWords {
    /// ANSI Z535.6: CAUTION is minor injury, NOTICE is damage.
    Ansi,
    /// MIL-STD-38784: WARNING is injury, CAUTION is damage; there is no DANGER or NOTICE.
    Military,
}

#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
pub enum Paper {
    A4,
    #[serde(rename = "letter", alias = "Letter")]
    Letter,
}
