//! One line, read from left to right.
use super::super::Room;
use crate::source::{FileId, Span, Text};

/// Which bytes a word is made of, as a table: nearly every byte of a line is asked for.
#[expect(
    clippy::indexing_slicing,
    reason = "in a constant the compiler itself refuses a place that is not there"
)]
const IN_WORD: [bool; 256] = {
    let mut table = [false; 256];
    let mut byte = 0;
    while byte < 256 {
        table[byte] = (byte as u8).is_ascii_alphanumeric() || matches!(byte as u8, b'-' | b'_');
        byte += 1;
    }
    table
};

fn in_word(byte: u8) -> bool {
    IN_WORD.get(usize::from(byte)).is_some_and(|&is| is)
}

/// Reads one line from left to right. Every reader returns `None` where the line is not of the plainest kind.
pub(super) struct Cursor<'a> {
    pub(super) file: FileId,
    pub(super) base: usize,
    pub(super) text: &'a str,
    pub(super) at: usize,
    /// Where tables come from.
    pub(super) room: Option<&'a mut Room>,
}

impl<'a> Cursor<'a> {
    pub(super) fn peek(&self) -> Option<u8> {
        self.text.as_bytes().get(self.at).copied()
    }
    pub(super) fn at_end(&self) -> bool {
        self.at == self.text.len()
    }
    pub(super) fn take(&mut self, byte: u8) -> bool {
        let there = self.peek() == Some(byte);
        self.at += usize::from(there);
        there
    }
    pub(super) fn blanks(&mut self) {
        while self.take(b' ') {}
    }
    /// Blanks, at least one, or the end of the line.
    pub(super) fn some_blanks(&mut self) -> Option<()> {
        let from = self.at;
        self.blanks();
        (self.at > from || self.at_end()).then_some(())
    }
    /// From `from`, a place in the line, to here.
    pub(super) fn span(&self, from: usize) -> Span {
        Span::new(self.file, self.base + from, self.base + self.at)
    }
    /// A word that starts with a letter.
    pub(super) fn word(&mut self) -> Option<&'a str> {
        let rest = self.text.get(self.at..)?;
        let bytes = rest.as_bytes();
        bytes.first().filter(|byte| byte.is_ascii_alphabetic())?;
        let length = bytes.iter().position(|&byte| !in_word(byte)).unwrap_or(bytes.len());
        self.at += length;
        rest.get(..length)
    }
    /// The word that was just read, with its place.
    pub(super) fn text(&self, word: &str) -> Text {
        Text::new(word, self.span(self.at - word.len()))
    }
    /// A text in straight quotes without a backslash.
    pub(super) fn quoted(&mut self) -> Option<Text> {
        let from = self.at;
        self.take(b'"').then_some(())?;
        let inner = self.text.get(from + 1..)?;
        let length = memchr::memchr2(b'"', b'\\', inner.as_bytes())?;
        let inner = inner.get(..length)?;
        self.at += length;
        self.take(b'"').then_some(())?;
        Some(Text::new(inner, self.span(from)))
    }
}
