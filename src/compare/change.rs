//! One change as plain data: what kind, where, what stood before and what stands now.
use crate::source::Span;
use serde::Serialize;

/// What a change is about.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum Kind {
    Caution,
    Torque,
    Limit,
    Hold,
    SingleUse,
    Amount,
    Number,
    Outcome,
    Step,
    Part,
    Tool,
    Supply,
    Figure,
    Models,
    Around,
    Effort,
    Record,
    Later,
    Source,
    /// Prose, sentences and what things are called.
    Wording,
    /// Titles, headings, labels, revision and approval.
    Naming,
    Renumbered,
}

/// Whether work changes, or only what it is called.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum Class {
    Meaning,
    Words,
}

impl Kind {
    pub const ALL: [Kind; 22] = [
        Kind::Caution,
        Kind::Torque,
        Kind::Limit,
        Kind::Hold,
        Kind::SingleUse,
        Kind::Amount,
        Kind::Number,
        Kind::Outcome,
        Kind::Step,
        Kind::Part,
        Kind::Tool,
        Kind::Supply,
        Kind::Figure,
        Kind::Models,
        Kind::Around,
        Kind::Effort,
        Kind::Record,
        Kind::Later,
        Kind::Source,
        Kind::Wording,
        Kind::Naming,
        Kind::Renumbered,
    ];

    /// As readers see it.
    pub fn name(self) -> &'static str {
        self.row().0
    }

    /// What it covers, in one line.
    pub fn about(self) -> &'static str {
        self.row().1
    }

    pub fn class(self) -> Class {
        match self {
            Kind::Wording | Kind::Naming | Kind::Renumbered => Class::Words,
            _ => Class::Meaning,
        }
    }

    fn row(self) -> (&'static str, &'static str) {
        match self {
            Kind::Caution => {
                ("safety message", "signal word, hazard class, what it guards, protective equipment")
            }
            Kind::Torque => ("torque", "what a fastener is tightened to, and how"),
            Kind::Limit => ("limit", "what a reading is held against"),
            Kind::Hold => ("hold", "who signs before the work goes on"),
            Kind::SingleUse => ("single use", "what is fitted new, and what may not go back in"),
            Kind::Amount => ("amount", "how much, how long, how far, where it is no limit"),
            Kind::Number => (
                "number or negation",
                "a number, or a word such as not or never, in prose or in an own sentence",
            ),
            Kind::Outcome => ("outcome", "what is done when a finding comes out so, options and exceptions"),
            Kind::Step => ("step", "what is done, to what, with what, where and in which order"),
            Kind::Part => ("part", "parts and what is true of them"),
            Kind::Tool => ("tool", "tools and what is true of them"),
            Kind::Supply => ("supply", "supplies and what is true of them"),
            Kind::Figure => ("figure", "pictures, and where they are shown"),
            Kind::Models => {
                ("machines", "equipment, models, serial numbers, and what holds for some of them")
            }
            Kind::Around => ("before and after", "what is required, done afterwards, and left"),
            Kind::Effort => ("people and time", "how many, who, and how long"),
            Kind::Record => ("record", "what is written down"),
            Kind::Later => ("later work", "what is due after the job"),
            Kind::Source => ("source", "where it was taken from"),
            Kind::Wording => ("wording", "prose, own sentences, the texts of declared things"),
            Kind::Naming => ("naming", "titles, headings, names, labels, revision and approval"),
            Kind::Renumbered => ("numbering", "the same steps under other numbers"),
        }
    }
}

/// What became of it.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum How {
    Added,
    Gone,
    Changed,
    /// Says or guards less than before.
    Weakened,
    Moved,
}

impl How {
    pub fn word(self) -> &'static str {
        match self {
            How::Added => "added",
            How::Gone => "gone",
            How::Changed => "changed",
            How::Weakened => "weakened",
            How::Moved => "moved",
        }
    }
}

/// One difference. Texts are as an author wrote them or as sheets print them; empty where there is none.
#[derive(Debug, Clone, PartialEq)]
pub struct Change {
    pub kind: Kind,
    pub how: How,
    /// Somebody answerable has to agree to it.
    pub sign_off: bool,
    /// What it is of: "header", "part `ring`", the step's own words.
    pub subject: String,
    /// The declared thing, where it is of one.
    pub thing: Option<String>,
    /// Which of its facts, where it is one: "mass", "wear".
    pub aspect: String,
    pub before: String,
    pub after: String,
    pub place_before: Option<Span>,
    pub place_after: Option<Span>,
    /// Numbers of the steps it is at.
    pub step_before: Option<u32>,
    pub step_after: Option<u32>,
    /// Where a safety message changed: its index among those before that step.
    pub message: Option<usize>,
    /// The standing message by which it is said at several steps.
    pub standing: Option<String>,
    /// Further steps of the new revision where the same message changed, with its index before each.
    pub also: Vec<(u32, usize)>,
}

impl Change {
    pub(super) fn new(kind: Kind, how: How, subject: impl Into<String>) -> Change {
        Change {
            kind,
            how,
            sign_off: signed(kind, how),
            subject: subject.into(),
            thing: None,
            aspect: String::new(),
            before: String::new(),
            after: String::new(),
            place_before: None,
            place_after: None,
            step_before: None,
            step_after: None,
            message: None,
            standing: None,
            also: Vec::new(),
        }
    }

    #[must_use]
    pub(super) fn texts(mut self, before: impl Into<String>, after: impl Into<String>) -> Change {
        (self.before, self.after) = (before.into(), after.into());
        self
    }

    #[must_use]
    pub(super) fn places(mut self, before: Option<Span>, after: Option<Span>) -> Change {
        (self.place_before, self.place_after) = (before, after);
        self
    }

    #[must_use]
    pub(super) fn steps(mut self, before: Option<u32>, after: Option<u32>) -> Change {
        (self.step_before, self.step_after) = (before, after);
        self
    }

    #[must_use]
    pub(super) fn aspect(mut self, aspect: impl Into<String>) -> Change {
        self.aspect = aspect.into();
        self
    }

    pub fn class(&self) -> Class {
        self.kind.class()
    }

    pub(super) fn says_the_same(&self, other: &Change) -> bool {
        let key = |it: &Change| {
            (it.kind, it.how, it.standing.clone(), it.aspect.clone(), it.before.clone(), it.after.clone())
        };
        key(self) == key(other)
    }

    /// "torque changed, torque: was 7–9 N·m, now 8–10 N·m": without the subject.
    pub fn told(&self) -> String {
        let mut out = format!("{} {}", self.kind.name(), self.how.word());
        if !self.aspect.is_empty() && self.aspect != self.kind.name() {
            out.push_str(", ");
            out.push_str(&self.aspect);
        }
        let texts = match (self.before.as_str(), self.after.as_str()) {
            ("", "") => String::new(),
            (before, "") => format!(": was {before}"),
            ("", after) => format!(": {after}"),
            (before, after) => format!(": was {before}, now {after}"),
        };
        out + &texts
    }
}

/// What may not go through on the author's word alone.
fn signed(kind: Kind, how: How) -> bool {
    match kind {
        Kind::Caution | Kind::Hold => !matches!(how, How::Added),
        Kind::Torque | Kind::Limit => true,
        Kind::SingleUse => how == How::Gone,
        _ => false,
    }
}
