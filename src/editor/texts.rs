//! The text of one file that is open in an editor, and what the client does to it.
use super::positions::{Encoding, Lines, Place};
use std::sync::Arc;

/// An open file as the client sees it.
#[derive(Debug, Clone)]
pub struct OpenText {
    pub text: Arc<str>,
    /// As the client counts; findings go out with it.
    pub version: i32,
    pub lines: Lines,
}

/// One change: the new text of a range, or of the whole file.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Change {
    pub range: Option<(Place, Place)>,
    pub text: String,
}

impl OpenText {
    pub fn new(text: &str, version: i32, encoding: Encoding) -> OpenText {
        OpenText { text: text.into(), version, lines: Lines::of(text, encoding) }
    }

    /// Makes the changes in their order: each speaks of the text that the one before it left.
    pub fn change(&mut self, version: i32, changes: &[Change], encoding: Encoding) {
        let mut text = String::from(&*self.text);
        for change in changes {
            match change.range {
                None => text.clone_from(&change.text),
                Some((start, end)) => {
                    let (start, end) = (self.lines.offset(&text, start), self.lines.offset(&text, end));
                    // Clients have been seen to send them the wrong way round.
                    text.replace_range(start.min(end)..start.max(end), &change.text);
                }
            }
            self.lines = Lines::of(&text, encoding);
        }
        self.text = text.into();
        self.version = version;
    }
}
