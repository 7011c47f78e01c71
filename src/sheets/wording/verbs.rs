//! How each verb's sentence is built in each language: English in the table of verbs, the others in
//! `grammar/words/`.
use crate::model::Language;
use crate::model::template::Template;
use crate::model::verb::Verb;
use crate::sheets::language::PerLanguage;
use crate::source::WordMap;
use serde::Deserialize;

/// A language's table, as it is written: all by the verb's English name.
#[derive(Debug, Default, Deserialize)]
#[serde(deny_unknown_fields, rename_all = "kebab-case")]
struct Table {
    sentence: WordMap<String, Template>,
    /// The sentence where no objects are given, if it differs.
    bare: WordMap<String, Template>,
    /// Prepositions that are others behind this verb.
    place: WordMap<String, WordMap<String, String>>,
}

static TABLES: PerLanguage<Table> = PerLanguage::new();

fn source(language: Language) -> &'static str {
    match language {
        Language::English => "",
        Language::German => include_str!("../../../grammar/words/verbs-de.toml"),
        Language::Spanish => include_str!("../../../grammar/words/verbs-es.toml"),
        Language::French => include_str!("../../../grammar/words/verbs-fr.toml"),
    }
}

fn table(language: Language) -> &'static Table {
    TABLES.get(language, || match language {
        Language::English => Table::default(),
        _ => toml::from_str(source(language)).expect("the tables of verbs are read by a test"),
    })
}

/// The sentence of a verb, for a line with objects or without. English where a language has none; a test refuses that.
pub fn template(verb: &'static Verb, no_objects: bool, language: Language) -> &'static Template {
    let table = table(language);
    let own = |of: &'static WordMap<String, Template>| of.get(verb.name.as_str());
    let bare = own(&table.bare).or(verb.bare.as_ref()).filter(|_| no_objects);
    bare.or_else(|| own(&table.sentence)).unwrap_or(&verb.sentence)
}

/// The verbs that a language has sentences for, and those it has bare ones for.
pub fn known(language: Language) -> [Vec<&'static str>; 2] {
    let table = table(language);
    [&table.sentence, &table.bare].map(|of| of.keys().map(String::as_str).collect())
}

/// What stands for a preposition of the source behind this verb, where it is not the usual word.
pub(super) fn place(verb: &Verb, written: &str, language: Language) -> Option<&'static str> {
    table(language).place.get(verb.name.as_str())?.get(written).map(String::as_str)
}
