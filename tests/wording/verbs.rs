//! The table of verbs, row by row.
use super::steps;
use cotter::model::template::{Slot, Template};
use cotter::model::verb::{Need, Verb};
use std::collections::HashSet;

#[test]
fn every_example_reads_as_its_row_says() {
    let lines: Vec<&str> = Verb::all().iter().map(|verb| verb.example.as_str()).collect();
    let read = steps(&lines.join("\n"));
    assert_eq!(read.len(), lines.len());
    let wrong: Vec<String> = Verb::all()
        .iter()
        .zip(read)
        .filter(|(verb, read)| read.concat() != verb.reads)
        .map(|(verb, read)| format!("{}\n  reads {}\n  not   {}", verb.example, read.concat(), verb.reads))
        .collect();
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}

#[test]
fn every_example_is_of_its_own_verb() {
    for verb in Verb::all() {
        let words: Vec<&str> = verb.example.split(' ').collect();
        let two = words.get(..2).map(|words| words.join(" "));
        let leads = two.and_then(|two| Verb::find(&two)).or_else(|| Verb::find(words[0]));
        assert_eq!(leads.map(|it| &it.name), Some(&verb.name), "{}", verb.example);
    }
}

#[test]
fn no_word_leads_to_two_verbs() {
    let mut seen = HashSet::new();
    for verb in Verb::all() {
        for word in std::iter::once(&verb.name).chain(&verb.synonyms) {
            assert!(seen.insert(word), "`{word}` stands twice");
            assert!(word.chars().all(|c| c.is_ascii_lowercase() || c == ' ' || c == '-'), "{word}");
        }
    }
    assert!(Verb::all().len() >= 120);
}

/// Half the trade means a new one by it, the other half the old one.
#[test]
fn replace_is_no_verb() {
    assert!(Verb::find("replace").is_none());
    assert!(Verb::all().iter().all(|verb| !verb.reads.to_lowercase().contains("replace")));
}

#[test]
fn synonyms_fold() {
    for (word, verb) in
        [("fit", "install"), ("take-off", "remove"), ("back out", "back off"), ("torque", "tighten")]
    {
        assert_eq!(Verb::find(word).map(|verb| verb.name.as_str()), Some(verb), "{word}");
    }
}

#[test]
fn sentences_lose_nothing() {
    const SAY_WHAT: [Slot; 5] = [Slot::What, Slot::About, Slot::How, Slot::Claim, Slot::Reading];
    for verb in Verb::all() {
        for template in std::iter::once(&verb.sentence).chain(&verb.bare) {
            assert!(template.has(Slot::Rest), "{}: no {{rest}}", verb.name);
            let says_what = SAY_WHAT.into_iter().any(|slot| template.has(slot));
            assert_eq!(says_what, verb.what != Need::Refused, "{}: a place for its text", verb.name);
        }
        assert!(verb.about.ends_with('.'), "{}", verb.name);
        if verb.objects != Need::Required {
            assert!(verb.bare.is_some(), "{}: no sentence without objects", verb.name);
        }
    }
}

#[test]
fn a_broken_template_says_how() {
    for (text, why) in
        [("Turn {object}", "`object` is no slot"), ("Turn {objects", "not closed"), ("[{what}", "not closed")]
    {
        let read = Template::try_from(text.to_owned());
        assert!(read.as_ref().is_err_and(|said| said.contains(why)), "{text}: {read:?}");
    }
}
