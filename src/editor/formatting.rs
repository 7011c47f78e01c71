//! The file in the layout of the house, as edits of the lines that are not.
use super::shop::Page;
use crate::report::Edit;
use crate::source::Span;
use crate::syntax;
use similar::{DiffTag, TextDiff};

pub fn of(page: &Page) -> Vec<Edit> {
    let formatted = syntax::format(&page.source);
    let diff = TextDiff::from_lines(page.text(), &formatted);
    let mut starts = vec![0];
    starts.extend(diff.old_slices().iter().scan(0, |at, line| {
        *at += line.len();
        Some(*at)
    }));
    let start = |line: usize| starts.get(line).copied().unwrap_or(page.text().len());
    let changed = diff.ops().iter().filter(|op| op.tag() != DiffTag::Equal);
    let edits = changed.map(|op| Edit {
        span: Span::new(page.source.id, start(op.old_range().start), start(op.old_range().end)),
        text: diff.new_slices().get(op.new_range()).unwrap_or_default().concat(),
    });
    edits.collect()
}
