//! A file in the one layout of the house: only blanks and line ends change, never what is meant. Every statement is
//! read again in its new layout, and left as it was written where it would then say something else.
mod columns;
mod proof;
mod roles;
mod rows;
mod tidy;

use super::ast::{Head, Statement};
use super::lines::{self, Line, LineKind};
use super::parse::{Parsed, parse};
use super::unreadable::UNREADABLE_LINE;
use crate::source::SourceFile;

/// Columns of what belongs to a statement.
const INDENT: usize = 4;
/// Columns a line of attributes may fill before it wraps.
const WIDTH: usize = 100;

/// A line of the file.
#[derive(Clone, Copy)]
struct Raw<'a> {
    line: Line,
    /// Without indentation and trailing blanks.
    content: &'a str,
    /// All but the LF at its end.
    whole: &'a str,
}

impl<'a> Raw<'a> {
    /// The line as it is written, without its line end.
    fn as_written(&self) -> &'a str {
        self.whole.trim_end_matches('\r')
    }
}

/// The file in the house's layout: LF at line ends, one at the end of the file, no byte order mark. The same text
/// again where it has that layout already.
pub fn format(source: &SourceFile) -> String {
    let Parsed { tree, findings } = parse(source);
    let raws: Vec<Raw<'_>> = raws(source);
    let mut statements = tree.statements.iter().peekable();
    let mut unread = findings.iter().filter(|finding| finding.rule == UNREADABLE_LINE).peekable();
    let mut printed = Printed::default();
    let mut rest = raws.as_slice();
    while !rest.is_empty() {
        let (gap, after) = rest.split_at(leading_gap(rest));
        let (mine, others) = after.split_at(piece_length(after));
        rest = others;
        let Some((first, last)) = mine.first().zip(mine.last()) else {
            printed.gap(gap, None);
            break;
        };
        let within = first.line.start()..last.line.end() + 1;
        let statement = statements.next_if(|it| within.contains(&(it.span.start as usize)));
        let mut bad = Vec::new();
        while let Some(finding) = unread.next_if(|it| (it.span.start as usize) < within.end) {
            bad.push(finding);
        }
        printed.gap(gap, statement.map(Group::of));
        match statement {
            Some(statement) => printed.text.push_str(&proof::first_true(source, statement, mine, &bad)),
            None => mine.iter().for_each(|raw| push_line(&mut printed.text, raw.as_written())),
        }
    }
    printed.text
}

fn raws(source: &SourceFile) -> Vec<Raw<'_>> {
    let raw = |(line, (start, whole)): (Line, (usize, &'_ str))| {
        let content = source.text.get(line.start()..line.end()).unwrap_or("");
        let marked = if start == 0 { whole.strip_prefix('\u{feff}') } else { None };
        (line, content, start + whole.len() - marked.unwrap_or(whole).len(), start + whole.len())
    };
    let mut all = Vec::new();
    lines::each(source, |line| all.push(line));
    all.into_iter()
        .zip(source.lines())
        .map(raw)
        .map(|(line, content, from, to)| {
            let whole = source.text.get(from..to).unwrap_or("");
            Raw { line, content, whole: whole.strip_suffix('\n').unwrap_or(whole) }
        })
        .collect()
}

fn push_line(text: &mut String, line: &str) {
    text.push_str(line);
    text.push('\n');
}

fn is_gap(raw: &Raw<'_>) -> bool {
    match raw.line.kind {
        LineKind::Blank => true,
        LineKind::Comment => raw.line.indent() == 0,
        _ => false,
    }
}

/// Blank lines and comments at the margin, which stand before a statement.
fn leading_gap(raws: &[Raw<'_>]) -> usize {
    raws.iter().position(|raw| !is_gap(raw)).unwrap_or(raws.len())
}

/// The line at the front and what belongs to it; blank lines and comments at the margin behind it are the next one's.
fn piece_length(raws: &[Raw<'_>]) -> usize {
    let next = raws.iter().skip(1).position(|raw| raw.line.kind == LineKind::Margin);
    let all = raws.get(..next.map_or(raws.len(), |at| at + 1)).unwrap_or(raws);
    all.iter().rposition(|raw| !is_gap(raw)).map_or(0, |last| last + 1)
}

/// What a statement is, as far as blank lines go by it.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Group {
    Header,
    Use,
    Block,
    EmptyBlock,
    Section,
    Other,
}

impl Group {
    fn of(statement: &Statement) -> Group {
        match &statement.head {
            Head::Procedure { .. } | Head::Catalogue { .. } => Group::Header,
            Head::Use { .. } => Group::Use,
            Head::Block { none: true, .. } => Group::EmptyBlock,
            Head::Block { .. } => Group::Block,
            Head::Section { .. } => Group::Section,
            Head::Message(_) | Head::Step(_) | Head::Unread => Group::Other,
        }
    }

    /// Whether a blank line stands between the two whether or not the author left one.
    fn parted_from(self, next: Group) -> bool {
        let either = |group: Group| self == group || next == group;
        let both = |group: Group| self == group && next == group;
        if either(Group::Header) || either(Group::Section) {
            return true;
        }
        let use_ends = either(Group::Use) && !both(Group::Use);
        let block_ends = either(Group::Block) || (either(Group::EmptyBlock) && !both(Group::EmptyBlock));
        use_ends || block_ends
    }
}

/// What is written so far.
#[derive(Default)]
struct Printed {
    text: String,
    before: Option<Group>,
}

impl Printed {
    /// Blank lines, at most one in a row, and comments before a statement of the group `next`; at the end of the file
    /// before none.
    fn gap(&mut self, gap: &[Raw<'_>], next: Option<Group>) {
        let starts = self.text.is_empty();
        let parted = self.before.zip(next).is_some_and(|(before, next)| before.parted_from(next));
        self.before = next.or(Some(Group::Other));
        let written = gap.iter().any(|raw| raw.line.kind == LineKind::Blank);
        let mut blank = parted && !written;
        let mut first = starts;
        for raw in gap {
            if raw.line.kind == LineKind::Blank {
                blank = true;
                continue;
            }
            self.blank_line(blank && !first);
            push_line(&mut self.text, raw.content);
            (blank, first) = (false, false);
        }
        let ends = next.is_none();
        self.blank_line(blank && !first && !ends);
    }

    fn blank_line(&mut self, wanted: bool) {
        if wanted {
            self.text.push('\n');
        }
    }
}
