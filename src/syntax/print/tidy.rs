//! The blanks of structured text: one between words, none before a comma or a semicolon, one behind it.

/// Whether runs of blanks between words become one blank.
#[derive(Clone, Copy, PartialEq, Eq)]
pub(super) enum Runs {
    Single,
    /// They may be part of what is meant.
    Kept,
}

/// `code` with its blanks in order; texts in quotes stay as they are. A comma between two figures, and blanks between
/// them, are part of a number.
pub(super) fn tidy(code: &str, runs: Runs) -> String {
    let mut out = String::with_capacity(code.len());
    let mut quotes = Quotes::default();
    let mut blanks = 0_usize;
    for letter in code.trim_matches(is_blank).chars() {
        if !quotes.open() && is_blank(letter) {
            blanks += 1;
            continue;
        }
        if !quotes.open() && !out.is_empty() {
            out.extend(std::iter::repeat_n(' ', gap(&out, blanks, letter, runs)));
        }
        blanks = 0;
        quotes.pass(letter);
        // A tab in a text is read as a blank.
        out.push(if letter == '\t' { ' ' } else { letter });
    }
    out
}

/// How many blanks stand between what is `out` already and the next letter, where `written` stood.
fn gap(out: &str, written: usize, next: char, runs: Runs) -> usize {
    let mut before = out.chars().rev();
    let last = before.next().unwrap_or(' ');
    let figures = |a: Option<char>, b: char| a.is_some_and(|a| a.is_ascii_digit()) && b.is_ascii_digit();
    match last {
        _ if matches!(next, ',' | ';') => 0,
        ',' if written == 0 && figures(before.next(), next) => 0,
        ',' | ';' => 1,
        _ if figures(Some(last), next) || runs == Runs::Kept => written,
        _ => written.min(1),
    }
}

fn is_blank(letter: char) -> bool {
    matches!(letter, ' ' | '\t' | '\n' | '\r')
}

/// Whether a line break stands inside quotes, so that its blanks are part of a text.
pub(super) fn breaks_text(code: &str) -> bool {
    let mut quotes = Quotes::default();
    code.chars().any(|letter| {
        let inside = quotes.open();
        quotes.pass(letter);
        inside && letter == '\n'
    })
}

/// Follows the quotes of a line as the grammar reads them.
#[derive(Default)]
struct Quotes {
    closing: Option<char>,
    escaped: bool,
}

impl Quotes {
    fn open(&self) -> bool {
        self.closing.is_some()
    }

    fn pass(&mut self, letter: char) {
        match (self.closing, letter) {
            _ if self.escaped => self.escaped = false,
            (Some(_), '\\') => self.escaped = true,
            (Some(end), _) if letter == end => self.closing = None,
            (None, '"') => self.closing = Some('"'),
            (None, '“') => self.closing = Some('”'),
            _ => {}
        }
    }
}
