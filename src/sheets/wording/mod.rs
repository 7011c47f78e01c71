//! The sentences readers see, made from resolved actions. Every literal word stands in a language's own file here
//! or in its table of verbs; what the author wrote stays as it is.
mod control;
mod english;
mod french;
mod free_text;
mod german;
mod objects;
mod outcomes;
mod sentence;
mod spanish;
mod tightening;
mod tongue;
mod verbs;
mod work;
mod written;

pub use free_text::{phrase, reference, sentence, units_set};
pub use outcomes::{applies, condition, exception, option, outcome};
pub use sentence::{Run, Sentence};
pub use verbs::{known as known_verbs, template as verb_sentence};

use crate::model::quantity::{Figures, Quantity};
use crate::model::settings::Units;
use crate::model::{Action, Declarations, Document, Language, Step};
use std::cell::RefCell;
use std::collections::{HashMap, VecDeque};
use std::rc::Rc;
use tongue::Tongue;

/// What a sentence needs to know of the document around it. Built once a document.
#[derive(Debug)]
pub struct Cx<'a> {
    pub declarations: &'a Declarations,
    units: &'a Units,
    /// What the sentences are in, and what the author's words are in.
    tongue: &'static Tongue,
    written: &'static Tongue,
    /// The step that gives each label.
    labels: HashMap<&'a str, &'a Step>,
    /// Nouns that two declared things share, sorted; their full text tells them apart.
    shared_nouns: Vec<&'a str>,
    printed: Printed,
}

/// The last quantities that were printed: a torque is said in a sentence, in a table and beside a blank. Copies share them.
#[derive(Debug, Clone, Default)]
pub struct Printed(Rc<RefCell<VecDeque<(Quantity, String)>>>);

/// How many printed quantities are kept.
const MOST_KEPT: usize = 12;

impl<'a> Cx<'a> {
    /// For English sentences round English words.
    pub fn new(document: &'a Document, units: &'a Units) -> Cx<'a> {
        Cx::of(document, units, Language::English, Language::English)
    }

    /// For sentences in `language` round the words of an author who writes in `written_in`.
    pub fn of(document: &'a Document, units: &'a Units, language: Language, written_in: Language) -> Cx<'a> {
        let steps = document.procedure().into_iter().flat_map(|procedure| procedure.steps());
        let labels = steps.flat_map(|step| step.labels().map(move |label| (label.as_str(), step))).collect();
        let declarations = &document.declarations;
        let (tongue, written) = (Tongue::of(language), Tongue::of(written_in));
        Cx {
            declarations,
            units,
            tongue,
            written,
            labels,
            shared_nouns: shared_nouns(declarations),
            printed: Printed::default(),
        }
    }

    /// The same with quantities that were printed before: of the same document, in the same language and units.
    pub fn with_printed(self, printed: Printed) -> Cx<'a> {
        Cx { printed, ..self }
    }

    /// The number of the step that has the label.
    pub fn step_of(&self, label: &str) -> Option<u32> {
        self.labels.get(label).map(|step| step.number)
    }

    /// "8–10 N·m (71–88 lbf·in)", or the author's unit alone where the house wants that.
    pub fn quantity(&self, quantity: &Quantity) -> String {
        let mut printed = self.printed.0.borrow_mut();
        if let Some((_, text)) = printed.iter().find(|(known, _)| known.is_copy_of(quantity)) {
            return text.clone();
        }
        let text = match self.units.single {
            true => self.print(quantity),
            false => quantity.print_both_in(&self.units.second, self.figures()),
        };
        printed.truncate(MOST_KEPT - 1);
        printed.push_front((quantity.clone(), text.clone()));
        text
    }

    /// In the author's unit alone.
    pub fn print(&self, quantity: &Quantity) -> String {
        quantity.print_in(self.figures())
    }

    /// How numbers are written.
    pub fn figures(&self) -> &'static Figures {
        &self.tongue.figures
    }

    /// How the author writes numbers.
    pub fn written_figures(&self) -> &'static Figures {
        &self.written.figures
    }

    /// The language of the author's words, where it is not that of the sentences.
    pub fn own(&self) -> Option<&'static str> {
        (self.tongue.language != self.written.language).then(|| self.written.language.tag())
    }

    fn is_shared(&self, noun: &str) -> bool {
        self.shared_nouns.binary_search(&noun).is_ok()
    }
}

fn shared_nouns(declarations: &Declarations) -> Vec<&str> {
    let parts = declarations.parts.iter().map(|it| &it.thing);
    let tools = declarations.tools.iter().map(|it| &it.thing);
    let supplies = declarations.supplies.iter().map(|it| &it.thing);
    let things = parts.chain(tools).chain(supplies);
    let mut nouns: Vec<&str> = things.map(|thing| thing.noun.singular.as_str()).collect();
    nouns.sort_unstable();
    let shared = nouns.chunk_by(PartialEq::eq).filter(|same| same.len() > 1);
    shared.filter_map(|same| same.first().copied()).collect()
}

/// What one action reads like: one or more full sentences, with the passes of a staged tightening as a list.
pub fn action(action: &Action, cx: &Cx<'_>) -> Sentence {
    match action {
        Action::Work(it) => work::work(it, cx),
        _ => control::control(action, cx),
    }
}

/// All a step says: which machines and outcomes it is for, its actions, methods, exceptions and outcomes.
pub fn step(step: &Step, cx: &Cx<'_>) -> Vec<Sentence> {
    let limits = applies(&step.applies, cx).into_iter();
    let conditions = step.conditions.iter().map(|it| condition(it, cx));
    let actions = step.actions.iter().map(|it| action(it, cx));
    let options = step.options.iter().map(|it| option(it, cx));
    let exceptions = step.exceptions.iter().map(|it| exception(it, cx));
    let outcomes = step.outcomes.iter().map(|it| outcome(it, cx));
    limits.chain(conditions).chain(actions).chain(options).chain(exceptions).chain(outcomes).collect()
}
