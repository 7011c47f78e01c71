//! The tree: what the author wrote, line by line, with the place of every piece. Nothing is looked up yet:
//! verbs, units, attributes and names are still words.
pub use crate::source::FreeText as Prose;
use crate::source::{Span, Spanned, Text};

/// One file. Lines that could not be read are absent here and present among the findings.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct Tree {
    pub statements: Vec<Statement>,
}

/// A line at the margin with everything indented under it.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct Statement {
    pub head: Head,
    pub details: Vec<Detail>,
    pub prose: Option<Prose>,
    /// The margin line alone.
    pub span: Span,
    /// The margin line and all that is indented under it.
    pub extent: Span,
}

#[derive(Debug, Clone, Default, PartialEq)]
pub enum Head {
    Procedure {
        number: Text,
        title: Option<Text>,
    },
    Catalogue {
        title: Text,
    },
    Use {
        path: Text,
    },
    Block {
        kind: BlockKind,
        none: bool,
        declarations: Vec<Declaration>,
    },
    Section {
        title: Text,
    },
    Message(Box<Message>),
    /// A step: one or more actions.
    Step(Vec<Action>),
    /// The line could not be read and has its finding already. It stays so that what is indented under it is
    /// not mistaken for part of the statement above.
    #[default]
    Unread,
}

#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum BlockKind {
    Parts,
    Tools,
    Supplies,
    Torques,
    Figures,
}

/// `name "Text" x4 as a, b  attribute, attribute` in a block.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Declaration {
    pub name: Text,
    pub text: Option<Text>,
    pub count: Option<Spanned<u32>>,
    pub pieces: Vec<Text>,
    pub attributes: Vec<Attribute>,
    /// Torque items of a `torques` entry, and its `stage:` lines.
    pub torque: Vec<TorqueItem>,
    pub stages: Vec<Stage>,
    /// `waive:` and other deeper detail lines.
    pub details: Vec<Detail>,
    pub span: Span,
}

/// `key value value`; where a list goes on over commas the parts of the list are in `values`.
#[derive(Debug, Clone, PartialEq)]
pub struct Attribute {
    pub key: Text,
    pub values: Vec<Value>,
    pub span: Span,
}

#[derive(Debug, Clone, PartialEq)]
pub enum Value {
    Text(Text),
    Word(Text),
    Quantity(Box<Quantity>),
    Thread { designation: Text, series: Option<Text> },
    Torque(Vec<TorqueItem>),
}

/// An indented `key: value`, `if a, b: …`, `except rear-left: …`, `option "Text": …`.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Detail {
    pub key: Text,
    /// What stands between the key and the colon, cut at commas.
    pub arguments: Vec<Text>,
    pub value: DetailValue,
    /// The value as written (joined over continuation lines).
    pub raw: Text,
    pub span: Span,
}

#[derive(Debug, Clone, PartialEq, Default)]
pub enum DetailValue {
    /// Free words, also where the key is unknown.
    #[default]
    Free,
    /// Free words that may hold `[names]`.
    Prose(Prose),
    /// A comma list, each trimmed.
    List(Vec<Text>),
    Quantity(Box<Quantity>),
    Actions(Vec<Action>),
    Stage(Box<Stage>),
    /// `NUMBER "text"; …`; empty for `none`.
    Calls(Vec<Call>),
    /// `only:` conditions, each a few words.
    Conditions(Vec<Vec<Text>>),
    Waive {
        rule: Text,
        why: Option<Text>,
    },
    /// The value did not have the form its key asks for; the finding is made.
    Unread,
}

#[derive(Debug, Clone, PartialEq)]
pub struct Call {
    pub number: Option<Text>,
    pub text: Option<Text>,
}

/// `warning ejection for section as NAME "text"`.
#[derive(Debug, Clone, PartialEq)]
pub struct Message {
    pub signal: Text,
    pub hazard: Option<Text>,
    pub scope: Option<Spanned<Scope>>,
    pub name: Option<Text>,
    pub text: Option<Text>,
}

#[derive(Debug, Clone, PartialEq)]
pub enum Scope {
    NextSteps(u32),
    Section,
    Until(Text),
}

/// `verb phrase phrase …`, or a calculation.
#[derive(Debug, Clone, PartialEq)]
pub struct Action {
    /// The first word, and a particle right after it (`back off`).
    pub verb: Text,
    pub particle: Option<Box<Text>>,
    pub phrases: Vec<Phrase>,
    /// For `calculate` only.
    pub calculation: Option<Box<Calculation>>,
    pub span: Span,
}

#[derive(Debug, Clone, PartialEq)]
pub struct Phrase {
    pub kind: PhraseKind,
    pub span: Span,
}

