//! The languages that sheets can be printed in, and their words: labels, headings, signal words, fixed phrases.
//!
//! All of them stand in `grammar/words/`, one Fluent file a language.
mod shell;
mod words;

pub use crate::model::Language;
pub(super) use shell::put_in;
pub use words::{Argument, Words, keys};

use std::sync::OnceLock;

impl Language {
    /// Its words, a Fluent file.
    pub fn source(self) -> &'static str {
        match self {
            Language::English => include_str!("../../../grammar/words/en.ftl"),
            Language::German => include_str!("../../../grammar/words/de.ftl"),
            Language::Spanish => include_str!("../../../grammar/words/es.ftl"),
            Language::French => include_str!("../../../grammar/words/fr.ftl"),
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
