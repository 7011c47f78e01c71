//! Free text with its references resolved.
use super::declarations::Name;
use crate::source::{Excerpt, Span, Spanned};

/// A CommonMark subset as the author wrote it, without indentation.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Prose {
    pub source: Excerpt,
    /// For each line of `source`: where it starts in `source`, and where in the file. None where `source` is what
    /// stands at `span`.
    pub lines: Box<[(u32, u32)]>,
    pub span: Span,
    /// What each `[name]` in it refers to.
    pub references: Box<[(String, Spanned<Target>)]>,
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
            let (from, to) = self.lines.get(at).copied().unwrap_or((0, self.span.start));
            to as usize + offset.saturating_sub(from as usize)
        };
        Span::new(self.span.file, place(start), place(end))
    }
    /// For each line of `source`: where it starts in it, and where in the file.
    pub fn line_starts(&self) -> impl Iterator<Item = (u32, u32)> {
        let alone = self.lines.is_empty().then_some((0, self.span.start));
        self.lines.iter().copied().chain(alone)
    }
    pub fn target(&self, name: &str) -> Option<Target> {
        self.references.iter().find(|(n, _)| n == name).map(|(_, t)| t.value)
    }
}
