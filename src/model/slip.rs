//! What resolving could not make sense of, as plain data. Each kind has a rule that words it.
use super::catalogues::Fault;
use super::quantity::Dimension;
use crate::source::{Span, Text};

/// One thing that could not be resolved.
/// What an unused role is where the word that says its use is missing.
pub const BARE_TOOL: &str = "a tool without `with`";
pub const BARE_SUPPLY: &str = "a supply without `using`";

#[derive(Debug, Clone, PartialEq)]
pub enum Slip {
    /// A name nobody declared; `expected` says what could stand there ("a tool or a supply").
    UndeclaredName {
        name: Text,
        expected: &'static str,
        near: Vec<String>,
    },
    /// A label, figure or tightening list that is not there.
    DanglingReference {
        label: Text,
        expected: &'static str,
        near: Vec<String>,
    },
    DuplicateName {
        name: Text,
        first: Span,
    },
    UnknownVerb {
        verb: Text,
        near: Vec<String>,
    },
    /// `replace`.
    ReplaceIsAmbiguous {
        verb: Text,
    },
    /// `on` is "part", "tool" or "supply".
    UnknownAttribute {
        key: Text,
        on: &'static str,
        near: Vec<String>,
    },
    /// The attribute is known, what follows it does not fit; `wanted` shows the form.
    MalformedAttribute {
        key: Text,
        span: Span,
        wanted: String,
    },
    UnknownDetail {
        key: Text,
        near: Vec<String>,
    },
    /// A known detail at a place where it means nothing.
    MisplacedDetail {
        key: Text,
        belongs: &'static str,
    },
    UnknownHazard {
        word: Text,
        near: Vec<String>,
    },
    UnknownWear {
        word: Text,
        near: Vec<String>,
    },
    UnknownUnit {
        unit: Text,
        near: Vec<String>,
    },
    MissingUnit {
        number: Text,
        likely: Vec<String>,
    },
    WrongDimension {
        span: Span,
        found: Dimension,
        expected: Vec<Dimension>,
        context: String,
    },
    UnreadableNumber {
        number: Text,
        why: String,
    },
    EmptyRange {
        span: Span,
        low: String,
        high: String,
    },
    UnitsDisagree {
        span: Span,
        first: String,
        second: String,
        second_span: Span,
        converted: String,
    },
    UnknownModel {
        model: Text,
        known: Vec<String>,
    },
    UnknownProcedure {
        number: Text,
        near: Vec<String>,
    },
    /// The verb wants something the line does not give: "what to remove".
    MissingRole {
        verb: Text,
        span: Span,
        wanted: &'static str,
    },
    /// The line gives something the verb has no use for.
    UnusedRole {
        verb: Text,
        span: Span,
        given: &'static str,
    },
    /// Raw HTML or a link scheme that is not allowed.
    RefusedMarkup {
        span: Span,
        why: &'static str,
    },
    UnusableStatement {
        span: Span,
        why: &'static str,
    },
    DuplicateProcedure {
        number: Text,
        others: Vec<String>,
    },
    /// A file named by `use` could not be had; `why` says so.
    UnusableCatalogue {
        path: Text,
        why: String,
        /// Where it was read, and its first error stands in the way.
        fault: Option<Box<Fault>>,
    },
}

impl Slip {
    /// The place a finding about it points at.
    pub fn span(&self) -> Span {
        match self {
            Slip::UndeclaredName { name: text, .. }
            | Slip::DanglingReference { label: text, .. }
            | Slip::DuplicateName { name: text, .. }
            | Slip::UnknownVerb { verb: text, .. }
            | Slip::ReplaceIsAmbiguous { verb: text }
            | Slip::UnknownAttribute { key: text, .. }
            | Slip::UnknownDetail { key: text, .. }
            | Slip::MisplacedDetail { key: text, .. }
            | Slip::UnknownHazard { word: text, .. }
            | Slip::UnknownWear { word: text, .. }
            | Slip::UnknownUnit { unit: text, .. }
            | Slip::MissingUnit { number: text, .. }
            | Slip::UnreadableNumber { number: text, .. }
            | Slip::UnknownModel { model: text, .. }
            | Slip::UnknownProcedure { number: text, .. }
            | Slip::DuplicateProcedure { number: text, .. }
            | Slip::UnusableCatalogue { path: text, .. } => text.span,
            Slip::MalformedAttribute { span, .. }
            | Slip::WrongDimension { span, .. }
            | Slip::EmptyRange { span, .. }
            | Slip::UnitsDisagree { span, .. }
            | Slip::MissingRole { span, .. }
            | Slip::UnusedRole { span, .. }
            | Slip::RefusedMarkup { span, .. }
            | Slip::UnusableStatement { span, .. } => *span,
        }
    }
}
