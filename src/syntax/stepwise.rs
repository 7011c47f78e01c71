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

/// Statements besides plain steps that most files have room enough with.
const MOST_READ_AT_ONCE: usize = 16;

/// Opens a file. `verb` says which first words surely make a step that gives no label, so that nothing need be known
/// of it before its turn.
pub fn open<'a>(source: &'a SourceFile, verb: &dyn Fn(&str) -> bool) -> Stepwise<'a> {
    let mut parser = Parser::new(source, Reader { file: source.id, quick: true });
    let lines = parser.usable_lines();
    let mut tree = Tree { statements: Vec::with_capacity(MOST_READ_AT_ONCE) };
    let mut order = Vec::with_capacity(margins(&lines) + 1);
    let clip = |n: usize| u32::try_from(n).unwrap_or(u32::MAX);
    // Labels stand behind the one, results behind the other.
    let mut naming = ["as ", "calculate "].map(|word| places_of(word, &source.text, parser.plain).peekable());
    let mut at = 0;
    while let Some(rest) = lines.get(at..).filter(|rest| !rest.is_empty()) {
        let length = statement_length(rest);
        let mine = rest.get(..length).unwrap_or(rest);
        let end = mine.last().map_or(0, Line::end);
        let mut gives_label = false;
        for places in &mut naming {
            while places.next_if(|&place| place < end).is_some() {
                gives_label = true;
            }
        }
        let starts = |first: &Line| first.kind == LineKind::Margin && verb(first_word(parser.content(first)));
        // The first statement says what the file is.
        if !order.is_empty() && !gives_label && mine.first().is_some_and(starts) {
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
    /// Whether no line has been met that could not be read.
    pub fn all_read(&self) -> bool {
        self.parser.findings.is_empty()
    }

    /// Reads a step into `statement`, whose room is used again. Whether there was one.
    pub fn read(&mut self, waiting: Waiting, statement: &mut Statement) -> bool {
        let from = waiting.from as usize;
        let mine = self.lines.get(from..from + waiting.lines as usize);
        mine.is_some_and(|mine| self.parser.statement_into(mine, statement))
    }

    /// For every line that could not be read, once all steps have been: in source order, at most one a line.
    pub fn findings(self) -> Vec<Finding> {
        let mut findings = self.parser.findings;
        findings.sort_by_key(|finding| finding.span.start);
        findings
    }
}

/// Where `word`, which ends in a blank, stands in the text, in order: as a whole word, at least where it does.
/// Without tabs the blank itself is looked for, which leaves out many a word that only holds these letters.
fn places_of<'t>(word: &'t str, text: &'t str, plain: bool) -> impl Iterator<Item = usize> + 't {
    let bytes = text.as_bytes();
    let in_word = |byte: &u8| byte.is_ascii_alphanumeric() || matches!(byte, b'-' | b'_');
    let begins = move |at: &usize| !at.checked_sub(1).and_then(|at| bytes.get(at)).is_some_and(in_word);
    let sought = if plain { word } else { word.trim_end() };
    memchr::memmem::find_iter(bytes, sought.as_bytes()).filter(begins)
}
