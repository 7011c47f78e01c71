//! What a step does: work named by a verb of the table, and the few actions that steer.
use super::declarations::Name;
use super::document::Call;
use super::quantity::{Number, Quantity};
use super::rare::{Rare, Seldom};
use super::torque::Torque;
use super::verb::{Effect, Verb};
use crate::source::{Span, Spanned, Text};
use smallvec::SmallVec;
use std::ops::Deref;

/// Mostly one, which then needs no table of its own.
pub type Actions = SmallVec<[Action; 1]>;

/// Mostly one, which then needs no table of its own.
pub type Objects = SmallVec<[Object; 1]>;

#[derive(Debug, Clone, PartialEq)]
pub enum Action {
    Work(Box<Work>),
    Hold(Box<Hold>),
    Wait(Box<Wait>),
    Follow(Box<Follow>),
    /// Steps from a label on, again.
    Repeat(Box<Repeat>),
    Choose(Box<Choose>),
    Calculate(Box<Calculate>),
    Stop(Box<Stop>),
    Skip(Box<Skip>),
    Report(Box<Report>),
}

/// Nobody passes without that signature.
#[derive(Debug, Clone, PartialEq)]
pub struct Hold {
    pub role: Text,
    pub statement: Option<Text>,
    pub labels: Vec<Text>,
    pub span: Span,
}

/// Nothing is done for a time, or until something is seen.
#[derive(Debug, Clone, PartialEq)]
pub struct Wait {
    pub time: Option<Quantity>,
    pub until: Option<Text>,
    pub labels: Vec<Text>,
    pub span: Span,
}

/// Another procedure is worked here.
#[derive(Debug, Clone, PartialEq)]
pub struct Follow {
    pub call: Call,
    pub labels: Vec<Text>,
    pub span: Span,
}

/// One of several methods; the step's options follow.
#[derive(Debug, Clone, PartialEq)]
pub struct Choose {
    pub question: Text,
    pub labels: Vec<Text>,
    pub span: Span,
}

/// The work ends here.
#[derive(Debug, Clone, PartialEq)]
pub struct Stop {
    pub why: Option<Text>,
    pub span: Span,
}

/// Goes on at another step.
#[derive(Debug, Clone, PartialEq)]
pub struct Skip {
    pub to: Jump,
    pub span: Span,
}

/// Somebody is told.
#[derive(Debug, Clone, PartialEq)]
pub struct Report {
    pub role: Text,
    pub what: Option<Text>,
    pub span: Span,
}

impl Action {
    pub fn span(&self) -> Span {
        match self {
            Action::Work(it) => it.span,
            Action::Hold(it) => it.span,
            Action::Wait(it) => it.span,
            Action::Follow(it) => it.span,
            Action::Repeat(it) => it.span,
            Action::Choose(it) => it.span,
            Action::Calculate(it) => it.span,
            Action::Stop(it) => it.span,
            Action::Skip(it) => it.span,
            Action::Report(it) => it.span,
        }
    }

    pub fn labels(&self) -> impl Iterator<Item = &Text> {
        let labels: &[Text] = match self {
            Action::Work(it) => &it.labels,
            Action::Hold(it) => &it.labels,
            Action::Wait(it) => &it.labels,
            Action::Follow(it) => &it.labels,
            Action::Choose(it) => &it.labels,
            Action::Repeat(it) => &it.labels,
            Action::Calculate(it) => std::slice::from_ref(&it.name),
            Action::Stop(_) | Action::Skip(_) | Action::Report(_) => &[],
        };
        labels.iter()
    }

    pub fn work(&self) -> Option<&Work> {
        match self {
            Action::Work(work) => Some(work),
            _ => None,
        }
    }
}

/// A verb with its objects, places and tools. It reads as if its [`Extras`] were its own fields.
#[derive(Debug, Clone, PartialEq)]
pub struct Work {
    pub verb: &'static Verb,
    pub verb_span: Span,
    pub span: Span,
    pub objects: Objects,
    pub places: Vec<Place>,
    pub tools: Vec<Object>,
    pub supplies: Vec<Object>,
    /// A bare quantity: a limit where the verb measures, an amount elsewhere.
    pub quantity: Option<Quantity>,
    /// What is looked at or measured, for verbs that find out something; else a remark.
    pub what: Option<Box<Text>>,
    pub times: Option<Times>,
    pub extras: Rare<Extras>,
}

/// What little work has besides its objects.
#[derive(Debug, Clone, PartialEq)]
pub struct Extras {
    pub facing: Option<Text>,
    pub until: Option<Text>,
    pub during: Option<Text>,
    /// `for 10 min`.
    pub lasting: Option<Quantity>,
    /// `by 1/2 turn`.
    pub by: Option<Quantity>,
    /// The author's own sentence in place of the generated one.
    pub sentence: Option<Text>,
    /// The torque in force where the verb tightens: the step's own, the list it calls, or its part's.
    pub torque: Option<Torque>,
    /// The torques of further parts of the line that state one of their own: the object's place and the torque.
    pub other_torques: Vec<(usize, Torque)>,
    /// Where the torque in force was written.
    pub torque_source: TorqueSource,
    pub exceptions: Vec<TorqueException>,
    /// `at 90 deg`: how an adapter stands to its wrench, 0° being straight on.
    pub adapter_angle: Option<Quantity>,
    pub labels: Vec<Text>,
}

