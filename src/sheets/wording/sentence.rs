//! A sentence as runs of text, so that a page can set off its values and lead its names and step numbers on.
use super::Cx;
use super::tongue::Tongue;
use crate::model::declarations::Name;

/// What one action, outcome or condition reads like.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Sentence {
    text: String,
    /// Where each run ends in `text`; it starts where the one before ends.
    runs: Vec<(Run, usize)>,
    /// The language of [`Run::Own`] and of names, where it is not that of the sentence.
    own: Option<&'static str>,
    /// Its first letter was made large because it starts a sentence.
    raised: bool,
    /// A small letter may start it: a name.
    starts_with_name: bool,
    /// Numbered parts below it: the passes of a staged tightening, the methods to choose from.
    pub list: Vec<Sentence>,
}

/// What a stretch of a sentence is.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Run {
    Text,
    /// Words of the author's in another language than the sentence.
    Own,
    /// A quantity, set off in print.
    Value,
    /// The same, saying how tight.
    Torque,
    /// The same, saying what a finding is held against.
    Limit,
    /// What a declared thing is called, without its article.
    Name(Name),
    /// Another step of the procedure, by its number.
    Step(u32),
}

impl Sentence {
    /// Each run with its words. Joined they are the sentence, blanks included.
    pub fn runs(&self) -> impl Iterator<Item = (Run, &str)> {
        let mut start = 0;
        self.runs.iter().map(move |&(run, end)| {
            (run, self.text.get(std::mem::replace(&mut start, end)..end).unwrap_or(""))
        })
    }

    /// The runs alone, as text.
    pub fn lead(&self) -> &str {
        &self.text
    }

    /// The language of [`Run::Own`] and [`Run::Name`], as a BCP 47 tag; none where it is that of the page.
    pub fn own(&self) -> Option<&'static str> {
        self.own
    }

    /// All of it as text; a list follows as "1. … 2. …".
    pub fn plain(&self) -> String {
        let mut text = self.text.clone();
        for (number, item) in (1..).zip(&self.list) {
            text.push_str(&format!(" {number}. {}", item.plain()));
        }
        text
    }

    pub fn is_empty(&self) -> bool {
        self.runs.is_empty() && self.list.is_empty()
    }

    /// To go on after a colon: the capital that only starts an ordinary word is made small; "F40" and "E-clip"
    /// keep theirs.
    pub(super) fn lowered(mut self) -> Sentence {
        let mut chars = self.runs().next().map_or("", |(_, text)| text).chars();
        let (Some(first), Some(second)) = (chars.next(), chars.next()) else { return self };
        if !second.is_lowercase() || self.starts_with_name && !self.raised {
            return self;
        }
        if let Some(first) = self.text.get_mut(..1) {
            first.make_ascii_lowercase();
            return self;
        }
        let small = first.to_lowercase().to_string();
        self.text.replace_range(..first.len_utf8(), &small);
        for (_, end) in &mut self.runs {
            *end = *end + small.len() - first.len_utf8();
        }
        self
    }
}

/// Marks that end a sentence.
const FINAL: [char; 4] = ['.', '!', '?', '…'];

/// A sentence being written. Keeps blanks single and puts the commas round phrases that are set off.
#[derive(Debug)]
pub(super) struct Line {
    /// What the generated words are in; the author's are in their own.
    pub(super) tongue: &'static Tongue,
    /// What words are written as now.
    kind: Run,
    written: Sentence,
    /// A phrase that was set off by a comma has just ended.
    owes_comma: bool,
    /// The next words start a sentence.
    starts: bool,
}

impl Line {
    pub(super) fn new(cx: &Cx<'_>) -> Line {
        Line { starts: true, ..Line::inside(cx) }
    }

    /// Goes on after other words: nothing is capitalised.
    pub(super) fn inside(cx: &Cx<'_>) -> Line {
        let tongue = cx.tongue;
        // Room for an ordinary sentence.
        let written = Sentence {
            text: String::with_capacity(120),
            runs: Vec::with_capacity(8),
            own: cx.own(),
            starts_with_name: tongue.starts_with_names,
            ..Sentence::default()
        };
        Line { tongue, kind: Run::Text, written, owes_comma: false, starts: false }
    }

    /// What `write` writes is the author's: in the language of the source, and marked where that is another.
    pub(super) fn author(&mut self, cx: &Cx<'_>, write: impl FnOnce(&mut Line)) {
        let kind = if self.written.own.is_some() { Run::Own } else { Run::Text };
        let outer = (self.tongue, self.kind);
        (self.tongue, self.kind) = (cx.written, kind);
        write(self);
        (self.tongue, self.kind) = outer;
    }

    /// Words of the author's as they stand.
    pub(super) fn own(&mut self, text: &str) {
        let kind = if self.written.own.is_some() { Run::Own } else { Run::Text };
        let outer = std::mem::replace(&mut self.kind, kind);
        self.text(text);
        self.kind = outer;
    }

    pub(super) fn text(&mut self, text: &str) {
        let text = if self.at_blank() { unindented(text) } else { text };
        if !text.is_empty() {
            self.run(self.kind, text);
        }
    }

    pub(super) fn value(&mut self, text: &str) {
        self.starts = false;
        self.run(Run::Value, text);
    }

    pub(super) fn torque(&mut self, text: &str) {
        self.starts = false;
        self.run(Run::Torque, text);
    }

