//! A word that leaves the limit to the reader.
use super::passages::Passage;
use super::prose_words::{Word, WordKind, words};
use super::{Rule, Subject};
use crate::model::{Procedure, Step};
use crate::report::{Finding, Severity};
use crate::source::Span;
use aho_corasick::{AhoCorasick, MatchKind};
use std::sync::LazyLock;

pub static RULE: Rule = Rule {
    id: "vague-word",
    severity: Severity::Advice,
    waivable: true,
    summary: "A word such as \"securely\" or \"as required\" stands where a limit belongs",
    explain: "\"Securely\", \"slightly\" and \"as required\" are understood by those who know the job and by nobody else. \
A learner needs the number, the sign that can be seen, or the condition that decides.

Looked at are the prose and sentences of steps, what is looked for or waited for, and the words of messages. \
Words in quotation marks and `code` are somebody else's and are left alone.",
    bad: "\
parts
    cover \"Bearing cover\"

clean cover
    Hold it firmly by the rim.
",
    good: "\
parts
    cover \"Bearing cover\"

clean cover
    Hold it by the rim with both hands.
",
    check,
};

/// What a vague word wants in its place.
#[derive(Clone, Copy)]
enum Wanted {
    HowTight,
    HowFar,
    WhatSign,
    Which,
    HowMuch,
    Condition,
    Number,
}

impl Wanted {
    fn advice(self) -> &'static str {
        match self {
            Wanted::HowTight => "Say how tight: a torque, or the sign that shows it is tight",
            Wanted::HowFar => "Say how far or how hard: an amount with its unit",
            Wanted::WhatSign => "Say what is seen, heard or felt when it is right",
            Wanted::Which => "Say which one: name it, or give its size",
            Wanted::HowMuch => "Say how much: an amount with its unit",
            Wanted::Condition => "Say when: the condition that decides it",
            Wanted::Number => "Give the number, with how far it may be off",
        }
    }
}

/// Sorted by word.
const VAGUE: [(&str, Wanted); 22] = [
    ("adequate", Wanted::HowMuch),
    ("adequately", Wanted::HowMuch),
    ("appropriate", Wanted::Which),
    ("appropriately", Wanted::WhatSign),
    ("approximately", Wanted::Number),
    ("correctly", Wanted::WhatSign),
    ("excessive", Wanted::HowMuch),
    ("excessively", Wanted::HowMuch),
    ("firmly", Wanted::HowTight),
    ("gently", Wanted::HowFar),
    ("periodically", Wanted::Condition),
    ("properly", Wanted::WhatSign),
    ("roughly", Wanted::Number),
    ("securely", Wanted::HowTight),
    ("slightly", Wanted::HowFar),
    ("snugly", Wanted::HowTight),
    ("sparingly", Wanted::HowMuch),
    ("sufficient", Wanted::HowMuch),
    ("sufficiently", Wanted::HowMuch),
    ("suitable", Wanted::Which),
    ("suitably", Wanted::WhatSign),
    ("tightly", Wanted::HowTight),
];

const FIRST: [&str; 4] = ["as", "if", "when", "where"];
const SECOND: [&str; 4] = ["appropriate", "necessary", "needed", "required"];

/// Find every text that may hold a vague word: one in small letters, with or without a capital in front, the other
/// in capitals. Two of few words are faster than one of many.
static SIEVES: LazyLock<[AhoCorasick; 2]> = LazyLock::new(|| {
    let words = VAGUE.iter().map(|(word, _)| *word).chain(SECOND);
    let mut ends: Vec<&str> = words.map(rare_end).collect();
    ends.sort_unstable();
    // What begins like a shorter one is found with it.
    ends.dedup_by(|longer, shorter| longer.starts_with(*shorter));
    let sieve = |ends: Vec<String>| {
        let built = AhoCorasick::builder().match_kind(MatchKind::LeftmostFirst).build(ends);
        built.expect("the words are few")
    };
    let all = |case: fn(&str) -> String| ends.iter().map(|end| case(end)).collect();
    [sieve(all(str::to_owned)), sieve(all(str::to_ascii_uppercase))]
});

