//! The languages that sheets can be printed in and procedures written in.
use serde::{Deserialize, Serialize};

/// A language, named in settings by its BCP 47 tag.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Default, Serialize, Deserialize)]
pub enum Language {
    #[default]
    #[serde(rename = "en")]
    English,
    #[serde(rename = "de")]
    German,
    #[serde(rename = "es")]
    Spanish,
    #[serde(rename = "fr")]
    French,
}

impl Language {
    pub const ALL: [Language; 4] = [Language::English, Language::German, Language::Spanish, Language::French];

    /// Its BCP 47 tag, for `lang` of a page and for the rules of plurals.
    pub fn tag(self) -> &'static str {
        match self {
            Language::English => "en",
            Language::German => "de",
            Language::Spanish => "es",
            Language::French => "fr",
        }
    }
}