#[derive(Debug, Clone, PartialEq)]
pub enum PhraseKind {
    Objects(Vec<Object>),
    Place(Box<Place>),
    /// `with X, Y` / `using X`.
    Tools(Vec<Object>),
    Text(Text),
    Label(Vec<Text>),
    Facing(Text),
    Until(Text),
    While(Text),
    Times {
        count: u32,
        at_most: bool,
    },
    For(Target),
    By(Target),
    Quantity(Box<Quantity>),
    Torque(Box<TorqueItem>),
    Except(Box<Except>),
}

/// `on housing`.
#[derive(Debug, Clone, PartialEq)]
pub struct Place {
    pub preposition: Text,
    pub what: Target,
}

/// `except stage 2 15 N.m on bolt`.
#[derive(Debug, Clone, PartialEq)]
pub struct Except {
    pub stage: Spanned<u32>,
    pub value: Quantity,
    pub on: Option<Text>,
}

#[derive(Debug, Clone, PartialEq)]
pub enum Target {
    Objects(Vec<Object>),
    Quantity(Box<Quantity>),
    Text(Text),
}

/// `each`, `new`, `3 of` and a name.
#[derive(Debug, Clone, PartialEq)]
pub struct Object {
    pub name: Text,
    pub new: Option<Span>,
    pub each: bool,
    pub count: Option<Spanned<u32>>,
    pub span: Span,
}

/// `name = expression, limits`.
#[derive(Debug, Clone, PartialEq)]
pub struct Calculation {
    pub name: Text,
    pub expression: Expression,
    pub limits: Option<Quantity>,
}

#[derive(Debug, Clone, PartialEq)]
pub enum Expression {
    Amount(Amount),
    Reading(Text),
    /// Left to right with the usual precedence already applied. `operator` is one of `+ - * /`.
    Binary {
        operator: char,
        left: Box<Expression>,
        right: Box<Expression>,
        span: Span,
    },
}

/// A number as written and the unit word right after it.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct Amount {
    pub number: Text,
    pub unit: Option<Text>,
    pub span: Span,
}

#[derive(Debug, Clone, PartialEq)]
pub struct Quantity {
    pub form: QuantityForm,
    /// The same quantity in a second unit, in brackets.
    pub also: Option<Box<Quantity>>,
    pub span: Span,
}

#[derive(Debug, Clone, PartialEq)]
pub enum QuantityForm {
    Exact(Amount),
    Between {
        low: Amount,
        high: Amount,
    },
    Tolerance {
        nominal: Amount,
        plus: Amount,
        minus: Amount,
    },
    Max(Amount),
    Min(Amount),
    NewWorn {
        new: Amount,
        worn: Amount,
    },
    /// `none`, where a limit stands: nothing is allowed.
    None,
}

impl QuantityForm {
    /// The amounts in the order they are written; a place of its own for each that a form can have.
    pub fn amounts(&self) -> [Option<&Amount>; 3] {
        match self {
            QuantityForm::Exact(amount) | QuantityForm::Max(amount) | QuantityForm::Min(amount) => {
                [Some(amount), None, None]
            }
            QuantityForm::Between { low, high } => [Some(low), Some(high), None],
            QuantityForm::Tolerance { nominal, plus, minus } => [Some(nominal), Some(plus), Some(minus)],
            QuantityForm::NewWorn { new, worn } => [Some(new), Some(worn), None],
            QuantityForm::None => [None, None, None],
        }
    }
}

#[derive(Debug, Clone, PartialEq)]
pub struct TorqueItem {
    pub kind: TorqueItemKind,
    pub span: Span,
}

#[derive(Debug, Clone, PartialEq)]
pub enum TorqueItemKind {
    Value(Quantity),
    /// `must not turn below 10 lb-in`: tightens nothing.
    Check(Quantity),
    Then(Quantity),
    Percents(Vec<Amount>),
    PlusDrag,
    New(Quantity),
    Reused(Quantity),
    /// `crosswise`, `clockwise`, `from centre`, `from ends`.
    Pattern(String),
    /// `order 1 3 2 4`.
    Order(Vec<u32>),
    /// `dry`, `oiled`, `plated`.
    Condition(String),
    /// `align slot by tightening`: `way` is `by tightening`, `by loosening`, `either way`, or empty.
    Align {
        feature: Text,
        way: String,
    },
    NotAbove(Quantity),
    NeverMoved,
    /// `finger tight`, `hand tight`, `snug`, `not specified`.
    Feel(String),
}

/// One `stage:` line of a tightening list.
#[derive(Debug, Clone, PartialEq)]
pub struct Stage {
    pub kind: StageKind,
    pub during: Option<Text>,
    pub pattern: Option<Text>,
    pub condition: Option<Text>,
    pub span: Span,
}

#[derive(Debug, Clone, PartialEq)]
pub enum StageKind {
    /// A torque, or an angle to turn through.
    Value(Quantity),
    Percent(Amount),
    LoosenToFeel(Text),
    LoosenTo(Quantity),
    BackOff(Quantity),
    Feel(Text),
}
