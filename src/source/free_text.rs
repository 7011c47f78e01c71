//! Words over one or more lines, with the way back to the file.
use super::{Excerpt, Span};

/// Free text over one or more lines. `source` has the indentation taken off; `lines` leads back to the file.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct FreeText {
    pub source: Excerpt,
    /// For each line of `source`: where it starts in `source`, and where in the file. None where `source` is what
    /// stands at `span`.
    pub lines: Box<[(u32, u32)]>,
    pub span: Span,
}

impl FreeText {
    /// For each line of `source`: where it starts in it, and where in the file.
    pub fn line_starts(&self) -> impl Iterator<Item = (u32, u32)> {
        let alone = self.lines.is_empty().then_some((0, self.span.start));
        self.lines.iter().copied().chain(alone)
    }
    /// The place in the file of the bytes `start..end` of `source`.
    pub fn span_of(&self, start: usize, end: usize) -> Span {
        let place = |offset: usize| {
            let at = self.lines.partition_point(|&(from, _)| from as usize <= offset).saturating_sub(1);
            let (from, to) = self.lines.get(at).copied().unwrap_or((0, self.span.start));
            to as usize + offset.saturating_sub(from as usize)
        };
        Span::new(self.span.file, place(start), place(end))
    }
}
