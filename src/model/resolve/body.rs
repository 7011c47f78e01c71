//! Statements in order to sections, with each message before the step it guards.
use super::Resolver;
use super::labels::is_step;
use super::steps::blank;
use super::taken;
use crate::model::document::{Due, Section};
use crate::model::message::Message;
use crate::syntax::ast::{self, Head, Statement, Tree};
use crate::syntax::words::Place;
use crate::syntax::{Entry, Steps};

/// The body so far.
#[derive(Default)]
struct Body {
    sections: Vec<Section>,
    current: Section,
    /// Messages that wait for their step.
    pending: Vec<Message>,
    /// Named messages met so far.
    named: usize,
    number: u32,
    dues: Vec<Due>,
    /// Steps that the section can have, which are too large to be moved about.
    most_steps: usize,
}

impl Body {
    /// Ends the section: what still waits for a step in it guards nothing.
    fn close(&mut self, next: Section) {
        self.current.stranded = std::mem::take(&mut self.pending);
        let done = std::mem::replace(&mut self.current, next);
        let empty = done.title.is_none() && done.steps.is_empty() && done.stranded.is_empty();
        if !empty {
            self.sections.push(done);
        }
    }

    fn finish(mut self) -> (Vec<Section>, Vec<Due>) {
        self.close(Section::default());
        (self.sections, self.dues)
    }
}

/// Steps that are read ahead: some at a time, since the code that reads and the code that looks names up do not
/// fit into the nearest cache together.
#[derive(Default)]
struct Batch {
    read: [Statement; AT_A_TIME],
    /// Whether there was a statement.
    good: [bool; AT_A_TIME],
    filled: usize,
    next: usize,
}

const AT_A_TIME: usize = 16;

impl Batch {
    /// The step at the front of `order`, which waits; `None` where its lines make none.
    fn next(&mut self, order: &[Entry], steps: &mut Steps<'_>) -> Option<&mut Statement> {
        if self.next == self.filled {
            self.fill(order, steps);
        }
        let at = self.next;
        self.next += 1;
        let good = self.good.get(at).copied().unwrap_or(false);
        self.read.get_mut(at).filter(|_| good)
    }

    fn fill(&mut self, order: &[Entry], steps: &mut Steps<'_>) {
        // What is read already may stand between: the next of those that wait is the next that is asked for.
        let waiting = order.iter().filter_map(|entry| match entry {
            Entry::Waits(waiting) => Some(*waiting),
            Entry::Read => None,
        });
        (self.filled, self.next) = (0, 0);
        for ((waiting, statement), good) in waiting.zip(&mut self.read).zip(&mut self.good) {
            *good = steps.read(waiting, statement);
            self.filled += 1;
        }
    }
}

/// How many steps stand before the next section.
fn steps_to_come(order: &[Entry], read: &[Statement]) -> usize {
    let mut read = read.iter();
    let heads = order.iter().map(|entry| match entry {
        Entry::Read => read.next().map(|statement| &statement.head),
        Entry::Waits(_) => None,
    });
    let mine = heads.take_while(|head| !matches!(head, Some(Head::Section { .. })));
    mine.filter(|head| matches!(head, None | Some(Head::Step(_)))).count()
}

impl Resolver<'_> {
    pub(super) fn sections(
        &mut self,
        tree: &mut Tree,
        order: &[Entry],
        steps: &mut Steps<'_>,
        in_procedure: bool,
    ) -> (Vec<Section>, Vec<Due>) {
        let mut body = Body::default();
        let mut read = std::mem::take(&mut tree.statements).into_iter();
        body.most_steps = steps_to_come(order, read.as_slice());
        let mut early;
        let mut batch = Batch::default();
        for (at, entry) in order.iter().enumerate() {
            let statement = match entry {
                Entry::Read => {
                    early = read.next().unwrap_or_default();
                    &mut early
                }
                Entry::Waits(_) => {
                    let Some(late) = batch.next(order.get(at..).unwrap_or(&[]), steps) else { continue };
                    self.rescue_step(late);
                    late
                }
            };
            if matches!(statement.head, Head::Section { .. }) {
                body.most_steps = steps_to_come(order.get(at + 1..).unwrap_or(&[]), read.as_slice());
            }
            if in_procedure {
                self.statement(&mut body, statement);
            } else {
                self.catalogue_statement(statement);
            }
        }
        body.finish()
    }

    fn statement(&mut self, body: &mut Body, statement: &mut Statement) {
        match &statement.head {
            Head::Message(message) => {
                body.pending.push(self.message_at(message, body.named, statement));
                body.named += usize::from(message.name.is_some());
            }
            Head::Section { .. } => self.section(body, statement),
            Head::Step(actions) if is_step(actions) => self.numbered_step(body, statement),
            Head::Step(actions) => self.lone_due(body, actions, statement),
            Head::Unread => {
                // Perhaps the step they guard.
                body.pending.clear();
                if self.was_step(statement) {
                    body.number = body.number.saturating_add(1);
                }
            }
            Head::Use { .. } => self.block_details(statement),
            Head::Procedure { .. } | Head::Catalogue { .. } | Head::Block { .. } => {}
        }
    }

    fn section(&mut self, body: &mut Body, statement: &mut Statement) {
        let Head::Section { title } = &mut statement.head else { return };
        let title = Some(taken(title));
        let prose = statement.prose.take().map(|prose| self.prose(prose));
        let time = self.section_time(statement);
        body.close(Section { title, span: statement.span, prose, time, ..Section::default() });
    }

    fn numbered_step(&mut self, body: &mut Body, statement: &mut Statement) {
        body.number = body.number.saturating_add(1);
        if body.current.steps.is_empty() {
            body.current.steps = Vec::with_capacity(body.most_steps);
        }
        // Made and filled where it stays: a step is large.
        let steps = body.current.steps.len();
        body.current.steps.resize_with(steps + 1, || blank(body.number, statement));
        let Some(step) = body.current.steps.last_mut() else { return };
        self.fill_step(step, statement);
        if !body.pending.is_empty() {
            step.details.make().messages = std::mem::take(&mut body.pending);
        }
        body.dues.extend(step.dues.iter().cloned());
    }

    /// `due` on a line of its own is shown with the step before it.
    fn lone_due(&mut self, body: &mut Body, actions: &[ast::Action], statement: &Statement) {
        for action in actions {
            if let Some(due) = self.due(action) {
                let step = body.current.steps.last_mut();
                let before = step.or_else(|| body.sections.iter_mut().rev().find_map(|s| s.steps.last_mut()));
                if let Some(step) = before {
                    step.details.make().dues.push(due.clone());
                }
                body.dues.push(due);
            }
        }
        if let Some(prose) = &statement.prose {
            self.unusable(prose.span, "prose has no place under `due`");
        }
        for detail in &statement.details {
            self.common_detail(detail, statement, Place::Declaration);
        }
    }

    fn catalogue_statement(&mut self, statement: &Statement) {
        match &statement.head {
            Head::Step(_) => self.unusable(statement.span, "a catalogue holds no steps"),
            Head::Section { .. } => self.unusable(statement.span, "a catalogue holds no sections"),
            Head::Message(message) if message.name.is_none() => {
                self.unusable(
                    statement.span,
                    "a message of a catalogue needs a name, `as NAME`, to be called by",
                );
            }
            Head::Use { .. } => self.block_details(statement),
            _ => {}
        }
    }
}
