//! Hazard classes and protective equipment: closed lists, read from `grammar/hazards.toml`.
use serde::Deserialize;
use std::sync::LazyLock;

/// One class of hazard, in ISO 12100's terms.
#[derive(Debug, PartialEq, Eq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Hazard {
    /// As written in the source: `high-pressure`.
    pub name: String,
    /// As printed: "High pressure".
    pub title: String,
    /// What it is, in one sentence.
    pub about: String,
    /// Which of the project's own drawings shows it; the general one where there is none.
    #[serde(default = "any")]
    pub sign: String,
    /// Harms things or surroundings only, never people.
    #[serde(default)]
    pub property: bool,
    /// What readers also call it: folded into `name`, never suggested as wrong.
    #[serde(default)]
    pub also: Vec<String>,
}

fn any() -> String {
    "any".to_owned()
}

/// Protective equipment, by the meaning of an ISO 7010 mandatory sign.
#[derive(Debug, PartialEq, Eq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Wear {
    /// As written in the source: `eye protection`.
    pub name: String,
    /// As printed: "Wear eye protection".
    pub order: String,
    /// The ISO 7010 reference whose meaning it has; empty where the register has none.
    #[serde(default)]
    pub iso_7010: String,
    /// Which of the project's own drawings shows it.
    pub sign: String,
    #[serde(default)]
    pub also: Vec<String>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Table {
    hazard: Vec<Hazard>,
    wear: Vec<Wear>,
}

static TABLE: LazyLock<Table> = LazyLock::new(|| {
    toml::from_str(include_str!("../../grammar/hazards.toml"))
        .expect("grammar/hazards.toml is read by a test")
});

impl Hazard {
    pub fn all() -> &'static [Hazard] {
        &TABLE.hazard
    }
    pub fn find(word: &str) -> Option<&'static Hazard> {
        TABLE.hazard.iter().find(|h| h.name == word || h.also.iter().any(|a| a == word))
    }
}

impl Wear {
    pub fn all() -> &'static [Wear] {
        &TABLE.wear
    }
    /// Every word that finds a row.
    pub fn words() -> impl Iterator<Item = &'static str> {
        TABLE.wear.iter().flat_map(|wear| std::iter::once(&wear.name).chain(&wear.also)).map(String::as_str)
    }
    pub fn find(words: &str) -> Option<&'static Wear> {
        TABLE.wear.iter().find(|w| w.name == words || w.also.iter().any(|a| a == words))
    }
}
