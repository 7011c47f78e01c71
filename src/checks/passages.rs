//! A piece of free text that is read at the bench, with the way back to its place in the file.
use crate::model::Prose;
use crate::source::{SourceFile, Span, Text};

/// One piece of text.
#[derive(Debug, Clone, Copy)]
pub enum Passage<'a> {
    Prose(Kind, &'a Prose),
    Quoted(Kind, &'a Text),
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

impl<'a> Passage<'a> {
    pub fn kind(&self) -> Kind {
        match self {
            Passage::Prose(kind, _) | Passage::Quoted(kind, _) => *kind,
        }
    }

    pub fn text(&self) -> &'a str {
        match self {
            Passage::Prose(_, prose) => &prose.source,
            Passage::Quoted(_, text) => text.as_str(),
        }
    }

    /// The place in the file of the bytes `start..end` of the text; all of it where an escape stands between.
    pub fn span(&self, source: &SourceFile, start: usize, end: usize) -> Span {
        match self {
            Passage::Prose(_, prose) => prose.span_of(start, end),
            Passage::Quoted(_, text) => match source.slice(text.span).find(text.as_str()) {
                Some(at) => {
                    let from = text.span.start as usize + at;
                    Span::new(text.span.file, from + start, from + end)
                }
                None => text.span,
            },
        }
    }
}