/// A word from its four rarest letters on, and never from its first, which may be a capital: a search goes by the first few
/// letters, and stops at each false one.
fn rare_end(word: &str) -> &str {
    const COMMONEST_FIRST: &str = "etaoinshrdlucmwfgypbvkjxqz";
    /// Shorter ends stand in too many words.
    const SHORTEST: usize = 4;
    let rareness = |letters: &[u8]| {
        let of_one = |letter: &u8| COMMONEST_FIRST.bytes().position(|it| it == *letter).unwrap_or(0);
        letters.iter().map(of_one).sum::<usize>()
    };
    let starts = word.as_bytes().windows(SHORTEST).enumerate().skip(1);
    // Of equals the first, which is the longest.
    let rarest = starts.rev().max_by_key(|(_, letters)| rareness(letters));
    word.get(rarest.map_or(1, |(at, _)| at)..).unwrap_or(word)
}

fn check(subject: &Subject<'_>, findings: &mut Vec<Finding>) {
    let holds = |text: &str| SIEVES.iter().any(|sieve| sieve.is_match(text));
    if !holds(&subject.source.text) {
        return;
    }
    for passage in subject.contents.passages.iter().filter(|passage| holds(passage.text())) {
        check_passage(passage, subject, findings);
    }
    check_labels(subject, findings);
}

/// `as required` at the end of a step reads as a label of that name.
fn check_labels(subject: &Subject<'_>, findings: &mut Vec<Finding>) {
    let steps = subject.procedure().into_iter().flat_map(Procedure::steps);
    for label in steps.flat_map(Step::labels).filter(|label| among(&SECOND, label.as_str())) {
        let before = subject.source.text.get(..label.span.start as usize).unwrap_or("").trim_end();
        if let Some(at) = before.strip_suffix("as").map(str::len) {
            let span = Span { start: u32::try_from(at).unwrap_or(label.span.start), ..label.span };
            let text = format!("`as {}` leaves the limit to the reader", label.value);
            findings.push(
                Finding::new(RULE.id, span, text)
                    .label(label.span, "read as a label of the step, which nobody would look for")
                    .help(Wanted::Condition.advice()),
            );
        }
    }
}

fn check_passage(passage: &Passage<'_>, subject: &Subject<'_>, findings: &mut Vec<Finding>) {
    let mut found = words(passage.text()).peekable();
    while let Some(word) = found.next() {
        let next = found.peek();
        if let Some((end, wanted)) = vague(passage.text(), &word, next) {
            let written = passage.text().get(word.range.start..end).unwrap_or("");
            let span = passage.span(subject.source, word.range.start, end);
            let text = format!("`{}` leaves the limit to the reader", written.replace('\n', " "));
            findings.push(Finding::new(RULE.id, span, text).help(wanted.advice()));
            if end > word.range.end {
                found.next();
            }
        }
    }
}

/// Where the vague words that start at `word` end, and what they want.
fn vague(text: &str, word: &Word, next: Option<&Word>) -> Option<(usize, Wanted)> {
    let written = plain(text, word)?;
    let after = next.and_then(|next| plain(text, next).map(|second| (next, second)));
    if let Some((next, second)) = after
        && among(&FIRST, written)
        && among(&SECOND, second)
    {
        return Some((next.range.end, Wanted::Condition));
    }
    let (_, wanted) = VAGUE.iter().find(|(vague, _)| vague.eq_ignore_ascii_case(written))?;
    let numbered = next.is_some_and(|next| matches!(next.kind, WordKind::Number | WordKind::Amount));
    if matches!(wanted, Wanted::Number) && numbered {
        return None;
    }
    Some((word.range.end, *wanted))
}

fn plain<'a>(text: &'a str, word: &Word) -> Option<&'a str> {
    if word.kind == WordKind::Plain { text.get(word.range.clone()) } else { None }
}

fn among(words: &[&str], written: &str) -> bool {
    words.iter().any(|word| word.eq_ignore_ascii_case(written))
}
