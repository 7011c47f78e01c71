//! What several sheets of one document say alike, worded for the first of them.
use super::drawing::Drawn;
use super::wording::Printed;
use super::{Context, Sheet};
use crate::model::step::{ChoiceOption, Exception, Outcome};
use crate::model::{Action, Document, Procedure, Settings};
use crate::source::WordMap;
use std::cell::RefCell;

/// The sentences of one document in one language, as markup.
pub struct Said<'a> {
    document: &'a Document,
    settings: &'a Settings,
    language: &'static str,
    /// By kind, and by where the part lies in the document, which does not move meanwhile.
    written: RefCell<WordMap<Place, Box<str>>>,
    printed: Printed,
    drawn: Drawn,
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
            written: RefCell::new(WordMap::with_capacity_and_hasher(actions(document), Default::default())),
            printed: Printed::default(),
            drawn: Drawn::default(),
        }
    }

    /// Whether a sheet says the same.
    pub(super) fn serves(&self, document: &Document, context: &Context<'_>) -> bool {
        std::ptr::eq(self.document, document)
            && std::ptr::eq(self.settings, context.settings)
            && self.language == context.words.language().tag()
    }

    /// Lets the sheet print and draw what others did before.
    pub(super) fn share(&'a self, sheet: Sheet<'a>) -> Sheet<'a> {
        let words = sheet.words.with_printed(self.printed.clone());
        Sheet { said: Some(self), words, drawn: self.drawn.clone(), ..sheet }
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

/// About as many as there are, so that the table need not grow.
fn actions(document: &Document) -> usize {
    let steps = document.procedure().into_iter().flat_map(Procedure::steps);
    steps.map(|step| step.actions.len() + step.outcomes.len()).sum()
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
