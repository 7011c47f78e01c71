//! Parts, tools, supplies, tightening lists and figures, with their facts typed.
use super::fastener::pattern::Layout;
use super::message::Message;
use super::noun::Noun;
use super::picture::{Fault, Picture};
use super::quantity::Quantity;
use super::torque::Torque;
use crate::source::{Span, Spanned, Text, WordMap};
use compact_str::CompactString;
use std::sync::Arc;

/// A declared thing. The number indexes the table of its kind in [`Declarations`].
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Name {
    Part(u32),
    Tool(u32),
    Supply(u32),
    Torque(u32),
    Figure(u32),
    /// A standing safety message.
    Message(u32),
}

/// Tables of all that is declared here or used from a catalogue, and the one map of names.
#[derive(Debug, Clone, Default)]
pub struct Declarations {
    pub parts: Vec<Part>,
    pub tools: Vec<Tool>,
    pub supplies: Vec<Supply>,
    pub torques: Vec<NamedTorque>,
    pub figures: Vec<Figure>,
    pub messages: Vec<Message>,
    /// Torque wrenches of the catalogues in use that no line names; looked up only where a step lacks a fitting one.
    pub other_wrenches: Vec<Tool>,
    pub names: WordMap<CompactString, Name>,
    /// A piece of a set (`first-bolt`) and the part it belongs to.
    pub pieces: WordMap<CompactString, u32>,
}

impl Declarations {
    pub fn find(&self, name: &str) -> Option<Name> {
        self.names.get(name).copied().or_else(|| self.pieces.get(name).map(|&part| Name::Part(part)))
    }
    pub fn part(&self, id: u32) -> Option<&Part> {
        self.parts.get(id as usize)
    }
    pub fn tool(&self, id: u32) -> Option<&Tool> {
        self.tools.get(id as usize)
    }
    pub fn supply(&self, id: u32) -> Option<&Supply> {
        self.supplies.get(id as usize)
    }
    /// The numbers that parts have in a figure, with the parts; rising.
    pub fn callouts(&self, figure: &Figure) -> impl Iterator<Item = (&Callout, &Part)> {
        let place = self.figures.iter().position(|it| std::ptr::eq(it, figure));
        let wanted = place.and_then(|place| u32::try_from(place).ok()).map(Name::Figure);
        let all = self.parts.iter().flat_map(|part| part.callouts.iter().map(move |callout| (callout, part)));
        let on = |callout: &Callout| callout.figure.map(|figure| figure.value);
        let mut found: Vec<_> =
            all.filter(|(callout, _)| wanted.is_some() && on(callout) == wanted).collect();
        found.sort_by_key(|(callout, _)| callout.number.value);
        found.into_iter()
    }
    /// What the sheets call it.
    pub fn noun(&self, name: Name) -> Option<&Noun> {
        match name {
            Name::Part(id) => self.part(id).map(|it| &it.thing.noun),
            Name::Tool(id) => self.tool(id).map(|it| &it.thing.noun),
            Name::Supply(id) => self.supply(id).map(|it| &it.thing.noun),
            _ => None,
        }
    }
    /// What every declared thing has, whichever its kind; none for a standing message.
    pub fn thing(&self, name: Name) -> Option<&Thing> {
        match name {
            Name::Part(id) => self.part(id).map(|it| &it.thing),
            Name::Tool(id) => self.tool(id).map(|it| &it.thing),
            Name::Supply(id) => self.supply(id).map(|it| &it.thing),
            Name::Torque(id) => self.torques.get(id as usize).map(|it| &it.thing),
            Name::Figure(id) => self.figures.get(id as usize).map(|it| &it.thing),
            Name::Message(_) => None,
        }
    }
}

/// What all declared things share.
#[derive(Debug, Clone, PartialEq)]
pub struct Thing {
    /// The identifier.
    pub name: Text,
    /// The text readers see in lists.
    pub text: Text,
    pub noun: Noun,
    /// Part or stock number.
    pub number: Option<Text>,
    /// The whole declaration line.
    pub span: Span,
    /// Comes from a catalogue: it need not be used here.
    pub from_catalogue: bool,
    pub times_used: u32,
}

