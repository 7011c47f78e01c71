//! Safety messages: signal word, hazard, what can happen, how to avoid it.
use super::hazard::{Hazard, Wear};
use super::prose::Prose;
use crate::source::{Span, Spanned, Text};
use serde::{Deserialize, Serialize};

/// Signal words, least severe first, so that they compare by severity.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(rename_all = "lowercase")]
pub enum Signal {
    Note,
    Notice,
    Caution,
    Warning,
    Danger,
}

impl Signal {
    pub const ALL: [Signal; 5] =
        [Signal::Danger, Signal::Warning, Signal::Caution, Signal::Notice, Signal::Note];

    /// The word as written in the source.
    pub fn word(self) -> &'static str {
        match self {
            Signal::Danger => "danger",
            Signal::Warning => "warning",
            Signal::Caution => "caution",
            Signal::Notice => "notice",
            Signal::Note => "note",
        }
    }
    pub fn from_word(word: &str) -> Option<Signal> {
        Signal::ALL.into_iter().find(|s| s.word() == word)
    }
}

#[derive(Debug, Clone, PartialEq)]
pub struct Message {
    pub signal: Spanned<Signal>,
    /// None for a plain `note`, or where the class is unknown (the slip is made).
    pub hazard: Option<Spanned<&'static Hazard>>,
    pub scope: Scope,
    /// `as NAME`; in a catalogue, what it is called by.
    pub name: Option<Text>,
    /// The standing message this one calls; its words are copied here.
    pub standing: Option<Text>,
    pub hazard_text: Option<Box<Prose>>,
    pub harm: Option<Box<Prose>>,
    pub avoid: Option<Box<Prose>>,
    pub wear: Vec<Spanned<&'static Wear>>,
    pub first_aid: Option<Box<Prose>>,
    /// A note's words, and prose under a message.
    pub text: Option<Box<Prose>>,
    /// The margin line.
    pub span: Span,
    /// With all that is indented under it.
    pub extent: Span,
}

impl Message {
    /// Speaks of what can hurt somebody, not of damage or for information only.
    pub fn guards_people(&self) -> bool {
        self.signal.value > Signal::Notice
    }
}

/// What a message guards.
#[derive(Debug, Clone, PartialEq)]
pub enum Scope {
    NextStep,
    NextSteps(u32),
    Section,
    /// Until the step of that number is done; `None` if the label is unknown (the slip is made).
    Until {
        label: Text,
        step: Option<u32>,
    },
}
