//! The table of words: whole in every language, and each of its words printed somewhere.
use cotter::model::hazard::{Hazard, Wear};
use cotter::sheets::language::{Language, Words};
use fluent_bundle::FluentResource;
use std::collections::{BTreeMap, BTreeSet};
use std::path::{Path, PathBuf};

/// The keys of a Fluent file with the names that are put into each, whatever its form.
fn entries(source: &str) -> BTreeMap<&str, BTreeSet<&str>> {
    let mut found: BTreeMap<&str, BTreeSet<&str>> = BTreeMap::new();
    let mut key = "";
    for line in source.lines().filter(|line| !line.starts_with('#')) {
        let mut text = line;
        if line.starts_with(|c: char| c.is_ascii_lowercase()) {
            (key, text) = line.split_once(" =").unwrap_or_else(|| panic!("{line}: a key, a blank, a sign"));
            assert!(found.insert(key, BTreeSet::new()).is_none(), "{key} stands twice");
        }
        let names =
            text.split('$').skip(1).filter_map(|it| it.split(|c: char| !c.is_ascii_alphanumeric()).next());
        found.entry(key).or_default().extend(names);
    }
    found.retain(|key, _| !key.is_empty());
    found
}

/// A language's own words for what the tables of hazards and equipment say in English.
fn of_tables() -> BTreeSet<String> {
    let hazards = Hazard::all().iter().map(|it| format!("hazard-{}", it.name));
    hazards.chain(Wear::all().iter().map(|it| format!("wear-{}", it.name.replace(' ', "-")))).collect()
}

fn english() -> BTreeMap<&'static str, BTreeSet<&'static str>> {
    entries(Language::English.source())
}

#[test]
fn every_file_of_words_can_be_read() {
    for language in Language::ALL {
        if let Err((_, errors)) = FluentResource::try_new(language.source().to_owned()) {
            panic!("{}: {errors:?}", language.tag());
        }
    }
}

#[test]
fn every_language_has_every_word_and_puts_the_same_into_it() {
    for language in Language::ALL.into_iter().filter(|it| *it != Language::English) {
        let mut own = entries(language.source());
        let of_tables = of_tables();
        let missing: Vec<&String> =
            of_tables.iter().filter(|key| own.remove(key.as_str()).is_none()).collect();
        assert!(missing.is_empty(), "{} lacks {missing:?}", language.tag());
        assert_eq!(own, english(), "{}", language.tag());
    }
}

/// Words that are the same in both languages.
const SAME: [(Language, &[&str]); 3] = [
    (Language::German, &["revision", "foot-revision", "hazard-explosion", "hazard-vibration"]),
    (Language::Spanish, &["foot-revision", "general", "instructor"]),
    (
        Language::French,
        &[
            "figures",
            "danger",
            "date",
            "hazard-explosion",
            "head-passes",
            "head-section",
            "head-source",
            "signature",
            "strength-grade",
        ],
    ),
];

#[test]
fn no_word_is_left_in_english() {
    let of_tables = |words: &Words| {
        let hazards =
            Hazard::all().iter().map(|it| (format!("hazard-{}", it.name), words.hazard(it).to_owned()));
        let wear = Wear::all().iter().map(|it| (format!("wear-{}", it.name), words.wear(it).to_owned()));
        hazards.chain(wear).collect::<Vec<_>>()
    };
    let english: BTreeMap<&str, &str> = texts(Language::English.source()).collect();
    for (language, same) in SAME {
        let own = texts(language.source()).filter(|(key, text)| english.get(key) == Some(text));
        let tables = of_tables(Words::of(Language::English));
        let own_tables = of_tables(Words::of(language));
        let of_tables = own_tables.iter().zip(&tables).filter(|(own, english)| own == english);
        let left: BTreeSet<&str> =
            own.map(|(key, _)| key).chain(of_tables.map(|((key, _), _)| key.as_str())).collect();
        // "{ $hazard }:" holds no word.
        let left: BTreeSet<&str> = left.into_iter().filter(|key| *key != "obeys").collect();
        assert_eq!(left, same.iter().copied().collect(), "{}", language.tag());
    }
}

