//! What stands where in a file: every word that means something, with its place. Hovers, definitions, references,
//! highlighting and hints all read this one list.
mod actions;
mod brackets;
mod declarations;
mod quantities;

use crate::model::Settings;
use crate::model::hazard::{Hazard, Wear};
use crate::model::quantity::Quantity;
use crate::model::verb::Verb;
use crate::source::{FreeText, SourceFile, Span, Text};
use crate::syntax::ast::{Detail, DetailValue, Head, Message, Scope, Statement, Tree};
use crate::syntax::words::{AttributeKey, DetailKey, attribute_key, detail_key};

/// One word, or a few that mean one thing.
#[derive(Debug, Clone, PartialEq)]
pub struct Mark {
    pub span: Span,
    pub kind: Kind,
}

#[derive(Debug, Clone, PartialEq)]
pub enum Kind {
    /// What a statement that is no step starts with, or a word that leads to what follows.
    Keyword,
    /// A verb of the table.
    Verb(&'static Verb),
    /// A verb that steers: `hold`, `repeat`.
    Steering,
    Signal,
    Hazard(&'static Hazard),
    Wear(&'static Wear),
    /// A declared thing, a label or a standing message.
    Name(Use),
    /// A procedure's number.
    Number(Use),
    /// The file behind `use` or `picture`.
    Path,
    Attribute(Option<&'static AttributeKey>),
    Detail(Option<&'static DetailKey>),
    Quantity(Box<Quantity>),
    Unit,
    Figures,
    /// Words in quotes.
    Text,
    /// Who signs or is told.
    Role,
    /// A rule that is waived.
    Rule,
}

/// Whether a name is given here or used.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Use {
    Declared(Sort),
    Used,
}

/// What a declared name is.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Sort {
    Part,
    Piece,
    Tool,
    Supply,
    Torque,
    Figure,
    Message,
    Label,
    Procedure,
}

/// Whether a word is declared here or in a catalogue.
pub type Knows<'k> = &'k dyn Fn(&str) -> bool;

/// The marks of a file, by place; a longer one stands before those inside it.
pub fn of(tree: &Tree, source: &SourceFile, settings: &Settings, knows: Knows<'_>) -> Vec<Mark> {
    let mut marker = Marker { source, settings, knows, marks: Vec::new() };
    tree.statements.iter().for_each(|statement| marker.statement(statement));
    let mut marks = marker.marks;
    marks.sort_by_key(|mark| (mark.span.start, std::cmp::Reverse(mark.span.end)));
    marks
}

/// The smallest mark at a place, of those that `wanted` picks; at the end of a word the word still counts.
pub fn at(marks: &[Mark], offset: usize, wanted: impl Fn(&Kind) -> bool) -> Option<&Mark> {
    let holds = |mark: &&Mark| (mark.span.start as usize..=mark.span.end as usize).contains(&offset);
    let found = marks.iter().filter(holds).filter(|mark| wanted(&mark.kind));
    found.min_by_key(|mark| mark.span.end - mark.span.start)
}

struct Marker<'a> {
    source: &'a SourceFile,
    settings: &'a Settings,
    knows: Knows<'a>,
    marks: Vec<Mark>,
}

impl Marker<'_> {
    fn mark(&mut self, span: Span, kind: Kind) {
        if !span.is_empty() {
            self.marks.push(Mark { span, kind });
        }
    }

    fn used(&mut self, name: &Text) {
        self.mark(name.span, Kind::Name(Use::Used));
    }

    fn declared(&mut self, name: &Text, sort: Sort) {
        self.mark(name.span, Kind::Name(Use::Declared(sort)));
    }

    /// The first word of the line.
    fn opener(&mut self, span: Span) {
        let line = self.source.slice(span);
        let length = line.find([' ', '\t', '\n', '\r']).unwrap_or(line.len());
        self.mark(Span { end: span.start + clip(length), ..span }, Kind::Keyword);
    }

    fn statement(&mut self, statement: &Statement) {
        match &statement.head {
            Head::Procedure { number, title } => {
                self.opener(statement.span);
                self.mark(number.span, Kind::Number(Use::Declared(Sort::Procedure)));
                title.iter().for_each(|title| self.text(title));
            }
            Head::Catalogue { title } | Head::Section { title } => {
                self.opener(statement.span);
                self.text(title);
            }
            Head::Use { path } => {
                self.opener(statement.span);
                self.mark(path.span, Kind::Path);
            }
            Head::Block { kind, declarations, .. } => {
                self.opener(statement.span);
                declarations.iter().for_each(|declaration| self.declaration(*kind, declaration));
            }
            Head::Message(message) => self.message(message),
            Head::Step(actions) => actions.iter().for_each(|action| self.action(action)),
            Head::Unread => {}
        }
        statement.details.iter().for_each(|detail| self.detail(detail));
        statement.prose.iter().for_each(|prose| self.prose(prose));
    }

    fn message(&mut self, message: &Message) {
        self.mark(message.signal.span, Kind::Signal);
        if let Some(word) = &message.hazard {
            match Hazard::find(word.as_str()) {
                Some(hazard) => self.mark(word.span, Kind::Hazard(hazard)),
                None => self.used(word),
            }
        }
        if let Some(Scope::Until(label)) = message.scope.as_ref().map(|scope| &scope.value) {
            self.used(label);
        }
        message.name.iter().for_each(|name| self.declared(name, Sort::Message));
        message.text.iter().for_each(|text| self.text(text));
    }

    fn detail(&mut self, detail: &Detail) {
        self.mark(detail.key.span, Kind::Detail(detail_key(detail.key.as_str())));
        match &detail.value {
            DetailValue::Prose(prose) => self.prose(prose),
            DetailValue::List(items) => items.iter().for_each(|item| self.item(detail, item)),
            DetailValue::Quantity(quantity) => self.quantity(quantity),
            DetailValue::Actions(actions) => actions.iter().for_each(|action| self.action(action)),
            DetailValue::Stage(stage) => self.stage(stage),
            DetailValue::Calls(calls) => {
                for call in calls {
                    call.number.iter().for_each(|it| self.mark(it.span, Kind::Number(Use::Used)));
                    call.text.iter().for_each(|text| self.text(text));
                }
            }
            DetailValue::Conditions(conditions) => conditions.iter().for_each(|words| self.condition(words)),
            DetailValue::Waive { rule, why } => {
                self.mark(rule.span, Kind::Rule);
                why.iter().for_each(|why| self.text(why));
            }
            DetailValue::Free | DetailValue::Unread => {}
        }
    }

    fn item(&mut self, detail: &Detail, item: &Text) {
        match detail.key.as_str() {
            "wear" => {
                if let Some(wear) = Wear::find(item.as_str()) {
                    self.mark(item.span, Kind::Wear(wear));
                }
            }
            "figure" => self.used(item),
            _ => {}
        }
    }

    /// `bearing-check failed`; a model stands alone.
    fn condition(&mut self, words: &[Text]) {
        if let [label, _, ..] = words
            && !matches!(label.as_str(), "serial" | "if")
        {
            self.used(label);
        }
    }

    fn prose(&mut self, prose: &FreeText) {
        for range in brackets::names(&prose.source) {
            self.mark(prose.span_of(range.start, range.end), Kind::Name(Use::Used));
        }
    }

    /// Words in quotes, and the `[names]` they hold.
    fn text(&mut self, text: &Text) {
        self.mark(text.span, Kind::Text);
        let start = text.span.start as usize;
        for range in brackets::names(self.source.slice(text.span)) {
            let span = Span::new(text.span.file, start + range.start, start + range.end);
            self.mark(span, Kind::Name(Use::Used));
        }
    }
}

fn attribute(word: &str) -> Kind {
    Kind::Attribute(attribute_key(word))
}

fn clip(n: usize) -> u32 {
    u32::try_from(n).unwrap_or(u32::MAX)
}
