//! Tables of steps that are done with, emptied to be filled again: steps are read one after another, and most are
//! alike.
use crate::syntax::ast::{Action, DetailValue, Head, Object, Phrase, PhraseKind, Statement};

/// Emptied tables of each kind.
#[derive(Debug, Default)]
pub struct Room {
    actions: Vec<Vec<Action>>,
    phrases: Vec<Vec<Phrase>>,
    objects: Vec<Vec<Object>>,
}

impl Room {
    pub(super) fn actions(&mut self) -> Vec<Action> {
        self.actions.pop().unwrap_or_else(|| Vec::with_capacity(2))
    }
    pub(super) fn phrases(&mut self) -> Vec<Phrase> {
        self.phrases.pop().unwrap_or_else(|| Vec::with_capacity(4))
    }
    pub(super) fn objects(&mut self) -> Vec<Object> {
        self.objects.pop().unwrap_or_else(|| Vec::with_capacity(4))
    }

    /// Empties the statement.
    pub fn take_back(&mut self, statement: &mut Statement) {
        if let Head::Step(actions) = std::mem::take(&mut statement.head) {
            self.take_actions(actions);
        }
        for detail in statement.details.drain(..) {
            if let DetailValue::Actions(actions) = detail.value {
                self.take_actions(actions);
            }
        }
        statement.prose = None;
    }

    fn take_actions(&mut self, mut actions: Vec<Action>) {
        // Emptied where they stand: they are large.
        for action in &mut actions {
            for phrase in &mut action.phrases {
                if let PhraseKind::Objects(objects) | PhraseKind::Tools(objects) = &mut phrase.kind {
                    objects.clear();
                    self.objects.push(std::mem::take(objects));
                }
            }
            action.phrases.clear();
            self.phrases.push(std::mem::take(&mut action.phrases));
        }
        actions.clear();
        self.actions.push(actions);
    }
}
