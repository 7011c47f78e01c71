//! One resolved file: a procedure or a catalogue.
use super::declarations::Declarations;
use super::hazard::Hazard;
use super::message::{Message, Signal};
use super::prose::Prose;
use super::quantity::Quantity;
use super::slip::Slip;
use super::step::Step;
use crate::source::{FileId, Span, Text};
use std::sync::Arc;

/// One file, resolved as far as it could be.
#[derive(Debug, Clone)]
pub struct Document {
    pub file: FileId,
    /// What the file declares, and what it uses of the catalogues it names.
    pub declarations: Declarations,
    pub body: Body,
    /// What could not be resolved, in source order.
    pub slips: Vec<Slip>,
    /// `waive:` of the header, then those of statements.
    pub waivers: Vec<Waiver>,
    /// `parts none` and the like: which blocks were declared empty or not, with the place of the block.
    pub blocks: Vec<Block>,
    /// The standing messages that a call would find: its own and those of its catalogues, with a known class each.
    pub standing: Vec<Standing>,
    /// The file's own text, then those of the catalogues it draws on.
    pub texts: Vec<Arc<str>>,
}

/// What a standing message can be called by, and for what.
#[derive(Debug, Clone)]
pub struct Standing {
    pub signal: Signal,
    pub hazard: &'static Hazard,
    pub name: Text,
}

impl Document {
    pub fn procedure(&self) -> Option<&Procedure> {
        match &self.body {
            Body::Procedure(procedure) => Some(procedure),
            Body::Catalogue { .. } | Body::Unknown => None,
        }
    }
}

#[derive(Debug, Clone)]
pub enum Body {
    Procedure(Box<Procedure>),
    Catalogue {
        title: Text,
    },
    /// The file says neither; the finding is made.
    Unknown,
}

#[derive(Debug, Clone)]
pub struct Procedure {
    pub number: Text,
    pub title: Text,
    /// The `procedure` line.
    pub span: Span,
    pub header: Header,
    pub sections: Vec<Section>,
    /// Every `due` of the procedure, in order.
    pub dues: Vec<Due>,
}

impl Procedure {
    /// Every step in order.
    pub fn steps(&self) -> impl Iterator<Item = &Step> + Clone {
        self.sections.iter().flat_map(|section| &section.steps)
    }

    /// The step numbered `number` (from 1).
    pub fn step(&self, number: u32) -> Option<&Step> {
        self.steps().find(|step| step.number == number)
    }

    /// Every message that stands in the procedure, with the step it stands before (none: it guards nothing).
    pub fn messages(&self) -> impl Iterator<Item = (&Message, Option<&Step>)> {
        self.sections.iter().flat_map(|section| {
            let guarding =
                section.steps.iter().flat_map(|step| step.messages.iter().map(move |m| (m, Some(step))));
            guarding.chain(section.stranded.iter().map(|m| (m, None)))
        })
    }
}

/// `None` where the author was silent; an empty list or text where `none` was written.
#[derive(Debug, Clone, Default)]
pub struct Header {
    pub revision: Option<Text>,
    pub equipment: Option<Text>,
    pub models: Option<Vec<Text>>,
    pub serials: Option<Text>,
    pub sources: Option<Vec<Text>>,
    pub time: Option<Quantity>,
    pub people: Option<Prose>,
    pub outcome: Option<Prose>,
    pub requires: Option<Vec<Call>>,
    pub afterwards: Option<Vec<Call>>,
    pub leaves: Option<Vec<Text>>,
    pub approved: Option<Text>,
    /// Fields that were written but could not be read; the slip or finding is made.
    pub faulty: Vec<String>,
}

impl Header {
    /// Whether the field of this name was written (also as `none`).
    pub fn has(&self, field: &str) -> bool {
        let known = match field {
            "revision" => self.revision.is_some(),
            "equipment" => self.equipment.is_some(),
            "models" => self.models.is_some(),
            "serials" => self.serials.is_some(),
            "source" => self.sources.is_some(),
            "time" => self.time.is_some(),
            "people" => self.people.is_some(),
            "outcome" => self.outcome.is_some(),
            "requires" => self.requires.is_some(),
            "afterwards" => self.afterwards.is_some(),
            "leaves" => self.leaves.is_some(),
            "approved" => self.approved.is_some(),
            _ => false,
        };
        known || self.faulty.iter().any(|key| key == field)
    }
}

/// A reference to another procedure, or to an outside document by its title alone.
#[derive(Debug, Clone, PartialEq)]
pub struct Call {
    pub number: Option<Text>,
    /// The state it brings (`"pump isolated and drained"`), or the outside document.
    pub text: Option<Text>,
    /// The called procedure's title, where the workspace has it.
    pub title: Option<String>,
    /// The states that the called procedure says it leaves, where the workspace has it and it names some.
    pub leaves: Option<String>,
    pub span: Span,
}

#[derive(Debug, Clone, Default)]
pub struct Section {
    /// None for steps before the first `section`.
    pub title: Option<Text>,
    pub span: Span,
    pub prose: Option<Prose>,
    /// How long its work takes, without its waits.
    pub time: Option<Quantity>,
    pub steps: Vec<Step>,
    /// Messages after the last step: they guard nothing.
    pub stranded: Vec<Message>,
}

/// `due "after 10 h running" "tighten again"`.
#[derive(Debug, Clone, PartialEq)]
pub struct Due {
    pub when: Text,
    pub what: Text,
    pub span: Span,
}

/// `waive: rule "why"`: holds for findings whose place lies in `extent`.
#[derive(Debug, Clone, PartialEq)]
pub struct Waiver {
    pub rule: Text,
    pub why: Option<Text>,
    /// The whole line, so that it can be taken out.
    pub span: Span,
    pub extent: Span,
}

#[derive(Debug, Clone, PartialEq)]
pub struct Block {
    /// `parts`, `tools`, `supplies`, `torques`, `figures`.
    pub kind: &'static str,
    pub none: bool,
    pub span: Span,
}
