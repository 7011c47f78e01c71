//! One finding for a word that is unknown in many places: the first has it, the others are shown with it.
use super::Subject;
use crate::report::{Finding, Label};
use crate::source::{Span, Text};
use std::collections::HashMap;

/// Places shown with the first; who mends that one finds the rest.
const SHOWN: usize = 3;

/// The unknown words seen so far, each with the place of its finding in the list.
#[derive(Default)]
pub struct Once<'s> {
    seen: HashMap<&'s str, usize>,
    last: Option<Span>,
}

impl<'s> Once<'s> {
    /// Adds the finding where the word is seen first, else shows the place with that finding.
    ///
    /// Nothing where the word stands right behind another unknown one: behind a misspelt `until` or `thread`
    /// whatever follows looks unknown too.
    pub fn push(
        &mut self,
        subject: &Subject<'_>,
        findings: &mut Vec<Finding>,
        word: &'s Text,
        finding: impl FnOnce() -> Finding,
    ) {
        if self.last.replace(word.span).is_some_and(|last| is_next(last, word.span, subject)) {
            return;
        }
        match self.seen.get(word.as_str()) {
            None => {
                self.seen.insert(word.as_str(), findings.len());
                findings.push(finding());
            }
            Some(&first) => {
                if let Some(first) = findings.get_mut(first).filter(|first| first.labels.len() < SHOWN) {
                    first.labels.push(Label { span: word.span, text: "the same here".into() });
                }
            }
        }
    }
}

/// Only blanks and line ends stand between the two.
fn is_next(last: Span, next: Span, subject: &Subject<'_>) -> bool {
    let between = subject.source.slice(Span { start: last.end, end: next.start, ..next });
    !between.is_empty() && between.chars().all(char::is_whitespace)
}
