//! Labels of steps: which step each leads to. They share one namespace with declared names.
use super::Resolver;
use crate::model::slip::Slip;
use crate::source::quotes::parted;
use crate::source::{Span, Text, WordMap};
use crate::syntax::Entry;
use crate::syntax::ast::{self, DetailValue, Head, PhraseKind, Statement, Tree};
use compact_str::CompactString;

/// Labels of the file, each with the number of its step and the place it is given at.
#[derive(Debug, Default)]
pub(super) struct Labels {
    by_name: WordMap<CompactString, (u32, Span)>,
}

impl Labels {
    pub(super) fn step(&self, label: &str) -> Option<u32> {
        self.by_name.get(label).map(|&(step, _)| step)
    }
    pub(super) fn names(&self) -> impl Iterator<Item = &str> {
        self.by_name.keys().map(|name| name.as_str())
    }
}

/// Whether the statement is a numbered step: a lone `due` is a note for later and takes no number.
pub(super) fn is_step(actions: &[ast::Action]) -> bool {
    !actions.iter().all(|action| action.verb.as_str() == "due")
}

impl Resolver<'_> {
    /// Numbers the steps and finds their labels. A step that waits to be read gives none.
    pub(super) fn collect_labels(&mut self, tree: &Tree, order: &[Entry]) {
        let mut number: u32 = 0;
        let mut read = tree.statements.iter();
        for entry in order {
            let statement = match entry {
                Entry::Read => read.next(),
                Entry::Waits(_) => None,
            };
            match statement.map(|statement| (statement, &statement.head)) {
                None => number = number.saturating_add(1),
                Some((statement, Head::Step(actions))) if is_step(actions) => {
                    number = number.saturating_add(1);
                    self.labels_of(statement, actions, number);
                }
                Some((statement, Head::Step(actions))) => self.labels_of(statement, actions, number.max(1)),
                Some((statement, Head::Unread)) => {
                    self.rescue_labels(statement, number.saturating_add(1));
                    if self.was_step(statement) {
                        number = number.saturating_add(1);
                    }
                }
                Some(_) => {}
            }
        }
    }

    fn labels_of(&mut self, statement: &Statement, actions: &[ast::Action], step: u32) {
        for action in actions {
            self.labels_of_action(action, step);
        }
        for detail in &statement.details {
            if let DetailValue::Actions(actions) = &detail.value {
                for action in actions {
                    self.labels_of_action(action, step);
                }
            }
        }
    }

    fn labels_of_action(&mut self, action: &ast::Action, step: u32) {
        if let Some(calculation) = &action.calculation {
            self.label(&calculation.name, step);
        }
        for phrase in &action.phrases {
            if let PhraseKind::Label(labels) = &phrase.kind {
                for label in labels {
                    self.label(label, step);
                }
            }
        }
    }

    fn label(&mut self, label: &Text, step: u32) {
        let taken = self.labels.by_name.get(label.as_str()).map(|&(_, span)| span);
        if let Some(first) = taken.or_else(|| self.declared_at(label.as_str())) {
            self.slip(Slip::DuplicateName { name: label.clone(), first });
        }
        self.labels.by_name.entry(label.value.clone()).or_insert((step, label.span));
    }

    /// A step that could not be read still gives its label, so that what leads to it is not a second fault.
    fn rescue_labels(&mut self, statement: &Statement, step: u32) {
        let line = self.source.slice(statement.span);
        let bare = parted(line).outside;
        let mut words = bare.split_whitespace();
        while let Some(word) = words.next() {
            if word == "as"
                && let Some(label) = words.next()
            {
                let label = label.trim_matches(|c: char| !c.is_alphanumeric()).into();
                self.labels.by_name.entry(label).or_insert((step, statement.span));
            }
        }
    }
}
