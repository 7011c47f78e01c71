//! Where in a half-written line the author is: read off the text, since what is half written has no tree yet.

/// The place of the cursor.
#[derive(Debug, PartialEq, Eq)]
pub struct Spot<'t> {
    pub on: On<'t>,
    /// What stands before the cursor in its part of the line: the action, the attribute, the value of the detail.
    pub before: &'t str,
    /// The byte where `before` starts.
    pub start: usize,
}

/// What the line is.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum On<'t> {
    /// A statement's first words; the action of a step.
    Margin,
    /// A message, behind its signal word.
    Message,
    /// Behind the first word of a statement that is neither: `use`, `section`, `parts`.
    Opener(&'t str),
    /// A line of a block, by the block's word: behind the name.
    Declaration(&'t str),
    /// An indented line that has no colon yet, under the statement with that first word.
    Under(&'t str),
    /// Behind the colon of a detail of that key.
    Detail(&'t str),
    /// In quotes or in prose, behind an open bracket: a name to refer to.
    Bracket,
    /// In quotes of a `use` or `picture`.
    Path(&'t str),
    /// Nothing can be offered.
    Nowhere,
}

const BLOCKS: [&str; 5] = ["parts", "tools", "supplies", "torques", "figures"];
const SIGNALS: [&str; 5] = ["danger", "warning", "caution", "notice", "note"];

/// The place of `offset` in `text`.
pub fn of(text: &str, offset: usize) -> Spot<'_> {
    let before = text.get(..offset).unwrap_or(text);
    let line_start = before.rfind('\n').map_or(0, |at| at + 1);
    let head_start = head_start(before, line_start);
    let head = text.get(head_start..).unwrap_or("");
    let opener = head.split([' ', '\t', '\n', '\r']).next().unwrap_or("");
    let is_block = BLOCKS.contains(&opener);
    let start = joined_start(before, head_start, line_start, is_block);
    let written = before.get(start..).unwrap_or("");
    let lead = written.len() - written.trim_start_matches([' ', '\t', '\u{feff}']).len();
    let (start, written) = (start + lead, written.get(lead..).unwrap_or(""));
    let spot = |on, at: usize| Spot { on, before: written.get(at..).unwrap_or(""), start: start + at };
    if written.starts_with('#') {
        return spot(On::Nowhere, 0);
    }
    if let Some(at) = open_quote(written) {
        return quoted(written, at, start);
    }
    let margin = start == head_start + usize::from(before.starts_with('\u{feff}') && head_start == 0) * 3;
    if margin {
        return at_margin(opener, written, &spot);
    }
    if is_block {
        // A name has no other word before it.
        return spot(On::Declaration(opener), 0);
    }
    match colon(written) {
        Some((key, at)) if is_step(opener) && matches!(key, "if" | "option" | "except") => {
            let at = last_action(written, at);
            spot(On::Margin, at)
        }
        Some((key, at)) => spot(On::Detail(key), at),
        None if open_bracket(written) => spot(On::Bracket, written.rfind('[').map_or(0, |at| at + 1)),
        None => spot(On::Under(opener), 0),
    }
}

fn at_margin<'t>(opener: &'t str, written: &'t str, spot: &dyn Fn(On<'t>, usize) -> Spot<'t>) -> Spot<'t> {
    let behind = written.len() > opener.len();
    let rest =
        (written.len() - written.get(opener.len()..).unwrap_or("").trim_start().len()).min(written.len());
    if behind && SIGNALS.contains(&opener) {
        return spot(On::Message, rest);
    }
    let opens = BLOCKS.contains(&opener) || matches!(opener, "use" | "section" | "procedure" | "catalogue");
    if behind && opens {
        return spot(On::Opener(opener), rest);
    }
    spot(On::Margin, last_action(written, 0))
}

/// Whether the statement is a step.
pub fn is_step(opener: &str) -> bool {
    let opens = matches!(opener, "use" | "section" | "procedure" | "catalogue" | "");
    !opens && !BLOCKS.contains(&opener) && !SIGNALS.contains(&opener)
}

pub fn is_message(opener: &str) -> bool {
    SIGNALS.contains(&opener)
}

/// The start of the nearest line at the margin, upwards from the cursor's own.
fn head_start(before: &str, line_start: usize) -> usize {
    let mut start = line_start;
    loop {
        let line = before.get(start..).unwrap_or("");
        let indented = line.starts_with([' ', '\t']);
        let blank = line.starts_with(['\n', '\r', '#']) || line.is_empty() && start != line_start;
        if start == 0 || !(indented || blank) {
            return start;
        }
        let above = before.get(..start - 1).unwrap_or("");
        start = above.rfind('\n').map_or(0, |at| at + 1);
    }
}

/// Where the line starts that the cursor's goes on from: the one above ends in a comma or a semicolon, or, in a
/// block, stands less deep.
fn joined_start(before: &str, head_start: usize, line_start: usize, is_block: bool) -> usize {
    let mut start = line_start;
    while start > head_start {
        let above = before.get(..start - 1).unwrap_or("");
        let at = above.rfind('\n').map_or(0, |at| at + 1);
        let line = above.get(at..).unwrap_or("");
        let goes_on = if is_block {
            at > head_start && depth(before.get(start..).unwrap_or("")) > depth(line)
        } else {
            line.trim_end().ends_with([',', ';'])
        };
        if !goes_on {
            return start;
        }
        start = at;
    }
    start
}

fn depth(line: &str) -> usize {
    line.len() - line.trim_start_matches([' ', '\t']).len()
}

/// Where the text in quotes that the cursor is in starts, behind its mark.
fn open_quote(written: &str) -> Option<usize> {
    let mut open = None;
    let mut escaped = false;
    for (at, letter) in written.char_indices() {
        match letter {
            _ if escaped => escaped = false,
            '\\' => escaped = open.is_some(),
            '"' => open = if open.is_some() { None } else { Some(at + 1) },
            '“' if open.is_none() => open = Some(at + '“'.len_utf8()),
            '”' => open = None,
            _ => {}
        }
    }
    open
}

fn quoted(written: &str, at: usize, start: usize) -> Spot<'_> {
    let inside = written.get(at..).unwrap_or("");
    let outside = written.get(..at).unwrap_or("").trim_end_matches(['"', '“']).trim_end();
    let word = outside.rsplit([' ', '\t', ',']).next().unwrap_or("");
    if matches!(word, "use" | "picture") {
        return Spot { on: On::Path(word), before: inside, start: start + at };
    }
    match inside.rfind('[') {
        Some(open) if open_bracket(inside) => {
            let at = at + open + 1;
            Spot { on: On::Bracket, before: written.get(at..).unwrap_or(""), start: start + at }
        }
        _ => Spot { on: On::Nowhere, before: inside, start: start + at },
    }
}

fn open_bracket(text: &str) -> bool {
    let behind = text.rfind('[').and_then(|at| text.get(at + 1..));
    behind.is_some_and(|rest| rest.bytes().all(|it| it.is_ascii_alphanumeric() || it == b'-'))
}

/// Key and place of the value of an indented `key: value`.
fn colon(written: &str) -> Option<(&str, usize)> {
    let mut quoted = false;
    let found = written.char_indices().find(|(_, letter)| {
        quoted ^= *letter == '"';
        *letter == ':' && !quoted
    });
    let (at, _) = found?;
    let key = written.get(..at)?.split(' ').next()?;
    let rest = written.get(at + 1..)?;
    let is_key = key.bytes().all(|byte| byte.is_ascii_lowercase() || byte == b'-');
    (is_key && (rest.is_empty() || rest.starts_with(' ')))
        .then(|| (key, written.len() - rest.trim_start().len()))
}

/// Where the last of several actions starts, at or behind `from`.
fn last_action(written: &str, from: usize) -> usize {
    let mut quoted = false;
    let mut start = from;
    for (at, letter) in written.char_indices().filter(|(at, _)| *at >= from) {
        quoted ^= letter == '"';
        if letter == ';' && !quoted {
            start = at + 1;
        }
    }
    let rest = written.get(start..).unwrap_or("");
    start + rest.len() - rest.trim_start().len()
}
