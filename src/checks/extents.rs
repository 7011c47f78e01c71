//! Many stretches of one file, and whether a place lies in one of them.
use crate::source::Span;

/// Where each stretch starts, and how far the ones up to it reach. Stretches nest or lie apart.
pub struct Extents(Vec<(u32, u32)>);

impl Extents {
    pub fn of(spans: impl Iterator<Item = Span>) -> Extents {
        let mut extents: Vec<(u32, u32)> = spans.map(|span| (span.start, span.end)).collect();
        extents.sort_unstable();
        let mut reach = 0;
        for (_, end) in &mut extents {
            reach = reach.max(*end);
            *end = reach;
        }
        Extents(extents)
    }

    pub fn hold(&self, place: u32) -> bool {
        let before = self.0.partition_point(|&(start, _)| start <= place);
        before.checked_sub(1).and_then(|at| self.0.get(at)).is_some_and(|&(_, reach)| place < reach)
    }
}
