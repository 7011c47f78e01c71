//! Text, places in it, lines and columns. Knows nothing of the language.
mod excerpt;
mod free_text;
pub mod quotes;
mod words;

pub use excerpt::Excerpt;
pub use free_text::FreeText;
use std::sync::{Arc, OnceLock};
pub use words::{WordHash, WordMap};

/// Which file of a run a place is in; indexes [`Sources`].
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Default)]
pub struct FileId(pub u32);

/// A half-open byte range of one file.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Default)]
pub struct Span {
    pub file: FileId,
    pub start: u32,
    pub end: u32,
}

impl Span {
    /// The range `start..end` (bytes) of `file`. Positions past 4 GiB saturate; files are capped far below.
    pub fn new(file: FileId, start: usize, end: usize) -> Span {
        let clip = |n: usize| u32::try_from(n).unwrap_or(u32::MAX);
        Span { file, start: clip(start), end: clip(end.max(start)) }
    }

    /// The smallest span that holds both; `other` must be of the same file, else `self` comes back.
    #[must_use]
    pub fn to(self, other: Span) -> Span {
        if self.file != other.file {
            return self;
        }
        Span { file: self.file, start: self.start.min(other.start), end: self.end.max(other.end) }
    }

    /// As a byte range, for slicing.
    pub fn range(self) -> std::ops::Range<usize> {
        self.start as usize..self.end as usize
    }

    pub fn is_empty(self) -> bool {
        self.start >= self.end
    }
}

/// A value with the place it was written at.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Default)]
pub struct Spanned<T> {
    pub value: T,
    pub span: Span,
}

impl<T> Spanned<T> {
    pub fn new(value: impl Into<T>, span: Span) -> Spanned<T> {
        Spanned { value: value.into(), span }
    }
    pub fn map<U>(self, f: impl FnOnce(T) -> U) -> Spanned<U> {
        Spanned { value: f(self.value), span: self.span }
    }
}

/// Text as the author wrote it, with its place. Most are names, short enough to need no room of their own.
pub type Text = Spanned<compact_str::CompactString>;

impl Text {
    pub fn as_str(&self) -> &str {
        &self.value
    }
}

/// One source file: its name as shown to the user, its text, and where its lines start.
#[derive(Debug, Clone)]
pub struct SourceFile {
    pub id: FileId,
    /// Path relative to the workspace, with forward slashes.
    pub name: Arc<str>,
    pub text: Arc<str>,
    /// Found when something is first reported.
    line_starts: OnceLock<Vec<u32>>,
}

impl SourceFile {
    pub fn new(id: FileId, name: impl Into<Arc<str>>, text: impl Into<Arc<str>>) -> SourceFile {
        SourceFile { id, name: name.into(), text: text.into(), line_starts: OnceLock::new() }
    }

    fn line_starts(&self) -> &[u32] {
        self.line_starts.get_or_init(|| {
            let clip = |n: usize| u32::try_from(n).unwrap_or(u32::MAX);
            let ends = memchr::memchr_iter(b'\n', self.text.as_bytes());
            std::iter::once(0).chain(ends.map(|at| clip(at + 1))).collect()
        })
    }

    /// The text a span covers; empty where it is out of range or cuts a character.
    pub fn slice(&self, span: Span) -> &str {
        self.text.get(span.range()).unwrap_or("")
    }

    /// The span grown to whole lines, with the last line's end.
    pub fn whole_lines(&self, span: Span) -> Span {
        let last = span.end.saturating_sub(1).max(span.start);
        let line = |offset| self.line_range(self.line_column(offset).0);
        let (first, last) = (line(span.start), line(last));
        let after = self.text.get(last.end..).unwrap_or("");
        let line_end = ["\r\n", "\n"].into_iter().find(|end| after.starts_with(end)).map_or(0, str::len);
        Span::new(span.file, first.start, last.end + line_end)
    }

    /// Line and column, both from 1; the column counts characters, as editors show it.
    pub fn line_column(&self, offset: u32) -> (usize, usize) {
        let starts = self.line_starts();
        let line = starts.partition_point(|&start| start <= offset);
        let start = starts.get(line.saturating_sub(1)).copied().unwrap_or(0);
        let before = self.text.get(start as usize..offset as usize).unwrap_or("");
        (line.max(1), before.trim_start_matches('\u{feff}').chars().count() + 1)
    }

    /// The byte range of line `number` (from 1), without its line end.
    pub fn line_range(&self, number: usize) -> std::ops::Range<usize> {
        let starts = self.line_starts();
        let start = starts.get(number.saturating_sub(1)).copied().unwrap_or(0) as usize;
        let end = starts.get(number).map_or(self.text.len(), |&next| next as usize);
        let line = self.text.get(start..end).unwrap_or("");
        start..start + line.trim_end_matches(['\n', '\r']).len()
    }

    /// Every line with its line end, and the byte it starts at.
    pub fn lines(&self) -> impl Iterator<Item = (usize, &str)> {
        let mut next = 0;
        let ends = memchr::memchr_iter(b'\n', self.text.as_bytes()).map(|at| at + 1);
        ends.chain([self.text.len()]).filter_map(move |end| {
            let start = std::mem::replace(&mut next, end);
            // After the last line end nothing is left, not an empty line.
            (start < end).then(|| (start, self.text.get(start..end).unwrap_or("")))
        })
    }

    pub fn line_count(&self) -> usize {
        1 + memchr::memchr_iter(b'\n', self.text.as_bytes()).count()
    }
}
