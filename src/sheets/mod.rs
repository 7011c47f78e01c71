//! What people work from: pure functions from a document to the text of a page.
//!
//! A page is one file: its style and drawings stand in it, and it loads nothing. Only the bench page holds a script.
pub mod assessment;
pub mod bench;
pub mod changes;
pub mod checklist;
pub mod exchange;
pub mod handout;
pub mod index;
pub mod instructor;
pub mod kit;
pub mod language;
pub mod machine;
pub mod wording;

mod blanks;
mod clock;
mod drawing;
mod figures;
mod fitted;
mod html;
mod lay_out;
mod look_alikes;
mod panel;
#[cfg(feature = "pdf")]
pub mod pdf;
mod paper;
mod prose;
mod said;
mod sentences;
mod signs;
mod since;
mod sketch;
mod tags;
mod templates;
mod title;
mod torques;
mod warnings;
mod withhold;

pub use said::Said;
pub use since::Since;
pub use withhold::Withhold;

use crate::model::action::Work;
use crate::model::document::Section;
use crate::model::message::Message;
use crate::model::quantity::Quantity;
use crate::model::tightening::{self, Tightening};
use crate::model::{Action, Declarations, Document, Procedure, Register, Settings};
use language::{Argument, Words};

/// What a sheet needs to know besides its document.
#[derive(Clone, Copy)]
pub struct Context<'a> {
    pub settings: &'a Settings,
    /// Which procedures have a page, so that calls of them can be links.
    pub register: &'a dyn Linked,
    /// What the sheet is printed in.
    pub words: &'static Words,
    /// Printed as given; none leaves the place out, so that a build is repeatable to the byte.
    pub date: Option<&'a str>,
    /// What gets a mark in the margin; none: nothing does.
    pub since: Option<&'a Since>,
    /// Where several sheets are made of one document, what they say alike; none: each is worded for itself.
    pub said: Option<&'a Said<'a>>,
}

impl<'a> Context<'a> {
    /// What every sheet needs, and nothing else.
    pub fn new(settings: &'a Settings, register: &'a dyn Linked, words: &'static Words) -> Context<'a> {
        Context { settings, register, words, date: None, since: None, said: None }
    }

    /// The language of the authors' words, as a BCP 47 tag, where it is not that of the sheet.
    fn own(&self) -> Option<&'static str> {
        let written_in = self.settings.written_in;
        (written_in != self.words.language()).then(|| written_in.tag())
    }
}

/// What tells whether a call can be a link.
pub trait Linked {
    /// Whether the procedure of that number has a bench sheet beside this one.
    fn has_page(&self, number: &str) -> bool;
}

/// Every procedure of the workspace, where all of them have sheets.
impl Linked for Register {
    fn has_page(&self, number: &str) -> bool {
        !self.find(number).is_empty()
    }
}

/// Why a sheet could not be made.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum SheetError {
    /// Catalogues have no sheets.
    NotAProcedure,
    /// The page's template failed; the text is the template engine's.
    Template(String),
    /// A page cannot be drawn as PDF; the text says why.
    Pdf(String),
}

impl std::fmt::Display for SheetError {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        match self {
            SheetError::NotAProcedure => f.write_str("only a procedure has sheets"),
            SheetError::Template(text) => write!(f, "a page's template failed: {text}"),
            SheetError::Pdf(text) => write!(f, "a page cannot be drawn as PDF: {text}"),
        }
    }
}

impl std::error::Error for SheetError {}

/// Whom a page of steps is for.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
enum Edition {
    #[default]
    Bench,
    Instructor,
    /// For learners, with blanks.
    Handout,
    /// What the blanks stand for.
    Answers,
}

/// One procedure on its way to paper: what every part of a page reads.
struct Sheet<'a> {
    procedure: &'a Procedure,
    declarations: &'a Declarations,
    context: &'a Context<'a>,
    words: wording::Cx<'a>,
    edition: Edition,
    withhold: Withhold,
    /// Numbers that the author's own words may not give away.
    numbers: withhold::Numbers,
    figures: figures::Places,
    /// In the order of the steps.
    tightenings: Vec<Tightening<'a>>,
    drawn: drawing::Drawn,
    said: Option<&'a Said<'a>>,
}

impl<'a> Sheet<'a> {
    fn of(document: &'a Document, context: &'a Context<'a>) -> Result<Sheet<'a>, SheetError> {
        let procedure = document.procedure().ok_or(SheetError::NotAProcedure)?;
        let words = {
            let Settings { units, written_in, .. } = context.settings;
            wording::Cx::of(document, units, context.words.language(), *written_in)
        };
        let declarations = &document.declarations;
        let works = procedure.steps().flat_map(|step| &step.actions).filter_map(Action::work);
        let tightenings = tightening::of(works, declarations);
        let sheet = Sheet {
            procedure,
            declarations,
            context,
            words,
            edition: Edition::default(),
            withhold: Withhold::default(),
            numbers: withhold::Numbers::default(),
            figures: figures::Places::of(procedure, declarations),
            tightenings,
            drawn: drawing::Drawn::default(),
            said: None,
        };
        Ok(match context.said.filter(|said| said.serves(document, context)) {
            Some(said) => said.share(sheet),
            None => sheet,
        })
    }

    /// What this action tightens.
    fn tightenings_of<'s>(&'s self, work: &'s Work) -> impl Iterator<Item = &'s Tightening<'a>> {
        let from = self.tightenings.partition_point(|it| it.work.span.start < work.span.start);
        self.tightenings.iter().skip(from).take_while(move |it| std::ptr::eq(it.work, work))
    }

    /// A label of the sheet's language.
    fn label(&self, key: &'static str) -> &'static str {
        self.context.words.label(key)
    }

    /// A phrase of the sheet's language, with its arguments in it.
    fn say(&self, key: &'static str, arguments: &[(&str, Argument<'_>)]) -> String {
        self.context.words.say(key, arguments)
    }

    /// Words of the author's as markup.
    fn own(&self, text: &str) -> String {
        html::authored(self.context.own(), text)
    }

    /// Whom it is for in words; empty for the bench.
    fn edition(&self) -> &'static str {
        match self.edition {
            Edition::Bench => "",
            Edition::Instructor => self.label("instructors-edition"),
            Edition::Handout => self.label("handout-edition"),
            Edition::Answers => self.label("answers-edition"),
        }
    }

    /// The checklist that belongs to it.
    fn checklist(&self) -> &'static str {
        if self.edition == Edition::Handout { "handout-checklist.html" } else { "checklist.html" }
    }

    /// The sections that have a heading on the page, each with its number from 1.
    fn headed_sections(&self) -> impl Iterator<Item = (usize, &'a Section)> + use<'a> {
        let says = |section: &&Section| {
            let empty = section.steps.is_empty() && section.stranded.is_empty();
            !empty || section.title.is_some() || section.prose.is_some()
        };
        (1..).zip(self.opening().1.iter().filter(says))
    }

    fn settings(&self) -> &'a Settings {
        self.context.settings
    }

    /// Messages on the whole procedure, above its first `section`, if there are any; and the sections proper.
    fn opening(&self) -> (Option<&'a [Message]>, &'a [Section]) {
        match self.procedure.sections.as_slice() {
            [first, rest @ ..] if first.title.is_none() && first.steps.is_empty() => {
                (Some(first.stranded.as_slice()).filter(|messages| !messages.is_empty()), rest)
            }
            all => (None, all),
        }
    }

    /// In the author's unit, with the second beside it unless the house wants one alone.
    fn quantity(&self, quantity: &Quantity) -> String {
        self.words.quantity(quantity)
    }
}
