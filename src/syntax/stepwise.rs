//! A file read step by step: what steps may refer to is read at once, and each plain step when its turn comes. A
//! file is mostly steps, and their trees are large: together they would need many times the file's room.
use super::ast::{Statement, Tree};
use super::lines::{Line, LineKind};
use super::parse::{Parser, first_word, margins, statement_length};
use super::read::Reader;
use crate::report::Finding;
use crate::source::SourceFile;

/// A file whose plain steps wait to be read.
pub struct Stepwise<'a> {
    /// All but the waiting steps.
    pub tree: Tree,
    /// Every statement, in source order.
    pub order: Vec<Entry>,
    pub steps: Steps<'a>,
}

/// One statement of the file.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Entry {
    /// The tree's next.
    Read,
    Waits(Waiting),
}

/// A step that waits: which lines are its own.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Waiting {
    from: u32,
    lines: u32,
}

/// Reads the steps that wait.
pub struct Steps<'a> {
    parser: Parser<'a>,
    lines: Vec<Line>,
}

/// Opens a file. `verb` says which first words surely make a step that gives no label, so that nothing need be known
/// of it before its turn.
pub fn open<'a>(source: &'a SourceFile, verb: &dyn Fn(&str) -> bool) -> Stepwise<'a> {
    let mut parser = Parser { source, reader: Reader { file: source.id, quick: true }, findings: Vec::new() };
    let lines = parser.usable_lines();
    let mut tree = Tree::default();
    let mut order = Vec::with_capacity(margins(&lines) + 1);
    let clip = |n: usize| u32::try_from(n).unwrap_or(u32::MAX);
    let mut at = 0;
    while let Some(rest) = lines.get(at..).filter(|rest| !rest.is_empty()) {
        let length = statement_length(rest);
        let mine = rest.get(..length).unwrap_or(rest);
        // The first statement says what the file is.
        if at > 0 && parser.can_wait(mine, verb) {
            order.push(Entry::Waits(Waiting { from: clip(at), lines: clip(length) }));
        } else if let Some(statement) = parser.statement(mine) {
            tree.statements.push(statement);
            order.push(Entry::Read);
        }
        at += length;
    }
    Stepwise { tree, order, steps: Steps { parser, lines } }
}

impl Steps<'_> {
    pub fn read(&mut self, waiting: Waiting) -> Option<Statement> {
        let from = waiting.from as usize;
        let mine = self.lines.get(from..from + waiting.lines as usize)?;
        self.parser.statement(mine)
    }

    /// For every line that could not be read, once all steps have been: in source order, at most one a line.
    pub fn findings(self) -> Vec<Finding> {
        let mut findings = self.parser.findings;
        findings.sort_by_key(|finding| finding.span.start);
        findings
    }
}

impl Parser<'_> {
    fn can_wait(&self, mine: &[Line], verb: &dyn Fn(&str) -> bool) -> bool {
        let (Some(first), Some(last)) = (mine.first(), mine.last()) else { return false };
        let text = self.source.text.get(first.start()..last.end()).unwrap_or("");
        first.kind == LineKind::Margin && verb(first_word(self.content(first))) && !gives_label(text)
    }
}

/// Whether the word `as`, behind which labels stand, is anywhere in the text.
fn gives_label(text: &str) -> bool {
    let bytes = text.as_bytes();
    let in_word = |at: Option<usize>| {
        at.and_then(|at| bytes.get(at))
            .is_some_and(|byte| byte.is_ascii_alphanumeric() || matches!(byte, b'-' | b'_'))
    };
    memchr::memmem::find_iter(bytes, b"as").any(|at| !in_word(at.checked_sub(1)) && !in_word(Some(at + 2)))
}
