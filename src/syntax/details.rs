//! Indented `key: value` lines: which lines are such, and what their values say.
use super::ast::{Detail, DetailValue, Prose};
use super::lines::{Joined, Line, LineKind};
use super::parse::Parser;
use super::unreadable;
use super::words::{self, ValueForm};
use crate::source::{Excerpt, SourceFile, Span, Text};

/// Where a detail's parts end, in bytes from the line's start.
pub(super) struct DetailHead {
    key_length: usize,
    colon: Option<usize>,
    form: ValueForm,
}

impl Parser<'_> {
    pub(super) fn details(&mut self, lines: &[Line]) -> Vec<Detail> {
        let mut details = Vec::new();
        let mut rest = lines;
        while let Some((first, deeper)) = rest.split_first() {
            let length = 1 + deeper.iter().take_while(|line| line.indent() > first.indent()).count();
            let (mine, others) = rest.split_at(length);
            match self.detail_head(first, false) {
                Some(head) => self.detail(&head, mine, &mut details),
                None => self.findings.push(unreadable::no_detail(self.span(first.start(), first.end()))),
            }
            rest = others;
        }
        details
    }

    /// An indented safety message: its word leads the line, and what follows looks like no sentence.
    pub(super) fn late_message(&self, line: &Line) -> bool {
        let content = self.content(line);
        if !matches!(content.as_bytes().first(), Some(b'd' | b'w' | b'c' | b'n' | b'D' | b'W' | b'C' | b'N'))
        {
            return false;
        }
        let length = content.bytes().position(|byte| !byte.is_ascii_alphabetic()).unwrap_or(content.len());
        let Some((word, rest)) = content.split_at_checked(length) else { return false };
        let signals = ["danger", "warning", "caution", "notice"];
        let severe = signals.iter().any(|signal| word.eq_ignore_ascii_case(signal));
        let note = word == "note";
        if !(severe || note) || !(rest.is_empty() || rest.starts_with([' ', '\t', ':'])) {
            return false;
        }
        let rest = rest.trim_start();
        if rest.starts_with(':') {
            return true;
        }
        let one_case = |case: fn(&u8) -> bool| word.as_bytes().iter().all(case);
        let short = !rest.contains(['.', ',']) && rest.split_whitespace().count() <= 5;
        (severe && (one_case(u8::is_ascii_lowercase) || one_case(u8::is_ascii_uppercase)) && short)
            || (note && (rest.is_empty() || rest.starts_with(['"', '“'])))
    }

    pub(super) fn late_head(&self, line: &Line) -> DetailHead {
        let content = self.content(line);
        let length = content.find([' ', '\t', ':']).unwrap_or(content.len());
        DetailHead { key_length: length, colon: None, form: ValueForm::Free }
    }

    /// Whether an indented line is `key: value`. After prose only a known key is one, since prose wraps.
    pub(super) fn detail_head(&self, line: &Line, after_prose: bool) -> Option<DetailHead> {
        if line.kind != LineKind::Indented {
            return None;
        }
        let content = self.content(line);
        let length =
            content.bytes().position(|b| !(b.is_ascii_lowercase() || b == b'-')).unwrap_or(content.len());
        let key = content.get(..length).filter(|key| !key.is_empty())?;
        let known = words::detail_key(key);
        let form = known.map_or(ValueForm::Free, |row| row.value);
        let rest = content.get(length..).unwrap_or("");
        if is_colon(rest) {
            let counts = known.is_some() || !after_prose || words::nearly_detail(key);
            return counts.then_some(DetailHead { key_length: length, colon: Some(length), form });
        }
        if !takes_arguments(key) || !rest.starts_with(' ') {
            return None;
        }
        colon_outside_quotes(content, length).map(|colon| DetailHead {
            key_length: length,
            colon: Some(colon),
            form: if known.is_some() { form } else { ValueForm::Actions },
        })
    }

    /// Reads one more detail.
    pub(super) fn detail(&mut self, head: &DetailHead, lines: &[Line], all: &mut Vec<Detail>) {
        let source = self.source;
        let free = matches!(head.form, ValueForm::Free | ValueForm::Prose);
        // Free words may hold a `#`; structured ones end where a comment starts.
        let whole = if free { plain(&source.text, lines) } else { self.joined(lines) };
        let start = whole.start;
        let end = lines.last().map_or(start, |line| line.end());
        let slice = |from: usize, to: usize| whole.text.get(from..to).unwrap_or("");
        let key_span = self.span(start, start + head.key_length);
        let key = slice(0, head.key_length);
        let key = if key.bytes().any(|byte| byte.is_ascii_uppercase()) {
            Text::new(key.to_ascii_lowercase(), key_span)
        } else {
            Text::new(key, key_span)
        };
        let arguments = head.colon.filter(|&colon| colon > head.key_length).map_or_else(Vec::new, |colon| {
            let place = self.span(start + head.key_length, start + colon);
            cut_at_commas(slice(head.key_length, colon), place)
        });
        let from = head.colon.map_or(head.key_length, |colon| colon + 1);
        let blank = slice(from, whole.text.len());
        let from = from + (blank.len() - blank.trim_start().len());
        let value_text = slice(from, whole.text.len()).trim_end();
        let place = self.span(start + from, start + from + value_text.len());
        let (value, raw) = if free {
            let prose = free_words(source, place);
            let raw = match prose.line_starts().nth(1) {
                Some(_) => Text::new(prose.source.replace('\n', " "), place),
                None => Text::new(&*prose.source, place),
            };
            (if head.form == ValueForm::Prose { DetailValue::Prose(prose) } else { DetailValue::Free }, raw)
        } else {
            let raw = Text::new(value_text, place);
            (self.value(head.form, &raw, (start, end)), raw)
        };
        // Filled in where it stays: it is large.
        all.resize_with(all.len() + 1, Detail::default);
        let Some(detail) = all.last_mut() else { return };
        (detail.key, detail.arguments, detail.raw) = (key, arguments, raw);
        (detail.value, detail.span) = (value, self.span(start, end));
    }

    pub(super) fn value(&mut self, form: ValueForm, raw: &Text, line: (usize, usize)) -> DetailValue {
        let text = raw.value.as_str();
        let joined = Joined { text: text.into(), start: raw.span.start as usize };
        let reader = self.reader;
        let read = match form {
            ValueForm::Free | ValueForm::Prose => Some(DetailValue::Free),
            ValueForm::List => Some(DetailValue::List(cut_at_commas(text, raw.span))),
            ValueForm::Quantity => {
                let read = reader.quantity(&joined);
                self.keep(read, line.0, line.1, "time: 90 min").map(|quantity| {
                    quantity.map_or(DetailValue::Unread, |read| DetailValue::Quantity(Box::new(read)))
                })
            }
            ValueForm::Actions => {
                let read = reader.actions(&joined, &mut self.room);
                self.keep(read, line.0, line.1, "if cracked: renew drum").map(DetailValue::Actions)
            }
            ValueForm::Stage => {
                let read = reader.stage(&joined);
                self.keep(
                    read,
                    line.0,
                    line.1,
                    "stage: 20 N.m`, `stage: 90 deg` or `stage: back off 1/2 turn",
                )
                .map(|stage| DetailValue::Stage(Box::new(stage)))
            }
            ValueForm::Calls => {
                let read = reader.calls(&joined);
                self.keep(read, line.0, line.1, "requires: NUMBER \"state\"; NUMBER \"state\"`, or `none")
                    .map(DetailValue::Calls)
            }
            ValueForm::Conditions => {
                let read = reader.conditions(&joined);
                self.keep(
                    read,
                    line.0,
                    line.1,
                    "only: MODEL, MODEL`, `only: if fitted` or `only: LABEL failed",
                )
                .map(DetailValue::Conditions)
            }
            ValueForm::Waive => {
                let read = reader.waive(&joined);
                self.keep(read, line.0, line.1, "waive: rule-name \"why it does not hold here\"")
                    .map(|(rule, why)| DetailValue::Waive { rule, why })
            }
        };
        read.unwrap_or(DetailValue::Unread)
    }
}

