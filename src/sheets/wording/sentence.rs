//! A sentence as runs of text, so that a page can set off its values and lead its names and step numbers on.
use super::english;
use crate::model::declarations::Name;

/// What one action, outcome or condition reads like.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Sentence {
    pub runs: Vec<Run>,
    /// Numbered parts below it: the passes of a staged tightening, the methods to choose from.
    pub list: Vec<Sentence>,
}

/// A stretch of a sentence. The runs of a sentence joined are its text, blanks included.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Run {
    Text(String),
    /// A quantity, set off in print.
    Value(String),
    /// What a declared thing is called, without its article.
    Name {
        text: String,
        name: Name,
    },
    /// Another step of the procedure; prints as [`Run::text`] says.
    Step {
        text: String,
        number: u32,
    },
}

impl Run {
    pub fn text(&self) -> &str {
        match self {
            Run::Text(text) | Run::Value(text) | Run::Name { text, .. } | Run::Step { text, .. } => text,
        }
    }

    fn text_mut(&mut self) -> &mut String {
        match self {
            Run::Text(text) | Run::Value(text) | Run::Name { text, .. } | Run::Step { text, .. } => text,
        }
    }
}

impl Sentence {
    /// The runs alone, as text.
    pub fn lead(&self) -> String {
        self.runs.iter().map(Run::text).collect()
    }

    /// All of it as text; a list follows as "1. … 2. …".
    pub fn plain(&self) -> String {
        let mut text = self.lead();
        for (number, item) in (1..).zip(&self.list) {
            text.push_str(&format!(" {number}. {}", item.plain()));
        }
        text
    }

    pub fn is_empty(&self) -> bool {
        self.runs.is_empty() && self.list.is_empty()
    }

    /// To go on after a colon: the capital that only starts it is made small.
    pub(super) fn lowered(mut self) -> Sentence {
        if let Some(first) = self.runs.first_mut() {
            let text = first.text_mut();
            *text = lower(text);
        }
        self
    }
}

/// Marks that end a sentence.
const FINAL: [char; 4] = ['.', '!', '?', '…'];

/// A sentence being written. Keeps blanks single and puts the commas round phrases that are set off.
#[derive(Debug, Default)]
pub(super) struct Line {
    runs: Vec<Run>,
    list: Vec<Sentence>,
    /// A phrase that was set off by a comma has just ended.
    owes_comma: bool,
    /// The next words start a sentence.
    starts: bool,
}

impl Line {
    pub(super) fn new() -> Line {
        Line { starts: true, ..Line::default() }
    }

    /// Goes on after other words: nothing is capitalised.
    pub(super) fn inside() -> Line {
        Line::default()
    }

    pub(super) fn text(&mut self, text: &str) {
        let text = if self.at_blank() { text.trim_start() } else { text };
        if text.is_empty() {
            return;
        }
        self.settle(text);
        let text = self.cased(text);
        match self.runs.last_mut() {
            Some(Run::Text(last)) => last.push_str(&text),
            _ => self.runs.push(Run::Text(text)),
        }
    }

    pub(super) fn value(&mut self, text: String) {
        self.settle(&text);
        self.starts = false;
        self.runs.push(Run::Value(text));
    }

    pub(super) fn name(&mut self, text: &str, name: Name) {
        self.settle(text);
        let text = self.cased(text);
        self.runs.push(Run::Name { text, name });
    }

    pub(super) fn step(&mut self, number: u32) {
        let text = english::step(number);
        self.settle(&text);
        let text = self.cased(&text);
        self.runs.push(Run::Step { text, number });
    }

    /// Starts a phrase between commas; [`Line::end_set_off`] ends it.
    pub(super) fn set_off(&mut self) {
        self.owes_comma = false;
        self.trim(&[' ', ',']);
        self.text(", ");
    }

    pub(super) fn end_set_off(&mut self) {
        self.owes_comma = true;
    }

    /// Ends the sentence and lets another follow.
    pub(super) fn stop(&mut self) {
        self.owes_comma = false;
        self.trim(&[' ', ',', ':', ';']);
        if !self.runs.is_empty() && !self.ends_with(&FINAL) {
            self.text(".");
        }
        self.starts = true;
    }

    /// Starts another sentence after a full stop.
    pub(super) fn next_sentence(&mut self) {
        if !self.runs.is_empty() {
            self.stop();
            self.text(" ");
            self.starts = true;
        }
    }

    /// Takes the sentence in, runs and list.
    pub(super) fn append(&mut self, sentence: Sentence) {
        let mut runs = sentence.runs;
        if let Some(first) = runs.first_mut() {
            let cased = self.cased(first.text());
            *first.text_mut() = cased;
        }
        self.settle("");
        self.runs.extend(runs);
        self.list.extend(sentence.list);
    }

    pub(super) fn list(&mut self, items: Vec<Sentence>) {
        self.list.extend(items);
    }

    pub(super) fn finish(mut self) -> Sentence {
        self.owes_comma = false;
        self.trim(&[' ', ',']);
        if self.list.is_empty() {
            self.stop();
        } else if !self.ends_with(&FINAL) && !self.ends_with(&[':']) {
            self.text(":");
        }
        Sentence { runs: self.runs, list: self.list }
    }

    /// What is written, as it is: part of another sentence.
    pub(super) fn into_phrase(self) -> Sentence {
        Sentence { runs: self.runs, list: self.list }
    }

    pub(super) fn is_empty(&self) -> bool {
        self.runs.is_empty()
    }

    pub(super) fn capitalise_next(&mut self) {
        self.starts = true;
    }

    fn settle(&mut self, next: &str) {
        if std::mem::take(&mut self.owes_comma) && !next.starts_with([',', '.', ':', ';']) {
            match self.runs.last_mut() {
                Some(Run::Text(last)) => last.push(','),
                _ => self.runs.push(Run::Text(",".to_owned())),
            }
        }
    }

    fn cased(&mut self, text: &str) -> String {
        if self.starts && !text.trim().is_empty() {
            self.starts = false;
            return capital(text);
        }
        text.to_owned()
    }

    fn at_blank(&self) -> bool {
        self.runs.last().is_none_or(|run| run.text().ends_with(' '))
    }

    fn ends_with(&self, marks: &[char]) -> bool {
        self.runs.last().is_some_and(|run| run.text().ends_with(marks))
    }

    fn trim(&mut self, marks: &[char]) {
        if let Some(last) = self.runs.last_mut() {
            let length = last.text().trim_end_matches(marks).len();
            last.text_mut().truncate(length);
            if length == 0 {
                self.runs.pop();
            }
        }
    }
}

/// With a capital at the start, after opening quotes or brackets if there are any.
pub(super) fn capital(text: &str) -> String {
    let mut done = false;
    text.chars()
        .flat_map(|c| {
            let here = !done && c.is_alphanumeric();
            done |= here;
            let upper: Vec<char> = if here { c.to_uppercase().collect() } else { vec![c] };
            upper
        })
        .collect()
}

/// Without the capital of an ordinary word; "F40" and "E-clip" keep theirs.
fn lower(text: &str) -> String {
    let mut chars = text.chars();
    match (chars.next(), chars.clone().next()) {
        (Some(first), Some(second)) if second.is_lowercase() => first.to_lowercase().chain(chars).collect(),
        _ => text.to_owned(),
    }
}
