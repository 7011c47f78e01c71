//! Sentences and words of prose, counted the way this language counts them.
//!
//! A number with its unit is one word, and so are a hyphenated word, a quoted name, `code` and a `[reference]`.
use crate::model::quantity::{Number, Unit};
use std::ops::Range;

/// One word as counted, with its bytes in the text.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Word {
    pub range: Range<usize>,
    pub kind: WordKind,
}

#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum WordKind {
    Plain,
    Number,
    /// A number with a unit after it.
    Amount,
    /// Between quotation marks or backticks: somebody else's words.
    Quoted,
    /// `[name]`.
    Reference,
}

/// The words of `text`, in order.
pub fn words(text: &str) -> Words<'_> {
    Words { text, at: 0 }
}

/// A number of words that `text` surely does not exceed, without cutting it: one more than it has places to cut at, and a
/// few of them may count twice.
pub fn most_words(text: &str) -> usize {
    let cuts = |byte: u8| {
        let marks = [byte == b'"', byte == b'`', byte == b'[', byte == b']'];
        let visible = (b'!'..=b'~').contains(&byte);
        marks.into_iter().fold(u8::from(!visible), |any, it| any | u8::from(it))
    };
    // Sixteen are looked at in one go, without a branch.
    let in_block = |block: &[u8; 16]| block.map(cuts).iter().sum::<u8>();
    let (blocks, rest) = text.as_bytes().as_chunks();
    let most = blocks.iter().map(|block| usize::from(in_block(block))).sum::<usize>() + 1;
    // What is left over together with what stands before it.
    most + match text.as_bytes().last_chunk() {
        _ if rest.is_empty() => 0,
        Some(block) => usize::from(in_block(block)),
        None => rest.len(),
    }
}

/// See [`words`].
pub struct Words<'a> {
    text: &'a str,
    at: usize,
}

/// How far a quotation is looked for, so that a stray mark costs little and hides little.
const LONGEST_QUOTATION: usize = 240;

impl Iterator for Words<'_> {
    type Item = Word;

    fn next(&mut self) -> Option<Word> {
        loop {
            let rest = self.text.get(self.at..)?;
            let blank = rest.len() - rest.trim_start().len();
            let (start, rest) = (self.at + blank, rest.trim_start());
            if rest.is_empty() {
                return None;
            }
            // After a figure or a letter the mark is an inch or closes something.
            let glued = self.text.get(..start).is_some_and(|before| before.ends_with(char::is_alphanumeric));
            let (length, kind) = enclosed(rest).filter(|_| !glued).unwrap_or_else(|| open_word(rest));
            self.at = start + length;
            if let Some(word) = self.trimmed(start, length, kind) {
                return Some(word);
            }
        }
    }
}

impl Words<'_> {
    /// Without punctuation at its ends; nothing where only punctuation is left.
    fn trimmed(&mut self, start: usize, length: usize, kind: WordKind) -> Option<Word> {
        let raw = self.text.get(start..start + length)?;
        if kind != WordKind::Plain {
            return Some(Word { range: start..start + length, kind });
        }
        let not_word = |c: char| !c.is_alphanumeric();
        let from = start + (raw.len() - raw.trim_start_matches(not_word).len());
        let core = raw.trim_matches(not_word);
        if core.is_empty() {
            return None;
        }
        let end = from + core.len();
        if !is_number(core) {
            return Some(Word { range: from..end, kind });
        }
        // Punctuation after the number ends the phrase: "Use 2. In …" has no inches.
        let unit = if end == start + length { unit_after(self.text, end) } else { None };
        self.at = unit.unwrap_or(self.at);
        let kind = if unit.is_some() { WordKind::Amount } else { WordKind::Number };
        Some(Word { range: from..unit.unwrap_or(end), kind })
    }
}

/// A quotation, code span or reference at the start of `rest`: its length and kind.
fn enclosed(rest: &str) -> Option<(usize, WordKind)> {
    let (open, close, kind) = match rest.chars().next()? {
        '"' => ('"', '"', WordKind::Quoted),
        '“' => ('“', '”', WordKind::Quoted),
        '`' => ('`', '`', WordKind::Quoted),
        '[' => ('[', ']', WordKind::Reference),
        _ => return None,
    };
    let inside = rest.get(open.len_utf8()..)?;
    let (at, _) = inside.char_indices().take(LONGEST_QUOTATION).find(|&(_, c)| c == close)?;
    Some((open.len_utf8() + at + close.len_utf8(), kind))
}