fn is_colon(rest: &str) -> bool {
    rest.strip_prefix(':').is_some_and(|after| after.is_empty() || after.starts_with([' ', '\t']))
}

/// Keys that take words before their colon, and slips of the pen for them.
fn takes_arguments(key: &str) -> bool {
    matches!(key, "if" | "iff" | "except" | "option")
        || ["except", "option"].iter().any(|known| words::one_letter_off(key, known))
}

fn colon_outside_quotes(content: &str, from: usize) -> Option<usize> {
    let rest = content.get(from..)?;
    // Most have their first colon before any quotes.
    let first = memchr::memchr2(b':', b'"', rest.as_bytes())?;
    let (before, behind) = rest.split_at_checked(first)?;
    if before.is_ascii() && is_colon(behind) {
        return Some(from + first);
    }
    let mut quoted = false;
    rest.char_indices().find_map(|(at, letter)| {
        match letter {
            '"' => quoted = !quoted,
            '“' => quoted = true,
            '”' => quoted = false,
            ':' if !quoted && is_colon(rest.get(at..)?) => return Some(from + at),
            _ => {}
        }
        None
    })
}

/// The lines with line ends as blanks and nothing taken out: free words may hold a `#`.
fn plain<'a>(file: &'a str, lines: &[Line]) -> Joined<'a> {
    let (start, end) = (lines.first().map_or(0, |l| l.start()), lines.last().map_or(0, |l| l.end()));
    let text = file.get(start..end).unwrap_or("");
    let text = if text.contains('\n') { text.replace(['\n', '\r'], " ").into() } else { text.into() };
    Joined { text, start }
}

fn cut_at_commas(text: &str, span: Span) -> Vec<Text> {
    let mut at = span.start as usize;
    text.split(',')
        .filter_map(|piece| {
            let start = at + (piece.len() - piece.trim_start().len());
            at += piece.len() + 1;
            let word = piece.trim();
            let place = Span::new(span.file, start, start + word.len());
            (!word.is_empty()).then(|| Text::new(unquoted(word), place))
        })
        .collect()
}

fn unquoted(word: &str) -> &str {
    let straight = word.strip_prefix('"').and_then(|w| w.strip_suffix('"'));
    straight.or_else(|| word.strip_prefix('“').and_then(|w| w.strip_suffix('”'))).unwrap_or(word)
}

/// The words at `place`, which may go on over lines, without the indentation of those lines.
fn free_words(source: &SourceFile, place: Span) -> Prose {
    let clip = |n: usize| u32::try_from(n).unwrap_or(u32::MAX);
    if memchr::memchr(b'\n', source.slice(place).as_bytes()).is_none() {
        let words = Excerpt::of(&source.text, place.start as usize, place.end as usize);
        return Prose { source: words, lines: Box::default(), span: place };
    }
    let (mut together, mut lines) = (String::new(), Vec::new());
    let mut offset = place.start as usize;
    for raw in source.slice(place).split_inclusive('\n') {
        let words = raw.trim();
        if !words.is_empty() {
            if !together.is_empty() {
                together.push('\n');
            }
            let start = offset + (raw.len() - raw.trim_start().len());
            lines.push((clip(together.len()), clip(start)));
            together.push_str(words);
        }
        offset += raw.len();
    }
    Prose { source: together.into(), lines: lines.into(), span: place }
}