#[derive(Debug, Clone, PartialEq)]
pub struct Part {
    pub thing: Thing,
    /// How many; 1 where not said.
    pub count: u32,
    pub pieces: Vec<Text>,
    pub single_use: Option<Span>,
    pub reuse_if: Option<Text>,
    pub sided: Option<Span>,
    pub matched: Vec<Spanned<Name>>,
    pub set_with: Vec<Spanned<Name>>,
    pub looks_like: Vec<LooksLike>,
    pub never: Vec<Spanned<Name>>,
    /// The part that was fitted before it, or that it is fitted for now.
    pub in_place_of: Option<Spanned<Name>>,
    pub holds: Vec<Spanned<Name>>,
    /// The part that this pin, tab or wire locks.
    pub locks: Vec<Spanned<Name>>,
    pub made_from: Option<Spanned<Name>>,
    pub applies: Applies,
    pub starts_off: bool,
    pub stays_off: bool,
    pub thread: Option<Thread>,
    /// `class 10.9` or `grade 5`, as written.
    pub strength: Option<Strength>,
    pub condition: Option<Spanned<Condition>>,
    pub torque: Option<Torque>,
    /// How its pieces lie to each other.
    pub layout: Option<Spanned<Layout>>,
    pub facts: Facts,
    pub callouts: Vec<Callout>,
}

/// Which machines have it, or which a step is for. Empty `models`, no serials, not `if_fitted`: all.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Applies {
    pub models: Vec<Text>,
    /// `300000 and up`, as written.
    pub serials: Option<Text>,
    pub if_fitted: Option<Span>,
}

impl Applies {
    pub const ALL: Applies = Applies { models: Vec::new(), serials: None, if_fitted: None };

    pub fn to_all(&self) -> bool {
        self.models.is_empty() && self.serials.is_none() && self.if_fitted.is_none()
    }
    pub fn to_model(&self, model: &str) -> bool {
        self.models.is_empty() || self.models.iter().any(|m| m.value == model)
    }
}

#[derive(Debug, Clone, PartialEq)]
pub struct LooksLike {
    pub other: Spanned<Name>,
    /// What tells it from the other.
    pub by: Option<Text>,
}

#[derive(Debug, Clone, PartialEq)]
pub struct Thread {
    /// `M10x1.25`, `3/8-16`, `#10-24`.
    pub designation: Text,
    /// `UNC`, `UNF`.
    pub series: Option<Text>,
}

#[derive(Debug, Clone, PartialEq)]
pub struct Strength {
    pub system: StrengthSystem,
    pub value: Text,
}

#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum StrengthSystem {
    /// ISO 898-1 property class, ISO 3506 stainless.
    Class,
    /// SAE J429 grade.
    Grade,
}

#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Condition {
    Dry,
    Oiled,
    Plated,
}

/// Physical facts from which hazards follow.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Facts {
    pub spring_loaded: Option<Span>,
    pub pressed: Option<Span>,
    pub sharp: Option<Span>,
    pub rotating: Option<Span>,
    pub pressurised: Option<Quantity>,
    pub hot: Option<Quantity>,
    pub live: Option<Quantity>,
    pub mass: Option<Quantity>,
    pub contains: Option<Text>,
}

#[derive(Debug, Clone, PartialEq)]
pub struct Callout {
    pub number: Spanned<u32>,
    pub figure: Option<Spanned<Name>>,
}

#[derive(Debug, Clone, PartialEq)]
pub struct Tool {
    pub thing: Thing,
    pub count: u32,
    /// A torque range makes it a torque wrench.
    pub range: Option<Quantity>,
    /// From the drive's centre to the grip's.
    pub length: Option<Quantity>,
    /// An adapter's offset.
    pub adapter: Option<Quantity>,
    pub capacity: Option<Quantity>,
    /// Left in place during the work; must come out again.
    pub temporary: Option<Span>,
}

#[derive(Debug, Clone, PartialEq)]
pub struct Supply {
    pub thing: Thing,
    /// GHS hazard codes.
    pub hazards: Vec<Text>,
    pub cure: Option<Cure>,
    pub thread_locker: Option<Span>,
    pub lubricant: Option<Span>,
    pub needs_clean: Option<Span>,
    pub needs_dry: Option<Span>,
}

/// `cure 24 h at 22 degC`.
#[derive(Debug, Clone, PartialEq)]
pub struct Cure {
    pub time: Quantity,
    pub at: Option<Quantity>,
}

#[derive(Debug, Clone, PartialEq)]
pub struct NamedTorque {
    pub thing: Thing,
    pub torque: Torque,
}

#[derive(Debug, Clone, PartialEq)]
pub struct Figure {
    pub thing: Thing,
    /// None: it is found elsewhere, as in the manual.
    pub illustration: Option<Illustration>,
    /// What the picture shows, for those who do not see it.
    pub alt: Option<Text>,
}

/// The picture of a figure, as far as it could be had.
#[derive(Debug, Clone, PartialEq)]
pub struct Illustration {
    /// As written.
    pub path: Text,
    pub picture: Result<Arc<Picture>, Fault>,
}

impl Figure {
    /// The picture, where there is one that can be shown.
    pub fn picture(&self) -> Option<&Picture> {
        self.illustration.as_ref().and_then(|it| it.picture.as_deref().ok())
    }
}
