//! Rows to text: declarations in columns, the values of details side by side, long lists of attributes wrapped.
use super::rows::{Content, Lead, Row};
use super::{INDENT, WIDTH, push_line};

/// Names and texts longer than this stand out of their column instead of moving it for all.
const WIDEST_CELL: usize = 40;

/// The rows as text, each with its line end.
pub(super) fn print(rows: &[Row]) -> String {
    let columns = Columns::of(rows);
    let (keys, indents) = (key_columns(rows), comment_indents(rows));
    let mut text = String::new();
    let mut blank = false;
    for (row, (keys, indent)) in rows.iter().zip(keys.into_iter().zip(indents)) {
        match row {
            Row::Blank { kept } => {
                if *kept || !blank {
                    text.push('\n');
                }
            }
            Row::Comment { text: comment, .. } => push_line(&mut text, &format!("{:indent$}{comment}", "")),
            Row::Verbatim(line) => push_line(&mut text, line),
            Row::Line(content) => columns.line(&mut text, content, keys),
        }
        blank = matches!(row, Row::Blank { .. });
    }
    text
}

/// For each row how far in a comment there stands: as far as the line below it, unless it is at the margin.
fn comment_indents(rows: &[Row]) -> Vec<usize> {
    let mut below = INDENT;
    let mut indents: Vec<usize> = Vec::with_capacity(rows.len());
    for row in rows.iter().rev() {
        if let Row::Line(line) = row {
            below = line.indent;
        }
        indents.push(if matches!(row, Row::Comment { margin: true, .. }) { 0 } else { below });
    }
    indents.reverse();
    indents
}

/// For each row the widest key of the details that it stands among.
fn key_columns(rows: &[Row]) -> Vec<usize> {
    let mut widest = Vec::with_capacity(rows.len());
    for run in rows.chunk_by(|a, b| key_width(a).is_some() && key_width(b).is_some()) {
        let most = run.iter().filter_map(key_width).max().unwrap_or(0);
        widest.extend(run.iter().map(|_| most));
    }
    widest
}

/// How wide the key of an aligned detail is, 0 for lines that only go on with one; none ends the run.
fn key_width(row: &Row) -> Option<usize> {
    match row {
        Row::Comment { .. } => Some(0),
        Row::Line(Content { lead: Lead::Key { text, aligned: true }, .. }) => Some(width(text)),
        Row::Line(Content { lead: Lead::Nothing, indent, .. }) if *indent > INDENT => Some(0),
        _ => None,
    }
}

fn width(text: &str) -> usize {
    text.chars().count()
}

/// Where the cells of the declarations start.
struct Columns {
    text: usize,
    count: usize,
    attributes: usize,
}

impl Columns {
    fn of(rows: &[Row]) -> Columns {
        let (mut names, mut texts, mut counts) = (0, 0, 0);
        let widen = |column: &mut usize, cell: &str| {
            let cell = width(cell);
            *column = (*column).max(if cell > WIDEST_CELL { 0 } else { cell });
        };
        for row in rows {
            let Row::Line(Content { lead: Lead::Cells { name, text, count }, .. }) = row else { continue };
            widen(&mut names, name);
            widen(&mut texts, text);
            // The names of pieces are too long for a column.
            widen(&mut counts, if count.contains(' ') { "" } else { count });
        }
        let behind = |column: usize, gap: usize, cell: usize| column + if cell > 0 { cell + gap } else { 0 };
        let text = INDENT + names + 1;
        let count = if texts > 0 { text + texts + 2 } else { text + 1 };
        Columns { text, count, attributes: behind(count, 2, counts) }
    }

    fn line(&self, text: &mut String, content: &Content, key_width: usize) {
        let mut line = " ".repeat(content.indent);
        let wraps = match &content.lead {
            Lead::Nothing => false,
            Lead::Key { text, aligned } => {
                line.push_str(text);
                if !content.pieces.is_empty() {
                    let column = content.indent + if *aligned { key_width } else { width(text) } + 1;
                    pad(&mut line, column, 1);
                }
                false
            }
            Lead::Cells { name, text, count } => {
                line.push_str(name);
                for (cell, column, gap) in [(text, self.text, 1), (count, self.count, 2)] {
                    if !cell.is_empty() {
                        pad(&mut line, column, gap);
                        line.push_str(cell);
                    }
                }
                true
            }
        };
        let mut first = true;
        for piece in &content.pieces {
            let start = match (first, wraps) {
                (true, true) => self.attributes.max(width(&line) + 2),
                (true, false) => width(&line),
                _ => width(&line) + 1,
            };
            if wraps && start + width(piece) > WIDTH {
                push_line(text, &line);
                line = " ".repeat(2 * INDENT);
            } else {
                pad(&mut line, start, 0);
            }
            line.push_str(piece);
            first = false;
        }
        if !content.comment.is_empty() {
            line.push_str("  ");
            line.push_str(&content.comment);
        }
        push_line(text, &line);
    }
}

/// Fills up to `column`, with at least `gap` blanks.
fn pad(line: &mut String, column: usize, gap: usize) {
    let missing = column.saturating_sub(width(line)).max(gap);
    line.extend(std::iter::repeat_n(' ', missing));
}
