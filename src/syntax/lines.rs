//! Splits a file into lines and says of each how far it is indented and what it can be.
//!
//! A structured line that goes on over several lines is handed to the grammar as one text of the same length,
//! with line ends and comments blanked out, so that a place in it is a place in the file.

use crate::source::SourceFile;

/// Longest line that is read, in bytes. Longer ones are refused: people write no such lines, and reporting on
/// them would be slow.
pub const LONGEST_LINE: usize = 8_000;
/// Columns a tab advances to a multiple of.
const TAB: usize = 4;

/// One physical line. `start..end` is its content: no indentation, trailing blanks or line end.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Line {
    start: u32,
    end: u32,
    indent: u16,
    pub kind: LineKind,
}

impl Line {
    pub fn start(&self) -> usize {
        self.start as usize
    }
    pub fn end(&self) -> usize {
        self.end as usize
    }
    /// In columns.
    pub fn indent(&self) -> usize {
        usize::from(self.indent)
    }
}

#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum LineKind {
    Blank,
    Comment,
    Margin,
    Indented,
    TooLong,
}

const BYTE_ORDER_MARK: &[u8] = "\u{feff}".as_bytes();

/// Takes every line of `source`, in order.
pub fn each(source: &SourceFile, mut take: impl FnMut(Line)) {
    let bytes = source.text.as_bytes();
    let mut start = if bytes.starts_with(BYTE_ORDER_MARK) { BYTE_ORDER_MARK.len() } else { 0 };
    for at in memchr::memchr_iter(b'\n', bytes) {
        take(class(bytes.get(start..=at).unwrap_or(&[]), start));
        start = at + 1;
    }
    // After the last line end nothing is left, not an empty line.
    if let Some(rest) = bytes.get(start..).filter(|rest| !rest.is_empty()) {
        take(class(rest, start));
    }
}

/// A line of words that end where it ends, at the margin or behind four blanks.
fn plain_class(raw: &[u8], start: usize) -> Option<Line> {
    const INDENT: usize = 4;
    let raw = raw.strip_suffix(b"\n")?;
    let is_word = |byte: &u8| *byte > b'#';
    let lead = if raw.first().is_some_and(is_word) { 0 } else { INDENT };
    let blanks = raw.get(..lead)?.iter().all(|byte| *byte == b' ');
    let whole = raw.get(lead).is_some_and(is_word) && raw.last().is_some_and(|byte| *byte > b' ');
    if !blanks || !whole || raw.len() > LONGEST_LINE {
        return None;
    }
    let kind = if lead == 0 { LineKind::Margin } else { LineKind::Indented };
    let clip = |n: usize| u32::try_from(n).unwrap_or(u32::MAX);
    Some(Line { start: clip(start + lead), end: clip(start + raw.len()), indent: lead as u16, kind })
}

fn class(raw: &[u8], start: usize) -> Line {
    if let Some(line) = plain_class(raw, start) {
        return line;
    }
    let is_trail = |byte: &u8| matches!(byte, b'\n' | b'\r' | b' ' | b'\t');
    let length = raw.iter().rposition(|byte| !is_trail(byte)).map_or(0, |last| last + 1);
    let raw = raw.get(..length).unwrap_or(&[]);
    let lead = raw.iter().position(|byte| !matches!(byte, b' ' | b'\t')).unwrap_or(length);
    let indent = columns(raw.get(..lead).unwrap_or(&[]));
    let kind = if lead == length {
        LineKind::Blank
    } else if length - lead > LONGEST_LINE {
        LineKind::TooLong
    } else if starts_comment(raw, lead) {
        LineKind::Comment
    } else if indent == 0 {
        LineKind::Margin
    } else {
        LineKind::Indented
    };
    let clip = |n: usize| u32::try_from(n).unwrap_or(u32::MAX);
    let indent = u16::try_from(indent).unwrap_or(u16::MAX);
    Line { start: clip(start + lead), end: clip(start + length), indent, kind }
}

fn columns(blanks: &[u8]) -> usize {
    if !blanks.contains(&b'\t') {
        return blanks.len();
    }
    blanks.iter().fold(0, |column, byte| if *byte == b'\t' { (column / TAB + 1) * TAB } else { column + 1 })
}

/// Whether the byte at `at` is a `#` that starts a comment. `#10-24` is a thread.
fn starts_comment(bytes: &[u8], at: usize) -> bool {
    bytes.get(at) == Some(&b'#') && !bytes.get(at + 1).is_some_and(u8::is_ascii_digit)
}

/// Where the comment at the end of a structured line starts, if it has one: outside quotes, after a blank.
pub fn comment_start(content: &str) -> Option<usize> {
    let bytes = content.as_bytes();
    memchr::memchr(b'#', bytes)?;
    let (mut straight, mut escaped, mut curly) = (false, false, 0_usize);
    for (at, letter) in content.char_indices() {
        match letter {
            _ if escaped => escaped = false,
            '\\' => escaped = straight || curly > 0,
            '"' if curly == 0 => straight = !straight,
            '“' if !straight => curly = 1,
            '”' if !straight => curly = 0,
            '#' if !straight && curly == 0 && starts_comment(bytes, at) => {
                let after_blank = at == 0 || bytes.get(at - 1).is_some_and(|b| matches!(b, b' ' | b'\t'));
                if after_blank {
                    return Some(at);
                }
            }
            _ => {}
        }
    }
    None
}

/// One structured line, or several that belong together, as the grammar reads it.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Joined<'a> {
    pub text: std::borrow::Cow<'a, str>,
    /// Where `text` starts in the file.
    pub start: usize,
}

/// Joins `lines` (at least one) of `file`, with comments, line ends and tabs as blanks.
pub fn join<'a>(file: &'a str, lines: &[Line]) -> Joined<'a> {
    let start = lines.first().map_or(0, |line| line.start());
    let slice = |line: &Line| file.get(line.start()..line.end()).unwrap_or("");
    let code = |line: &Line| {
        let content = slice(line);
        comment_start(content).map_or(content, |at| content.get(..at).unwrap_or("").trim_end())
    };
    if let [line] = lines {
        return Joined { text: blanks_for_tabs(code(line).into()), start };
    }
    let mut text = String::new();
    for line in lines {
        let gap = line.start().saturating_sub(start + text.len());
        text.extend(std::iter::repeat_n(' ', gap));
        text.push_str(code(line));
    }
    Joined { text: blanks_for_tabs(text.into()), start }
}

fn blanks_for_tabs(text: std::borrow::Cow<'_, str>) -> std::borrow::Cow<'_, str> {
    if memchr::memchr(b'\t', text.as_bytes()).is_some() { text.replace('\t', " ").into() } else { text }
}
