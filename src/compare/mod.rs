//! What changed in meaning between two revisions of one file. Pure: two documents in, a list of changes out.
//!
//! Each side is read into facts, a value and its words under a name. Facts of the same name are held against each
//! other: another value is a change of meaning, other words for the same value a rewording, and layout is nothing.
mod actions;
mod align;
mod change;
mod heading;
mod fact;
mod messages;
mod outcomes;
mod steps;
mod things;
mod values;

pub use change::{Change, Class, How, Kind};

use crate::model::{Body, Document, Procedure};
use crate::source::Span;
use fact::Aliases;

/// What one side is: number, title and revision as written, empty where the file does not say.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Issue {
    pub number: String,
    pub title: String,
    pub revision: String,
}

impl Issue {
    fn of(document: &Document) -> Issue {
        match &document.body {
            Body::Procedure(it) => Issue {
                number: it.number.value.to_string(),
                title: it.title.value.to_string(),
                revision: it.header.revision.as_ref().map(|it| it.value.to_string()).unwrap_or_default(),
            },
            Body::Catalogue { title } => Issue { title: title.value.to_string(), ..Issue::default() },
            Body::Unknown => Issue::default(),
        }
    }
}

/// All that differs.
#[derive(Debug, Clone)]
pub struct Comparison {
    pub old: Issue,
    pub new: Issue,
    /// Changes of meaning and rewordings: header, declarations, then the steps in order.
    pub changes: Vec<Change>,
}

impl Comparison {
    /// Changes of meaning.
    pub fn meant(&self) -> impl Iterator<Item = &Change> {
        self.changes.iter().filter(|change| change.class() == Class::Meaning)
    }

    /// The revision that both sides bear, though they mean different things.
    pub fn kept_revision(&self) -> Option<&str> {
        let kept = Some(self.new.revision.as_str()).filter(|it| !it.is_empty() && *it == self.old.revision);
        kept.filter(|_| self.meant().next().is_some())
    }

    /// What says the same in other words or under another number.
    pub fn reworded(&self) -> impl Iterator<Item = &Change> {
        self.changes.iter().filter(|change| change.class() == Class::Words)
    }

    /// Changes of meaning that somebody answerable has to agree to.
    pub fn to_sign(&self) -> impl Iterator<Item = &Change> {
        self.meant().filter(|change| change.sign_off)
    }
}

/// What changed from `old` to `new`.
pub fn compare(old: &Document, new: &Document) -> Comparison {
    let mut aliases = Aliases::default();
    let mut changes = Vec::new();
    let renamed = things::renamed(old, new, &mut aliases);
    changes.extend(renamed);
    things::compare(old, new, &aliases, &mut changes);
    if let (Some(before), Some(after)) = (old.procedure(), new.procedure()) {
        let sides = Sides { old, new, before, after };
        steps::compare(&sides, &mut aliases, &mut changes);
    } else {
        messages::of_catalogue(old, new, &mut changes);
    }
    let mut head = Vec::new();
    heading::compare(old, new, &aliases, &mut head);
    let changes = head.into_iter().chain(changes).collect();
    Comparison { old: Issue::of(old), new: Issue::of(new), changes: merged(changes) }
}

/// Two procedures with their documents.
struct Sides<'a> {
    old: &'a Document,
    new: &'a Document,
    before: &'a Procedure,
    after: &'a Procedure,
}

/// The words of the file at `span`, on one line; empty where it is of another file.
fn written(document: &Document, span: Span) -> String {
    let text = document.texts.first().filter(|_| span.file == document.file);
    let text = text.and_then(|text| text.get(span.range())).unwrap_or("");
    let words = text.lines().flat_map(|line| uncommented(line).split_whitespace());
    words.collect::<Vec<_>>().join(" ")
}

/// What stands before a comment; `#` in a text begins none.
fn uncommented(line: &str) -> &str {
    let mut quoted = false;
    let mut before = ' ';
    for (at, c) in line.char_indices() {
        quoted ^= c == '"';
        if c == '#' && !quoted && before.is_whitespace() {
            return line.get(..at).unwrap_or(line);
        }
        before = c;
    }
    line
}

/// A standing message that is said at many steps changes once.
fn merged(changes: Vec<Change>) -> Vec<Change> {
    let mut out: Vec<Change> = Vec::with_capacity(changes.len());
    for change in changes {
        let same = |it: &&mut Change| change.standing.is_some() && it.says_the_same(&change);
        match out.iter_mut().find(same) {
            Some(earlier) => earlier.also.extend(change.step_after.zip(change.message)),
            None => out.push(change),
        }
    }
    out
}
