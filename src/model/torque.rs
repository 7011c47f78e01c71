//! What a fastener is tightened to: a list of passes with its conditions.
use super::declarations::Condition;
use super::quantity::{Exact, Number, Quantity};
use crate::source::{Span, Spanned, Text};

/// A tightening list.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Torque {
    /// In order; a plain torque is one pass. Percent passes refer to `value`.
    pub passes: Vec<Pass>,
    /// The full value: that of a plain torque, or what percents are of.
    pub value: Option<Quantity>,
    pub pattern: Option<Spanned<Pattern>>,
    pub condition: Option<Spanned<Condition>>,
    /// The locking nut's running torque is measured and added.
    pub plus_drag: Option<Span>,
    /// Values for a new and for a reused fastener, where they differ.
    pub new: Option<Quantity>,
    pub reused: Option<Quantity>,
    pub align: Option<Align>,
    /// Must not turn below this; tightens nothing.
    pub check: Option<Quantity>,
    /// `not specified`: a choice, not a slip.
    pub not_specified: Option<Span>,
    pub span: Span,
}

impl Torque {
    /// Says how tight in some way: a value, a feel, a check, or that it is not specified.
    pub fn says_something(&self) -> bool {
        !self.passes.is_empty()
            || self.value.is_some()
            || self.new.is_some()
            || self.reused.is_some()
            || self.check.is_some()
            || self.not_specified.is_some()
    }
    /// Says itself how tight, and not only in shares of a value that another says.
    pub fn says_how_tight(&self) -> bool {
        let by_pass = self.passes.iter().any(|pass| !matches!(pass.target, PassTarget::Percent(_)));
        let value = self.value.is_some() || self.new.is_some() || self.reused.is_some();
        value || self.not_specified.is_some() || by_pass
    }
    /// Only a torque it must not turn below.
    pub fn is_check(&self) -> bool {
        self.check.is_some() && self.passes.is_empty() && !self.says_how_tight()
    }
    /// Its passes are shares, and it does not say of what.
    pub fn lacks_whole(&self) -> bool {
        let whole = self.value.is_some() || self.new.is_some() || self.reused.is_some();
        !whole && self.shares().next().is_some()
    }
    /// The passes that are so many hundredths of the value.
    pub fn shares(&self) -> impl Iterator<Item = &Pass> {
        self.passes.iter().filter(|pass| matches!(pass.target, PassTarget::Percent(_)))
    }
    /// Needs a torque wrench: some pass has a torque value.
    pub fn has_value(&self) -> bool {
        self.value.is_some()
            || self.new.is_some()
            || self.reused.is_some()
            || self.passes.iter().any(|p| matches!(p.target, PassTarget::Torque(_) | PassTarget::Percent(_)))
    }
}

/// So many hundredths of `value`, its limits rounded inwards; `None` where that cannot be held.
pub fn percent_of(value: &Quantity, percent: &Number) -> Option<Quantity> {
    value.scaled(percent.value() / Exact::from_integer(100)).ok()
}

/// One go round the fasteners.
#[derive(Debug, Clone, PartialEq)]
pub struct Pass {
    pub target: PassTarget,
    /// `while turning hub`.
    pub during: Option<Text>,
    pub pattern: Option<Spanned<Pattern>>,
    pub span: Span,
}

#[derive(Debug, Clone, PartialEq)]
pub enum PassTarget {
    Torque(Quantity),
    /// Of the list's `value`.
    Percent(Number),
    Angle(Quantity),
    LoosenToFeel(Feel),
    LoosenTo(Quantity),
    /// An angle, in turns or degrees.
    BackOff(Quantity),
    Feel(Feel),
    /// A length, where stretch is the end value.
    Length(Quantity),
}

#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Feel {
    FingerTight,
    HandTight,
    Snug,
}

impl Feel {
    pub fn name(self) -> &'static str {
        match self {
            Feel::FingerTight => "finger tight",
            Feel::HandTight => "hand tight",
            Feel::Snug => "snug",
        }
    }
}

#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Pattern {
    Crosswise,
    Clockwise,
    FromCentre,
    /// The way back of `FromCentre`: how what was tightened so is loosened.
    FromEnds,
    Order(Vec<u32>),
}

impl Pattern {
    /// As the language writes it: `crosswise`, `order 1 3 2 4`.
    pub fn written(&self) -> String {
        match self {
            Pattern::Crosswise => "crosswise".to_owned(),
            Pattern::Clockwise => "clockwise".to_owned(),
            Pattern::FromCentre => "from centre".to_owned(),
            Pattern::FromEnds => "from ends".to_owned(),
            Pattern::Order(order) => format!("order {}", numbers(order)),
        }
    }
}

/// The numbers with blanks between them.
pub fn numbers(order: &[u32]) -> String {
    order.iter().map(u32::to_string).collect::<Vec<_>>().join(" ")
}

/// What to do when the slot and the hole do not meet at the value.
#[derive(Debug, Clone, PartialEq)]
pub struct Align {
    pub span: Span,
    /// `slot`; empty for `never moved to align`.
    pub feature: Text,
    pub way: AlignWay,
    pub not_above: Option<Quantity>,
}

#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum AlignWay {
    Tightening,
    Loosening,
    Either,
    NeverMoved,
    /// Not said.
    Unsaid,
}