/// A run up to the next blank, quotation or bracket.
fn open_word(rest: &str) -> (usize, WordKind) {
    let stops = |c: char| c.is_whitespace() || matches!(c, '"' | '“' | '`' | '[');
    let end = rest.char_indices().skip(1).find(|&(_, c)| stops(c)).map_or(rest.len(), |(at, _)| at);
    (end, WordKind::Plain)
}

/// `8`, `0.50`, `1/2`, `8-10`, `8–10`.
fn is_number(core: &str) -> bool {
    core.split(['-', '–']).all(|part| Number::parse(part).is_ok())
}

/// Where the unit after the number that ends at `end` ends.
fn unit_after(text: &str, end: usize) -> Option<usize> {
    let rest = text.get(end..)?.trim_start_matches([' ', '\u{a0}', '\u{202f}']);
    let start = text.len() - rest.len();
    let (_, length) = Unit::starting(rest)?;
    let after = rest.get(length..).unwrap_or("");
    (!is_preposition(rest.get(..length)?, after)).then_some(start + length)
}

/// "in" before an article is the word, not the inch.
fn is_preposition(unit: &str, after: &str) -> bool {
    const LEAD: [&str; 13] =
        ["the", "a", "an", "this", "that", "these", "each", "its", "their", "your", "one", "any", "order"];
    let next = after.trim_start().split(|c: char| !c.is_alphanumeric()).next().unwrap_or("");
    unit == "in" && LEAD.contains(&next)
}

/// The sentences of `text`, without the blanks around them. A blank line and a list item begin a new one.
pub fn sentences(text: &str) -> Vec<Range<usize>> {
    let mut found = Vec::new();
    let mut start = 0;
    for (at, byte) in text.bytes().enumerate() {
        let next = at + 1;
        let ends = match byte {
            b'.' | b'!' | b'?' => ends_sentence(text, at, next),
            b'\n' => begins_item(text.get(next..).unwrap_or("")),
            _ => false,
        };
        if ends {
            push_sentence(text, start..next, &mut found);
            start = next;
        }
    }
    push_sentence(text, start..text.len(), &mut found);
    found
}

fn push_sentence(text: &str, range: Range<usize>, found: &mut Vec<Range<usize>>) {
    let raw = text.get(range.clone()).unwrap_or("");
    let start = range.start + (raw.len() - raw.trim_start().len());
    let core = raw.trim();
    if core.contains(char::is_alphanumeric) {
        found.push(start..start + core.len());
    }
}

/// A stop ends a sentence before a blank, unless a small letter follows or it only shortens a word.
fn ends_sentence(text: &str, at: usize, next: usize) -> bool {
    const SHORT: [&str; 9] = ["no", "max", "min", "approx", "fig", "figs", "incl", "dia", "vs"];
    let after = text.get(next..).unwrap_or("").trim_start_matches(['"', '”', ')', '*', '_']);
    let goes_on = after.trim_start().starts_with(char::is_lowercase);
    let before = text.get(..at).unwrap_or("");
    let tail = before.rsplit(|c: char| !c.is_alphabetic()).next().unwrap_or("");
    let shortened = text.get(at..next) == Some(".")
        && after.trim_start().starts_with(|c: char| c.is_ascii_digit())
        && SHORT.iter().any(|short| tail.eq_ignore_ascii_case(short));
    (after.is_empty() || after.starts_with(char::is_whitespace)) && !goes_on && !shortened
}

/// A blank line, or `- `, `* `, `1. ` at the start of the line.
fn begins_item(rest: &str) -> bool {
    let line = rest.split('\n').next().unwrap_or("").trim();
    let after_number = line.trim_start_matches(|c: char| c.is_ascii_digit());
    let numbered = after_number.len() < line.len() && after_number.starts_with(". ");
    line.is_empty() || line.starts_with("- ") || line.starts_with("* ") || numbered
}
