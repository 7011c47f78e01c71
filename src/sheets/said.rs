//! What several sheets of one document say alike, worded for the first of them.
use super::Context;
use crate::model::step::{ChoiceOption, Exception, Outcome};
use crate::model::{Action, Document, Settings};
use crate::source::WordMap;
use std::cell::RefCell;

/// The sentences of one document in one language, as markup.
pub struct Said<'a> {
    document: &'a Document,
    settings: &'a Settings,
    language: &'static str,
    /// By kind, and by where the part lies in the document, which does not move meanwhile.
    written: RefCell<WordMap<Place, Box<str>>>,
}

type Place = (u8, usize);

/// What makes a sentence of its own, written in one way for each kind.
#[derive(Clone, Copy)]
pub(super) enum Part<'a> {
    Action(&'a Action),
    Branch(Branch<'a>),
}

/// What may come of a step, or how it is done where.
#[derive(Clone, Copy)]
pub(super) enum Branch<'a> {
    Option(&'a ChoiceOption),
    Exception(&'a Exception),
    Outcome(&'a Outcome),
}

impl<'a> Said<'a> {
    /// For the sheets that are made of `document` in this context.
    pub fn of(document: &'a Document, context: &Context<'a>) -> Said<'a> {
        Said {
            document,
            settings: context.settings,
            language: context.words.language().tag(),
            written: RefCell::default(),
        }
    }

    /// Whether a sheet says the same.
    pub(super) fn serves(&self, document: &Document, context: &Context<'_>) -> bool {
        std::ptr::eq(self.document, document)
            && std::ptr::eq(self.settings, context.settings)
            && self.language == context.words.language().tag()
    }

    /// Writes a part; `write` does where it was not written yet.
    pub(super) fn once(&self, out: &mut String, part: Part<'_>, write: impl FnOnce(&mut String)) {
        let place = part.place();
        if let Some(written) = self.written.borrow().get(&place) {
            return out.push_str(written);
        }
        let from = out.len();
        write(out);
        self.written.borrow_mut().insert(place, out.get(from..).unwrap_or("").into());
    }
}

impl Part<'_> {
    fn place(self) -> Place {
        match self {
            Part::Action(it) => (0, std::ptr::from_ref(it).addr()),
            Part::Branch(Branch::Option(it)) => (1, std::ptr::from_ref(it).addr()),
            Part::Branch(Branch::Exception(it)) => (2, std::ptr::from_ref(it).addr()),
            Part::Branch(Branch::Outcome(it)) => (3, std::ptr::from_ref(it).addr()),
        }
    }
}
