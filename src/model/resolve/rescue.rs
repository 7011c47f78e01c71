//! What lines that could not be read still tell: one broken line is one finding, so the names it declares stay
//! known, the labels it gives can be led to, and what it names counts as used.
use super::{Resolver, misspelt};
use crate::source::Span;
use crate::syntax::ast::{Declaration, Detail, DetailValue, Head, Statement, Tree};
use std::collections::HashSet;

/// Lines that could not be read.
#[derive(Debug, Clone, Copy)]
pub(super) struct Lost {
    lines: Span,
    /// Each may declare what it begins with. A step declares nothing but its label.
    declares: bool,
}

impl Resolver<'_> {
    /// Counts as used what broken lines name, and notes a broken `use`.
    pub(super) fn rescue(&mut self, tree: &Tree) {
        for statement in &tree.statements {
            if matches!(statement.head, Head::Unread) {
                self.incomplete |= self.source.slice(statement.span).trim_start().starts_with("use");
                continue;
            }
            self.touch_unread(&statement.details);
            if let Head::Block { declarations, .. } = &statement.head {
                for declaration in declarations {
                    self.touch_unread(&declaration.details);
                }
            }
        }
        for at in 0..self.lost_lines.len() {
            if let Some(lost) = self.lost_lines.get(at).copied() {
                self.touch_words(lost.lines);
            }
        }
    }

    /// The same for a step that was read late.
    pub(super) fn rescue_step(&mut self, statement: &Statement) {
        if matches!(statement.head, Head::Unread) {
            self.touch_words(statement.extent);
        } else {
            self.touch_unread(&statement.details);
        }
    }

    /// Whether a statement that could not be read was a step, which keeps its number.
    pub(super) fn was_step(&self, statement: &Statement) -> bool {
        let keyword = self.source.slice(statement.span).split_whitespace().next().unwrap_or("");
        !matches!(keyword, "due" | "part") && misspelt::is_verb(keyword, self.around.settings)
    }

    fn touch_unread(&mut self, details: &[Detail]) {
        for detail in details.iter().filter(|detail| matches!(detail.value, DetailValue::Unread)) {
            self.touch_words(detail.span);
        }
    }

    fn touch_words(&mut self, span: Span) {
        let source = self.source;
        for word in words(source.slice(span)) {
            if let Some(name) = self.declarations.find(word) {
                self.touch(name);
            }
        }
    }

    /// Whether a line that could not be read seems to declare the name.
    pub(super) fn is_lost(&mut self, name: &str) -> bool {
        if self.lost.is_none() {
            self.lost = Some(self.lost_names());
        }
        self.lost.as_ref().is_some_and(|lost| lost.contains(name))
    }

    fn lost_names(&self) -> HashSet<String> {
        let mut lost = HashSet::new();
        for Lost { lines, declares } in &self.lost_lines {
            for line in self.source.slice(*lines).lines() {
                let mut found = words(line).map(str::to_owned);
                lost.extend(found.next().filter(|_| *declares));
                // Pieces and labels.
                lost.extend(found.skip_while(|word| word != "as").skip(1));
            }
        }
        lost
    }

    /// Statements that were not read, with all that is under them, and such lines of blocks.
    pub(super) fn lines_not_read(&self, tree: &Tree) -> Vec<Lost> {
        let mut found = Vec::new();
        for statement in &tree.statements {
            match &statement.head {
                Head::Unread => {
                    found.push(Lost { lines: statement.extent, declares: !self.was_step(statement) });
                }
                Head::Block { declarations, .. } => {
                    self.lines_of_block(statement.extent, declarations, &mut found);
                }
                _ => {}
            }
        }
        found
    }

    /// Lines of a block that look like declarations and gave none.
    fn lines_of_block(&self, extent: Span, declarations: &[Declaration], found: &mut Vec<Lost>) {
        let declares = |start: usize| {
            declarations.binary_search_by_key(&start, |known| known.name.span.start as usize).is_ok()
        };
        let (mut level, mut at) = (None, extent.start as usize);
        for line in self.source.slice(extent).split_inclusive('\n') {
            let text = line.trim();
            let indent = line.len() - line.trim_start().len();
            let start = at + indent;
            at += line.len();
            if indent == 0 || text.is_empty() || text.starts_with('#') {
                continue;
            }
            let columns = columns(line.get(..indent).unwrap_or(""));
            if columns == *level.get_or_insert(columns) && !declares(start) {
                let lines = Span::new(extent.file, start, start + text.len());
                found.push(Lost { lines, declares: true });
            }
        }
    }
}

/// The width of an indentation; a tab goes on to the next multiple of four.
fn columns(blank: &str) -> usize {
    blank.chars().fold(0, |width, c| if c == '\t' { width / 4 * 4 + 4 } else { width + 1 })
}

/// Names outside quotes.
fn words(text: &str) -> impl Iterator<Item = &str> {
    let bare = text.split(['"', '“', '”']).step_by(2);
    let apart = |c: char| !(c.is_ascii_alphanumeric() || matches!(c, '-' | '_'));
    bare.flat_map(move |part| part.split(apart)).filter(|word| !word.is_empty())
}
