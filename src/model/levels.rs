//! How much the house makes of each rule.
use crate::report::Severity;
use serde::{Deserialize, Serialize};
use std::collections::BTreeMap;
use std::sync::OnceLock;

#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "lowercase")]
pub enum Level {
    Error,
    Warning,
    Advice,
    Off,
}

impl Level {
    /// The severity it asks for; none for `off`.
    pub fn severity(self) -> Option<Severity> {
        match self {
            Level::Error => Some(Severity::Error),
            Level::Warning => Some(Severity::Warning),
            Level::Advice => Some(Severity::Advice),
            Level::Off => None,
        }
    }
}

/// The level of each rule that the house gives one, by the rule's name.
#[derive(Debug, Clone, Default, Serialize, Deserialize)]
#[serde(transparent)]
pub struct Levels {
    said: BTreeMap<String, Level>,
    /// See [`Levels::of_all`].
    #[serde(skip)]
    of_all: OnceLock<Vec<Option<Level>>>,
}

impl Levels {
    pub fn get(&self, rule: &str) -> Option<Level> {
        self.said.get(rule).copied()
    }

    pub fn set(&mut self, rule: &str, level: Level) {
        self.said.insert(rule.to_owned(), level);
        self.of_all = OnceLock::new();
    }

    /// Those that the house names, sorted by name.
    pub fn iter(&self) -> impl Iterator<Item = (&str, Level)> {
        self.said.iter().map(|(rule, level)| (rule.as_str(), *level))
    }

    /// The level of each of the program's rules, in the order in which they are given: the same ones each time, since they
    /// are looked up once for all files.
    pub fn of_all(&self, rules: impl Iterator<Item = &'static str>) -> &[Option<Level>] {
        self.of_all.get_or_init(|| rules.map(|rule| self.get(rule)).collect())
    }
}

impl PartialEq for Levels {
    fn eq(&self, other: &Levels) -> bool {
        self.said == other.said
    }
}
