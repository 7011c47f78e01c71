//! The languages that sheets can be printed in, and their words: labels, headings, signal words, fixed phrases.
//!
//! All of them stand in `grammar/words/`, one Fluent file a language.
mod shell;
mod words;

pub(super) use shell::put_in;
pub use words::{Argument, Words};

use std::sync::OnceLock;

/// A language of the sheets.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Default)]
pub enum Language {
    #[default]
    English,
    German,
    Spanish,
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

    /// Its words as a Fluent file; `None` where nobody has written them yet, and the English ones stand in.
    pub fn source(self) -> Option<&'static str> {
        match self {
            Language::English => Some(include_str!("../../../grammar/words/en.ftl")),
            Language::German | Language::Spanish | Language::French => None,
        }
    }
}

/// One value a language, each made when it is first asked for.
#[derive(Debug)]
pub(super) struct PerLanguage<T>([OnceLock<T>; Language::ALL.len()]);

impl<T> PerLanguage<T> {
    pub(super) const fn new() -> PerLanguage<T> {
        PerLanguage([const { OnceLock::new() }; Language::ALL.len()])
    }

    pub(super) fn get(&self, language: Language, make: impl FnOnce() -> T) -> &T {
        let [english, german, spanish, french] = &self.0;
        let place = match language {
            Language::English => english,
            Language::German => german,
            Language::Spanish => spanish,
            Language::French => french,
        };
        place.get_or_init(make)
    }
}
