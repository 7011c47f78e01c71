//! The words of one language: plain labels resolved once, phrases with something in them by Fluent.
use super::{Language, PerLanguage};
use crate::model::hazard::{Hazard, Wear};
use crate::source::WordMap;
use fluent_bundle::concurrent::FluentBundle;
use fluent_bundle::{FluentArgs, FluentResource};

/// What stands in a phrase: a text, or a number that may decide between one and many.
pub type Argument<'a> = fluent_bundle::FluentValue<'a>;

/// All that sheets say in one language besides the sentences of steps.
pub struct Words {
    language: Language,
    /// Labels that nothing has to be put into.
    labels: WordMap<Box<str>, Box<str>>,
    phrases: FluentBundle<FluentResource>,
    /// Titles of hazard classes and orders to wear something, where the language has its own.
    hazards: WordMap<&'static str, Box<str>>,
    wear: WordMap<&'static str, Box<str>>,
}

static WORDS: PerLanguage<Words> = PerLanguage::new();

impl Words {
    /// The words of a language; they are read when first asked for.
    pub fn of(language: Language) -> &'static Words {
        WORDS.get(language, || Words::new(language))
    }

    fn new(language: Language) -> Words {
        let source = language.source();
        let (phrases, _) = bundle(language, source);
        let own = |key: &str| plain(&phrases, key);
        let labels = keys(source).filter_map(|key| Some((Box::from(key), own(key)?))).collect();
        let hazard = |it: &'static Hazard| Some((it.name.as_str(), own(&format!("hazard-{}", it.name))?));
        let hazards = Hazard::all().iter().filter_map(hazard).collect();
        let order = |it: &'static Wear| {
            Some((it.name.as_str(), own(&format!("wear-{}", it.name.replace(' ', "-")))?))
        };
        let wear = Wear::all().iter().filter_map(order).collect();
        Words { language, labels, phrases, hazards, wear }
    }

    pub fn language(&self) -> Language {
        self.language
    }

    /// A label that nothing is put into. What a language lacks is said in English; a test refuses that.
    pub fn label<'a>(&'a self, key: &'a str) -> &'a str {
        match self.labels.get(key) {
            Some(label) => label,
            None if self.language == Language::English => key,
            None => Words::of(Language::English).label(key),
        }
    }

    /// A phrase with its arguments in it. A number given as one chooses between the forms of one and many.
    pub fn say(&self, key: &str, arguments: &[(&str, Argument<'_>)]) -> String {
        let named = arguments.iter().map(|(name, value)| (*name, value.clone()));
        match format(&self.phrases, key, Some(&named.collect())) {
            Some((text, _)) => text,
            None if self.language == Language::English => key.to_owned(),
            None => Words::of(Language::English).say(key, arguments),
        }
    }

    /// The class of a hazard, as it is printed.
    pub fn hazard<'a>(&'a self, hazard: &'a Hazard) -> &'a str {
        self.hazards.get(hazard.name.as_str()).map_or(&hazard.title, |own| own)
    }

    /// The class of a hazard inside a line: German keeps the capitals of its nouns.
    pub fn hazard_in_line(&self, hazard: &Hazard) -> String {
        let title = self.hazard(hazard);
        if self.language == Language::German { title.to_owned() } else { title.to_lowercase() }
    }

    /// Protective equipment in a list: by its name, or as the order to wear it where the language has only that.
    pub fn equipment(&self, wear: &Wear) -> String {
        match self.wear.get(wear.name.as_str()) {
            Some(order) => order.to_string(),
            None => crate::sheets::html::sentence_case(&wear.name),
        }
    }

    /// The order to wear something: "Wear eye protection".
    pub fn wear<'a>(&'a self, wear: &'a Wear) -> &'a str {
        self.wear.get(wear.name.as_str()).map_or(&wear.order, |own| own)
    }
}

/// The keys of a Fluent file, in its order.
pub fn keys(source: &str) -> impl Iterator<Item = &str> {
    source.lines().filter(|line| line.starts_with(|c: char| c.is_ascii_lowercase())).filter_map(|line| {
        let (key, _) = line.split_once('=')?;
        Some(key.trim_end())
    })
}

/// What could be read of a file, and whether that was all.
fn bundle(language: Language, source: &str) -> (FluentBundle<FluentResource>, bool) {
    let (resource, whole) = match FluentResource::try_new(source.to_owned()) {
        Ok(resource) => (resource, true),
        Err((resource, _)) => (resource, false),
    };
    let locale = language.tag().parse().unwrap_or_default();
    let mut bundle = FluentBundle::new_concurrent(vec![locale]);
    // The marks that set arguments off would stand in the pages.
    bundle.set_use_isolating(false);
    let added = bundle.add_resource(resource).is_ok();
    (bundle, whole && added)
}

/// A message that needs no arguments.
fn plain(phrases: &FluentBundle<FluentResource>, key: &str) -> Option<Box<str>> {
    format(phrases, key, None).filter(|(_, whole)| *whole).map(|(text, _)| text.into_boxed_str())
}

/// A message, and whether all its arguments were there.
fn format(
    phrases: &FluentBundle<FluentResource>,
    key: &str,
    arguments: Option<&FluentArgs<'_>>,
) -> Option<(String, bool)> {
    let pattern = phrases.get_message(key)?.value()?;
    let mut errors = Vec::new();
    let text = phrases.format_pattern(pattern, arguments, &mut errors).into_owned();
    Some((text, errors.is_empty()))
}