    pub(super) fn limit(&mut self, text: &str) {
        self.starts = false;
        self.run(Run::Limit, text);
    }

    pub(super) fn name(&mut self, text: &str, name: Name) {
        self.run(Run::Name(name), text);
    }

    pub(super) fn step(&mut self, number: u32) {
        self.run(Run::Step(number), &self.tongue.step(number));
    }

    /// Starts a phrase between commas; [`Line::end_set_off`] ends it.
    pub(super) fn set_off(&mut self) {
        self.owes_comma = false;
        self.trim(b" ,");
        self.text(", ");
    }

    pub(super) fn end_set_off(&mut self) {
        self.owes_comma = true;
    }

    /// Ends the sentence and lets another follow.
    pub(super) fn stop(&mut self) {
        self.owes_comma = false;
        self.trim(b" ,:;");
        if !self.is_empty() && !self.last().ends_with(FINAL) {
            self.text(".");
        }
        self.starts = true;
    }

    /// Starts another sentence after a full stop.
    pub(super) fn next_sentence(&mut self) {
        if !self.is_empty() {
            self.stop();
            self.text(" ");
            self.starts = true;
        }
    }

    /// Takes the sentence in, runs and list.
    pub(super) fn append(&mut self, sentence: Sentence) {
        self.settle("");
        for (index, (run, text)) in sentence.runs().enumerate() {
            if index == 0 {
                self.cased(text);
            } else {
                self.written.text.push_str(text);
            }
            self.written.runs.push((run, self.written.text.len()));
        }
        self.written.list.extend(sentence.list);
    }

    pub(super) fn list(&mut self, items: Vec<Sentence>) {
        self.written.list.extend(items);
    }

    pub(super) fn finish(mut self) -> Sentence {
        self.owes_comma = false;
        self.trim(b" ,");
        if self.written.list.is_empty() {
            self.stop();
        } else if !self.last().ends_with(FINAL) && !self.last().ends_with(':') {
            self.text(self.tongue.colon.trim_end());
        }
        self.written
    }

    /// What is written, as it is: part of another sentence.
    pub(super) fn into_phrase(self) -> Sentence {
        self.written
    }

    pub(super) fn is_empty(&self) -> bool {
        self.written.runs.is_empty()
    }

    pub(super) fn capitalise_next(&mut self) {
        self.starts = true;
    }

    /// Writes a run; words go on in one that holds words.
    fn run(&mut self, run: Run, text: &str) {
        self.settle(text);
        self.cased(text);
        self.end_run(run);
    }

    fn end_run(&mut self, run: Run) {
        let now = self.written.text.len();
        match self.written.runs.last_mut() {
            Some((last @ (Run::Text | Run::Own), end)) if *last == run => *end = now,
            _ => self.written.runs.push((run, now)),
        }
    }

    /// Writes the comma that is owed, unless a mark follows.
    fn settle(&mut self, next: &str) {
        if std::mem::take(&mut self.owes_comma) && !next.starts_with([',', '.', ':', ';']) {
            self.written.text.push(',');
            self.end_run(Run::Text);
        }
    }

    fn cased(&mut self, text: &str) {
        if self.starts && !unindented(text).is_empty() {
            self.starts = false;
            let first = text.chars().find(|c| c.is_alphanumeric());
            self.written.raised |= self.written.text.is_empty() && first.is_some_and(char::is_lowercase);
            push_capital(&mut self.written.text, text);
        } else {
            self.written.text.push_str(text);
        }
    }

    fn at_blank(&self) -> bool {
        self.written.text.is_empty() || self.written.text.ends_with(' ')
    }

    /// The words of the last run.
    fn last(&self) -> &str {
        self.written.text.get(self.last_start()..).unwrap_or("")
    }

    fn last_start(&self) -> usize {
        self.written.runs.iter().rev().nth(1).map_or(0, |&(_, end)| end)
    }

    /// Takes the marks, all ASCII, off the end of the last run, and it with them where it holds nothing else.
    fn trim(&mut self, marks: &[u8]) {
        let start = self.last_start();
        let last = self.written.text.as_bytes().get(start..).unwrap_or(&[]);
        let now = last.iter().rposition(|byte| !marks.contains(byte)).map_or(start, |kept| start + kept + 1);
        self.written.text.truncate(now);
        if now == start {
            self.written.runs.pop();
        } else if let Some((_, end)) = self.written.runs.last_mut() {
            *end = now;
        }
    }
}

/// Without blanks at the start. Most words begin with a letter of ASCII, which is seen at a glance.
fn unindented(text: &str) -> &str {
    if text.as_bytes().first().is_some_and(u8::is_ascii_graphic) { text } else { text.trim_start() }
}

/// With a capital at the start, after opening quotes or brackets if there are any.
fn push_capital(out: &mut String, text: &str) {
    let at = text.find(char::is_alphanumeric).unwrap_or(text.len());
    let (before, rest) = text.split_at(at);
    let mut chars = rest.chars();
    out.push_str(before);
    match chars.next() {
        Some(first) if first.is_ascii() => out.push(first.to_ascii_uppercase()),
        first => out.extend(first.into_iter().flat_map(char::to_uppercase)),
    }
    out.push_str(chars.as_str());
}

pub(super) fn capital(text: &str) -> String {
    let mut out = String::with_capacity(text.len());
    push_capital(&mut out, text);
    out
}
