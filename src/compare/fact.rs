//! Facts of a thing, and what differs between two lists of them.
use super::change::{Change, How, Kind};
use std::collections::{HashMap, HashSet, VecDeque};

/// Names of the old revision that only read otherwise in the new one.
#[derive(Debug, Clone, Default)]
pub struct Aliases {
    pub names: HashMap<String, String>,
    pub labels: HashMap<String, String>,
}

impl Aliases {
    pub fn name<'a>(&'a self, name: &'a str) -> &'a str {
        self.names.get(name).map_or(name, String::as_str)
    }
    pub fn of_label<'a>(&'a self, name: &'a str) -> &'a str {
        self.labels.get(name).map_or(name, String::as_str)
    }
    /// Prose with each `[name]` as it is called now.
    pub fn prose(&self, words: &str) -> String {
        if self.names.is_empty() && self.labels.is_empty() {
            return words.to_owned();
        }
        let mut out = String::with_capacity(words.len());
        let mut rest = words;
        while let Some((before, inside, after)) = bracketed(rest) {
            let name = self.of_label(self.name(inside));
            out.extend([before, "[", name, "]"]);
            rest = after;
        }
        out + rest
    }
}

/// What stands before the first brackets, in them, and behind.
fn bracketed(words: &str) -> Option<(&str, &str, &str)> {
    let (before, rest) = words.split_once('[')?;
    let (inside, after) = rest.split_once(']')?;
    Some((before, inside, after))
}

/// A value and its words under a name.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Fact {
    pub kind: Kind,
    /// What it is called; one of a list has its own.
    pub aspect: String,
    /// Equal where it means the same.
    pub meaning: String,
    /// As readers see it.
    pub words: String,
    /// Free words: only the numbers in them, and what says no, are its meaning.
    pub free: bool,
}

impl Fact {
    pub fn new(kind: Kind, aspect: &str, meaning: impl Into<String>, words: impl Into<String>) -> Fact {
        Fact { kind, aspect: aspect.to_owned(), meaning: meaning.into(), words: words.into(), free: false }
    }

    /// Free words, of which only numbers and what says no are weighed.
    pub fn free(aspect: &str, words: &str) -> Fact {
        let words = one_line(words);
        Fact { kind: Kind::Number, aspect: aspect.to_owned(), meaning: weighed(&words), words, free: true }
    }

    /// Words that are the thing itself: capitals and a last full stop change nothing.
    pub fn said(kind: Kind, aspect: &str, words: &str) -> Fact {
        let words = one_line(words);
        Fact::new(kind, aspect, plainly(&words), words)
    }
}

/// Without capitals and a last full stop, so that only other words are another meaning.
pub fn plainly(words: &str) -> String {
    one_line(words).trim_end_matches(['.', '!']).to_lowercase()
}

/// With every run of blanks and line ends as one blank.
pub fn one_line(words: &str) -> String {
    words.split_whitespace().collect::<Vec<_>>().join(" ")
}

/// Words that turn a sentence into its opposite, in the languages that sheets are made in.
const NEGATIONS: [&str; 22] = [
    "not", "never", "no", "none", "without", "cannot", "nicht", "nie", "niemals", "kein", "keine", "keinen",
    "keiner", "ohne", "nunca", "sin", "ningún", "ninguna", "ne", "jamais", "sans", "aucun",
];

/// Every number in the words, in order, and how often they say no.
fn weighed(words: &str) -> String {
    let lower = words.to_lowercase();
    let of_word = |word: &&str| NEGATIONS.contains(word) || word.ends_with("n't") || word.ends_with("n’t");
    let between = |c: char| !c.is_alphanumeric() && !matches!(c, '\'' | '’');
    let noes = lower.split(between).filter(of_word).count();
    numbers(words) + &" not".repeat(noes)
}

/// Every number in the words, in order.
fn numbers(words: &str) -> String {
    let mut out = String::new();
    let mut inside = false;
    let mut rest = words.chars().peekable();
    while let Some(c) = rest.next() {
        let point = matches!(c, '.' | ',' | '/') && inside && rest.peek().is_some_and(char::is_ascii_digit);
        if c.is_ascii_digit() || point {
            out.push(c);
            inside = true;
        } else if inside {
            out.push(' ');
            inside = false;
        }
    }
    out.trim_end().to_owned()
}

/// What differs; `change` finishes each with its subject and places. What is said twice under one name goes by its order.
pub fn differences(old: &[Fact], new: &[Fact], mut change: impl FnMut(Change)) {
    let mut named: HashMap<&str, VecDeque<usize>> = HashMap::new();
    for (at, fact) in new.iter().enumerate() {
        named.entry(&fact.aspect).or_default().push_back(at);
    }
    let mut known = HashSet::new();
    for fact in old {
        let at = named.get_mut(fact.aspect.as_str()).and_then(VecDeque::pop_front);
        known.extend(at);
        match at.and_then(|at| new.get(at)) {
            Some(other) => changed(fact, other).into_iter().for_each(&mut change),
            None => change(gone(fact)),
        }
    }
    for (_, fact) in new.iter().enumerate().filter(|(at, _)| !known.contains(at)) {
        change(added(fact));
    }
}

/// Whether work changes with it: free words without numbers are words only.
fn kind(fact: &Fact, other: Option<&Fact>) -> Kind {
    let same = fact.meaning == other.map_or("", |it| it.meaning.as_str());
    if fact.free && same { Kind::Wording } else { fact.kind }
}

fn gone(fact: &Fact) -> Change {
    Change::new(kind(fact, None), How::Gone, "").aspect(&fact.aspect).texts(&fact.words, "")
}

fn added(fact: &Fact) -> Change {
    Change::new(kind(fact, None), How::Added, "").aspect(&fact.aspect).texts("", &fact.words)
}

fn changed(fact: &Fact, other: &Fact) -> Option<Change> {
    if fact.meaning == other.meaning && fact.words == other.words {
        return None;
    }
    let kind = match fact.meaning == other.meaning {
        true if fact.kind.class() == super::Class::Words => fact.kind,
        true => Kind::Wording,
        false => kind(fact, Some(other)),
    };
    Some(Change::new(kind, How::Changed, "").aspect(&fact.aspect).texts(&fact.words, &other.words))
}