/// The keys of a Fluent file and what stands behind their sign; forms of one and many are left out.
fn texts(source: &str) -> impl Iterator<Item = (&str, &str)> {
    let keyed = source.lines().filter(|line| line.starts_with(|c: char| c.is_ascii_lowercase()));
    keyed.filter_map(|line| line.split_once(" = ")).filter(|(_, text)| !text.is_empty())
}

#[test]
fn every_word_that_a_sheet_asks_for_is_there_and_the_other_way_round() {
    let known = english();
    let (mut asked, mut literals) = (BTreeSet::new(), String::new());
    for path in files(Path::new(concat!(env!("CARGO_MANIFEST_DIR"), "/src"))) {
        let text = std::fs::read_to_string(&path).unwrap();
        for start in ["{{word ", "label(\"", "say(\"", "say(\n", "key: \"", "of_torque(sheet, \""] {
            for after in text.split(start).skip(1) {
                let after = after.trim_start().trim_start_matches('"');
                let key: String = after.chars().take_while(|c| c.is_ascii_lowercase() || *c == '-').collect();
                asked.insert((key, path.display().to_string()));
            }
        }
        literals.push_str(&text);
    }
    asked.retain(|(key, path)| {
        path.contains("/sheets/")
            && !path.contains("/wording/")
            && !path.contains("/language/")
            && !key.is_empty()
    });
    assert!(asked.len() > 100, "the words in use are no longer found: {}", asked.len());
    let unknown: Vec<_> = asked.iter().filter(|(key, _)| !known.contains_key(key.as_str())).collect();
    assert!(unknown.is_empty(), "{unknown:#?}");
    let is_used = |key: &&str| {
        literals.contains(&format!("\"{key}\""))
            || literals.contains(&format!("{{{{word {key}}}"))
            || literals.contains(&format!("{{{{word {key} "))
    };
    let idle: Vec<&&str> = known.keys().filter(|key| !is_used(key)).collect();
    assert!(idle.is_empty(), "nothing prints {idle:?}");
}

fn files(folder: &Path) -> Vec<PathBuf> {
    let mut found = Vec::new();
    for entry in std::fs::read_dir(folder).unwrap().flatten() {
        match entry.path() {
            path if path.is_dir() => found.extend(files(&path)),
            path => found.push(path),
        }
    }
    found.retain(|path| path.extension().is_some_and(|it| it == "rs" || it == "hbs" || it == "css"));
    found
}

#[test]
fn phrases_take_their_arguments_and_count() {
    let german = Words::of(Language::German);
    assert_eq!(german.say("people-count", &[("count", 1.into())]), "1 Person");
    assert_eq!(german.say("kit-for", &[("benches", 12.into())]), "Material für 12 Arbeitsplätze");
    // French counts nothing as one.
    let french = Words::of(Language::French);
    assert_eq!(french.say("people-count", &[("count", 0.into())]), "0 personne");
    let words = Words::of(Language::English);
    assert_eq!(words.label("skip-to-steps"), "Skip to the steps");
    assert_eq!(words.say("step-range", &[("first", 1.into()), ("last", 14.into())]), "Steps 1 to 14");
    assert_eq!(words.say("people-count", &[("count", 1.into())]), "1 person");
    assert_eq!(words.say("people-count", &[("count", 2.into())]), "2 people");
}

#[test]
fn a_missing_word_is_never_a_panic() {
    let words = Words::of(Language::English);
    assert_eq!(words.label("not-there"), "not-there");
    assert_eq!(words.say("not-there", &[]), "not-there");
    for language in Language::ALL {
        assert!(!Words::of(language).label("tools").is_empty());
    }
}
