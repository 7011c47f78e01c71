//! Findings for lines that could not be read: what stopped the reading, and how the line should look.
use super::read::Unread;
use super::words;
use crate::report::Finding;
use crate::source::{SourceFile, Span};

/// A line whose form is not that of any statement, or that is longer than any a person writes.
pub const UNREADABLE_LINE: &str = "unreadable-line";

/// The finding for the line at `line`; `form` shows how such a line looks (without its outer backticks).
#[cold]
pub fn line(source: &SourceFile, line: Span, why: &Unread, form: &str) -> Finding {
    let text = source.slice(line);
    if why.too_deep {
        return Finding::new(UNREADABLE_LINE, line, "The brackets here nest too deeply to be read")
            .help("Work the value out in two or more `calculate` steps");
    }
    if let Some(at) = open_quote(text) {
        let span = letter(source, line, line.start as usize + at);
        return Finding::new(UNREADABLE_LINE, span, "This quote is never closed, so the line cannot be read")
            .help("Put a `\"` at the end of the text; a `\"` inside a text is written `\\\"`");
    }
    let span = stop(source, line, why.at);
    let stopped = source.slice(span);
    let message = if stopped.is_empty() {
        "The line ends too early to be read".to_owned()
    } else {
        format!("The line cannot be read from `{}` on", shorten(stopped))
    };
    let finding = Finding::new(UNREADABLE_LINE, span, message);
    if let Some((help, edit)) = colon(line, text) {
        let finding = finding.help(help);
        return edit.into_iter().fold(finding, |finding, (span, text)| finding.edit(span, text));
    }
    if looks_like_sentence(text) {
        return finding.help(
            "A sentence for the reader is indented under its step, or stands in quotes after `do`; a step starts with a verb in small letters",
        );
    }
    let expected = match why.expected.as_slice() {
        [] => String::new(),
        list => format!("Here should stand {}. ", list.join(" or ")),
    };
    finding.help(format!("{expected}The form is `{form}`"))
}

/// What helps a line at the margin whose first words end in a colon: only indented lines have one.
fn colon(line: Span, text: &str) -> Option<(String, Option<(Span, String)>)> {
    let (before, _) = text.split_once(':')?;
    let first = before.split_whitespace().next()?;
    if matches!(first, "if" | "otherwise" | "except") || words::detail_key(before).is_some() {
        return Some((format!("`{before}:` belongs to the line above it: indent it under its step"), None));
    }
    let word = before.to_lowercase();
    (words::keyword(&word)).then(|| {
        let span = Span::new(line.file, line.start as usize, line.start as usize + before.len() + 1);
        (format!("Leave the colon out: `{word}`"), Some((span, word)))
    })
}

/// A line longer than [`super::lines::LONGEST_LINE`].
#[cold]
pub fn too_long(source: &SourceFile, line: Span) -> Finding {
    let shown = letter(source, line, line.start as usize);
    Finding::new(
        UNREADABLE_LINE,
        shown,
        format!(
            "This line is {} bytes long; the longest that is read is {}",
            line.range().len(),
            super::lines::LONGEST_LINE
        ),
    )
    .help("Break it: indented lines under a statement go on with it")
}

/// An indented line before any statement.
#[cold]
pub fn belongs_to_nothing(line: Span) -> Finding {
    Finding::new(UNREADABLE_LINE, line, "This indented line belongs to nothing: no statement stands above it")
        .help("A file starts at the margin with `procedure NUMBER \"Title\"` or `catalogue \"Title\"`")
}

/// A deeper line under a declaration that is no detail.
#[cold]
pub fn no_detail(line: Span) -> Finding {
    Finding::new(UNREADABLE_LINE, line, "This line under a declaration is no `key: value`")
        .help("Lines that go on with the declaration stand before its `stage:` and `waive:` lines")
}

/// The one letter at a place of the line; some take several bytes.
fn letter(source: &SourceFile, line: Span, at: usize) -> Span {
    let length = source.text.get(at..).and_then(|rest| rest.chars().next()).map_or(0, char::len_utf8);
    Span::new(line.file, at, at + length)
}

/// The word at which reading stopped.
fn stop(source: &SourceFile, line: Span, at: usize) -> Span {
    let text = source.text.get(at..line.end as usize).unwrap_or("");
    let skipped = text.len() - text.trim_start().len();
    let word = text.trim_start();
    let length = word.find([' ', '\t', '\n', ';', ',']).map_or(word.len(), |end| end.max(1));
    let length =
        word.char_indices().map(|(i, c)| i + c.len_utf8()).find(|&end| end >= length).unwrap_or(length);
    Span::new(line.file, at + skipped, at + skipped + length)
}

/// Where a quote opens that nothing closes.
fn open_quote(text: &str) -> Option<usize> {
    let (mut open, mut escaped) = (None, false);
    for (at, letter) in text.char_indices() {
        match letter {
            _ if escaped => escaped = false,
            '\\' => escaped = open.is_some(),
            '"' => open = if open.is_some() { None } else { Some(at) },
            '“' if open.is_none() => open = Some(at),
            '”' => open = None,
            _ => {}
        }
    }
    open
}

fn looks_like_sentence(text: &str) -> bool {
    let capital = text.chars().next().is_some_and(char::is_uppercase);
    (capital && text.contains(' ')) || text.trim_end().ends_with('.')
}

fn shorten(text: &str) -> String {
    const MOST: usize = 30;
    if text.chars().count() <= MOST {
        return text.to_owned();
    }
    text.chars().take(MOST).chain(std::iter::once('…')).collect()
}
