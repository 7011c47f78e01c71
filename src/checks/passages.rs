//! A piece of free text that is read at the bench, with the way back to its place in the file.
use crate::model::Prose;
use crate::source::{SourceFile, Span, Text};

/// One piece of text.
#[derive(Debug, Clone, Copy)]
pub struct Passage<'a> {
    pub kind: Kind,
    place: Place<'a>,
}

/// What a piece of text is for.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Kind {
    /// Prose under a step, or a step's own sentence: says what to do.
    Instruction,
    /// What is looked at, until when, while what; what a signer states; why to stop.
    Particular,
    /// Words of a safety message.
    Message,
    /// Words of a note.
    Note,
}

#[derive(Debug, Clone, Copy)]
enum Place<'a> {
    Prose(&'a Prose),
    Quoted(&'a Text),
}

impl<'a> Passage<'a> {
    pub fn written(kind: Kind, prose: &'a Prose) -> Passage<'a> {
        Passage { kind, place: Place::Prose(prose) }
    }

    pub fn quoted(kind: Kind, text: &'a Text) -> Passage<'a> {
        Passage { kind, place: Place::Quoted(text) }
    }

    pub fn text(&self) -> &'a str {
        match self.place {
            Place::Prose(prose) => &prose.source,
            Place::Quoted(text) => text.as_str(),
        }
    }

    /// The place in the file of the bytes `start..end` of the text; all of it where an escape stands between.
    pub fn span(&self, source: &SourceFile, start: usize, end: usize) -> Span {
        match self.place {
            Place::Prose(prose) => prose.span_of(start, end),
            Place::Quoted(text) => match source.slice(text.span).find(text.as_str()) {
                Some(at) => {
                    let from = text.span.start as usize + at;
                    Span::new(text.span.file, from + start, from + end)
                }
                None => text.span,
            },
        }
    }
}
