//! What no sentence may look like, over the demo shop's procedures and over arbitrary lines.
use super::{Units, tolerant, wording};
use cotter::model::Document;
use cotter::sheets::wording::Cx;
use proptest::prelude::*;
use proptest::sample::{select, subsequence};

fn sentences(document: &Document) -> Vec<String> {
    let units = Units::default();
    let cx = Cx::new(document, &units);
    let steps = document.procedure().into_iter().flat_map(|procedure| procedure.steps());
    let all: Vec<_> = steps.flat_map(|step| wording::step(step, &cx)).collect();
    let lists = all.iter().flat_map(|sentence| &sentence.list);
    all.iter().chain(lists).map(wording::Sentence::plain).collect()
}

fn fault(sentence: &str) -> Option<&'static str> {
    let first = sentence.chars().next()?;
    let lower = sentence.to_lowercase();
    let words: Vec<&str> = lower.split(' ').collect();
    let holds = |what: &str| sentence.contains(what);
    [
        ("starts without a capital", first.is_lowercase()),
        ("starts with a blank", first.is_whitespace()),
        ("does not end", !sentence.ends_with(['.', '!', '?'])),
        ("ends twice", holds("..") || holds(".:") || holds(":.")),
        ("has a double blank", holds("  ")),
        ("has a blank before a mark", holds(" ,") || holds(" .") || holds(" :")),
        ("has two commas", holds(",,") || holds(", ,")),
        (
            "repeats an article",
            words.windows(2).any(|w| w[0] == w[1] && ["the", "a", "to", "with"].contains(&w[0])),
        ),
        ("shows the form of the source", holds("{") || holds("}")),
    ]
    .into_iter()
    .find_map(|(what, is)| is.then_some(what))
}

#[test]
fn the_demo_procedures_read_well() {
    let mut read = 0;
    for file in super::demo_procedures() {
        for sentence in sentences(&file) {
            assert_eq!(fault(&sentence), None, "{sentence}");
            read += 1;
        }
    }
    assert!(read > 300, "only {read} sentences");
}

const VERBS: [&str; 12] = [
    "remove",
    "install",
    "press",
    "tighten",
    "loosen",
    "clean",
    "lubricate",
    "fill",
    "measure",
    "inspect",
    "test",
    "mark",
];
const OBJECTS: [&str; 8] = [
    "screws",
    "cover",
    "2 of screws",
    "each hinge-pins",
    "new gasket",
    "first-bolt",
    "lead-plus",
    "new bolts",
];
const EXTRAS: [&str; 12] = [
    "from housing",
    "onto shaft",
    "to \"the bench\"",
    "with press",
    "with ring-pliers, wrench-s",
    "using oil",
    "until seated",
    "until \"it stops\"",
    "while turning hub",
    "facing \"the lip outward\"",
    "3 times",
    "for 5 min",
];

proptest! {
    #![proptest_config(ProptestConfig { cases: 64, failure_persistence: None, ..ProptestConfig::default() })]
    #[test]
    fn any_line_reads_as_a_sentence(
        verb in select(VERBS.to_vec()),
        objects in subsequence(OBJECTS.to_vec(), 1..4),
        extras in subsequence(EXTRAS.to_vec(), 0..6),
    ) {
        let line = format!("{verb} {} {}", objects.join(", "), extras.join(" "));
        for sentence in sentences(&tolerant(line.trim())) {
            prop_assert_eq!(fault(&sentence), None, "{} -> {}", line, sentence);
        }
    }

    #[test]
    fn any_words_can_be_said(what in "[a-z0-9 ,.:;()\\[\\]°é-]{0,60}", verb in select(vec!["measure", "test", "mark", "do", "hold"])) {
        let lines = format!("{verb} cover \"{what}\"\n{verb} \"[cover] {what}\"");
        for sentence in sentences(&tolerant(&lines)) {
            prop_assert!(sentence.ends_with(['.', '!', '?']), "{} -> {}", lines, sentence);
        }
    }
}

/// Brackets and figures are read once from left to right.
#[test]
fn long_free_words_take_no_longer_than_their_length() {
    let document = tolerant("");
    let units = Units::default();
    let cx = Cx::new(&document, &units);
    for unit in ["[", "[a]", "[cover] ", "5 N.m ", "1 ", "]"] {
        let text = unit.repeat(20_000);
        let said = wording::phrase(&text, &cx).plain();
        assert!(said.len() < 60 * text.len());
    }
}
