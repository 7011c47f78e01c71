//! Free text with its references resolved.
use super::declarations::Name;
use crate::source::{Span, Spanned};

/// A CommonMark subset as the author wrote it, without indentation.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Prose {
    pub source: String,
    /// For each line of `source`: where it starts in `source`, and where in the file.
    pub lines: Vec<(u32, u32)>,
    pub span: Span,
    /// What each `[name]` in it refers to.
    pub references: Vec<(String, Spanned<Target>)>,
}

/// What a name in brackets, or a jump, leads to.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Target {
    Thing(Name),
    /// The step of that number.
    Step(u32),
}

impl Prose {
    /// The place in the file of the bytes `start..end` of `source`.
    pub fn span_of(&self, start: usize, end: usize) -> Span {
        let place = |offset: usize| {
            let at = self.lines.partition_point(|&(from, _)| from as usize <= offset).saturating_sub(1);
            self.lines.get(at).map_or(self.span.start as usize, |&(from, to)| {
                to as usize + offset.saturating_sub(from as usize)
            })
        };
        Span::new(self.span.file, place(start), place(end))
    }
    pub fn target(&self, name: &str) -> Option<Target> {
        self.references.iter().find(|(n, _)| n == name).map(|(_, t)| t.value)
    }
}