impl Extras {
    const NONE: Extras = Extras {
        facing: None,
        until: None,
        during: None,
        lasting: None,
        by: None,
        sentence: None,
        torque: None,
        other_torques: Vec::new(),
        torque_source: TorqueSource::None,
        exceptions: Vec::new(),
        adapter_angle: None,
        labels: Vec::new(),
    };
}

impl Default for Extras {
    fn default() -> Extras {
        Extras::NONE
    }
}

impl Seldom for Extras {
    fn none() -> &'static Extras {
        static NONE: Extras = Extras::NONE;
        &NONE
    }
}

impl Deref for Work {
    type Target = Extras;
    fn deref(&self) -> &Extras {
        &self.extras
    }
}

impl Work {
    /// Its objects that are parts go on the machine.
    pub fn fits(&self) -> bool {
        self.verb.does(Effect::Fits) || self.verb.does(Effect::ByPlace) && self.leads_off() == Some(false)
    }

    /// Its objects that are parts come off the machine.
    pub fn takes_off(&self) -> bool {
        self.verb.does(Effect::TakesOff) || self.verb.does(Effect::ByPlace) && self.leads_off() == Some(true)
    }

    /// Whether the first place is one to leave; `None` without a place.
    fn leads_off(&self) -> Option<bool> {
        let place = self.places.first()?;
        Some(["off", "out of", "from"].contains(&place.preposition.as_str()))
    }
}

#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum TorqueSource {
    #[default]
    None,
    Step,
    Named(u32),
    Part(u32),
}

/// `except stage 3 270 ft-lb on second-bolt`.
#[derive(Debug, Clone, PartialEq)]
pub struct TorqueException {
    pub stage: Spanned<u32>,
    pub value: Quantity,
    pub on: Option<Text>,
}

#[derive(Debug, Clone, PartialEq)]
pub struct Object {
    /// What it is; `None` where the name is not declared (the slip is made).
    pub name: Option<Name>,
    /// As written; a piece of a set keeps its own name here.
    pub word: Text,
    pub marks: Rare<Marks>,
}

/// What may stand before a name. An object reads as if they were its own fields.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Marks {
    pub new: Option<Span>,
    pub each: bool,
    /// `3 of`; `None`: all there are.
    pub count: Option<u32>,
}

impl Seldom for Marks {
    fn none() -> &'static Marks {
        static NONE: Marks = Marks { new: None, each: false, count: None };
        &NONE
    }
}

impl Deref for Object {
    type Target = Marks;
    fn deref(&self) -> &Marks {
        &self.marks
    }
}

#[derive(Debug, Clone, PartialEq)]
pub struct Place {
    /// `on`, `into`, `out of` …
    pub preposition: Text,
    pub what: PlaceTarget,
}

#[derive(Debug, Clone, PartialEq)]
pub enum PlaceTarget {
    Objects(Objects),
    Quantity(Quantity),
    Text(Text),
}

#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Times {
    pub count: u32,
    pub at_most: bool,
}

/// A place in the procedure named by a label.
#[derive(Debug, Clone, PartialEq)]
pub struct Jump {
    pub label: Text,
    /// `None` where no step has that label (the slip is made).
    pub step: Option<u32>,
}

#[derive(Debug, Clone, PartialEq)]
pub struct Repeat {
    pub from: Jump,
    pub to: Option<Jump>,
    /// `for rear-left, front-right`.
    pub for_each: Vec<Text>,
    pub until: Option<Text>,
    pub times: Option<Times>,
    pub labels: Vec<Text>,
    pub span: Span,
}

/// `calculate shim = depth - height + 0.05 mm, 0.20 to 0.60 mm`.
#[derive(Debug, Clone, PartialEq)]
pub struct Calculate {
    pub name: Text,
    pub expression: Expression,
    pub limits: Option<Quantity>,
    pub text: Option<Text>,
    pub span: Span,
}

#[derive(Debug, Clone, PartialEq)]
pub enum Expression {
    Quantity(Quantity),
    /// A bare number, to multiply or divide by.
    Number(Number),
    /// An earlier reading, and the step that takes it.
    Reading {
        label: Text,
        step: Option<u32>,
    },
    Binary {
        operator: char,
        left: Box<Expression>,
        right: Box<Expression>,
    },
}

/// `bearing-check failed`: an earlier finding came out so.
#[derive(Debug, Clone, PartialEq)]
pub struct Condition {
    pub label: Text,
    pub step: Option<u32>,
    /// `failed`, `ok`, `below`, `above`, or an outcome's own words.
    pub state: String,
    pub span: Span,
}
