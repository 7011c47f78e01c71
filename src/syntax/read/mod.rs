//! Pest's pairs to the tree. Each function reads one kind of structured line; places are those of the file.
mod actions;
mod declarations;
mod lines;
mod quantities;
mod quick;
mod room;
mod torques;

use super::lines::Joined;
use crate::source::{FileId, Span, Spanned, Text};
use pest::Parser;
use pest::iterators::{Pair, Pairs};
pub use room::Room;
use std::borrow::Cow;

#[derive(pest_derive::Parser)]
#[grammar = "../grammar/cotter.pest"]
struct Grammar;

/// Deepest nesting of brackets in a calculation; deeper is refused before the grammar sees it.
const DEEPEST: usize = 16;

/// Why a line could not be read: where reading stopped, in bytes of the file, and what could have stood there.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Unread {
    pub at: usize,
    pub expected: Vec<&'static str>,
    pub too_deep: bool,
}

/// Reads lines of one file.
#[derive(Debug, Clone, Copy)]
pub struct Reader {
    pub file: FileId,
    /// Whether the plainest lines may be read without the grammar.
    pub quick: bool,
}

type Node<'i> = Pair<'i, Rule>;

/// The pairs of one entry, with what is needed to make places of the file from them.
struct Pairing<'i> {
    file: FileId,
    base: usize,
    pairs: Pairs<'i, Rule>,
}

impl Reader {
    #[cold]
    fn pair<'i>(self, rule: Rule, line: &'i Joined<'_>) -> Result<Pairing<'i>, Unread> {
        if nesting(&line.text) > DEEPEST {
            return Err(Unread { at: line.start, expected: Vec::new(), too_deep: true });
        }
        match Grammar::parse(rule, &line.text) {
            Ok(pairs) => Ok(Pairing { file: self.file, base: line.start, pairs }),
            Err(error) => Err(unread(&error, line.start)),
        }
    }
}

impl Pairing<'_> {
    fn places(&self) -> Places {
        Places { file: self.file, base: self.base }
    }
}

/// Deepest nesting of round brackets outside quotes. A text ends where the grammar ends it, so that no bracket the
/// grammar may go into is missed.
fn nesting(text: &str) -> usize {
    if memchr::memchr(b'(', text.as_bytes()).is_none() {
        return 0;
    }
    let (mut depth, mut deepest) = (0_usize, 0_usize);
    let (mut closing, mut escaped) = (None, false);
    for letter in text.chars() {
        match (closing, letter) {
            _ if escaped => escaped = false,
            (Some(_), '\\') => escaped = true,
            (Some(end), _) if letter == end => closing = None,
            (None, '"') => closing = Some('"'),
            (None, '“') => closing = Some('”'),
            (None, '(') => {
                depth += 1;
                deepest = deepest.max(depth);
            }
            (None, ')') => depth = depth.saturating_sub(1),
            _ => {}
        }
    }
    deepest
}

fn unread(error: &pest::error::Error<Rule>, base: usize) -> Unread {
    let at = match error.location {
        pest::error::InputLocation::Pos(at) | pest::error::InputLocation::Span((at, _)) => base + at,
    };
    let mut expected: Vec<&'static str> = match &error.variant {
        pest::error::ErrorVariant::ParsingError { positives, .. } => {
            positives.iter().filter_map(|&rule| plain_name(rule)).collect()
        }
        pest::error::ErrorVariant::CustomError { .. } => Vec::new(),
    };
    expected.sort_unstable();
    expected.dedup();
    Unread { at, expected, too_deep: false }
}

/// What a person would call what the grammar was looking for.
fn plain_name(rule: Rule) -> Option<&'static str> {
    match rule {
        Rule::name | Rule::word | Rule::objects => Some("a name"),
        Rule::text => Some("a text in quotes"),
        Rule::quantity | Rule::amount | Rule::number => Some("a quantity"),
        Rule::identifier => Some("a procedure number"),
        Rule::action | Rule::verb => Some("a verb"),
        Rule::attribute => Some("an attribute"),
        _ => None,
    }
}

/// Makes places of the file from places of one parsed text.
#[derive(Clone, Copy)]
struct Places {
    file: FileId,
    base: usize,
}
impl Places {
    fn span(self, pair: &Node<'_>) -> Span {
        let span = pair.as_span();
        Span::new(self.file, self.base + span.start(), self.base + span.end())
    }
    fn line_span(self, line: &Joined<'_>) -> Span {
        Span::new(self.file, line.start, line.start + line.text.len())
    }
    fn text(self, pair: &Node<'_>) -> Text {
        Text::new(pair.as_str(), self.span(pair))
    }
    /// What stands between the quotes, with `\"` and `\\` undone; the place includes the quotes.
    fn quoted(self, pair: &Node<'_>) -> Text {
        let mut inner = pair.as_str().chars();
        inner.next();
        inner.next_back();
        Text::new(unescape(inner.as_str()), self.span(pair))
    }
    fn words(self, pair: &Node<'_>) -> Text {
        if pair.as_rule() == Rule::text { self.quoted(pair) } else { self.text(pair) }
    }
    fn count(self, pair: &Node<'_>) -> Spanned<u32> {
        Spanned::new(number_of(pair), self.span(pair))
    }
}

/// A count; one past what a sheet could mean saturates.
fn number_of(pair: &Node<'_>) -> u32 {
    pair.as_str().trim().parse().unwrap_or(u32::MAX)
}

fn unescape(inner: &str) -> Cow<'_, str> {
    if !inner.contains('\\') {
        return inner.into();
    }
    let mut plain = String::with_capacity(inner.len());
    let mut escaped = false;
    for letter in inner.chars() {
        if escaped || letter != '\\' {
            plain.push(letter);
            escaped = false;
        } else {
            escaped = true;
        }
    }
    plain.into()
}
