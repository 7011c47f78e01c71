//! Tree to document: names looked up, quantities typed, what makes no sense kept as slips. Never fails.
//!
//! Everything is declared first and the bodies are read after, so that a name may be used above its declaration
//! and a faulty declaration still declares its name.
mod actions;
mod attributes;
mod body;
mod calculations;
mod conditions;
mod control;
mod declarations;
mod details;
mod header;
mod imports;
mod labels;
mod messages;
mod misspelt;
mod near;
mod objects;
mod prose;
mod quantities;
mod rescue;
mod roles;
mod steps;
mod tightness;
mod torques;

use super::action::Jump;
use super::catalogues::Catalogues;
use super::declarations::Declarations;
use super::document::{Body, Document, Header, Procedure, Waiver};
use super::register::Register;
use super::settings::Settings;
use super::slip::Slip;
use crate::report::Finding;
use crate::source::{SourceFile, Span, Text};
use crate::syntax::ast::{self, Head, Tree};
use crate::syntax::{self, Entry, Steps, Stepwise};
use calculations::Readings;
use labels::Labels;
use near::Near;
#[cfg(feature = "editor")]
pub(crate) use quantities::form as quantity_form;
use std::collections::HashSet;

/// What a file is resolved against.
#[derive(Debug, Clone, Copy)]
pub struct Surroundings<'a> {
    pub settings: &'a Settings,
    pub register: &'a Register,
    pub catalogues: &'a Catalogues,
}

/// A document, and a finding for each line that could not be read.
#[derive(Debug, Clone)]
pub struct Resolved {
    pub document: Document,
    /// In source order.
    pub unread: Vec<Finding>,
}

/// Reads and resolves one file as far as it can be.
pub fn resolve(source: &SourceFile, around: &Surroundings<'_>) -> Resolved {
    let settings = around.settings;
    let verb =
        |word: &str| !matches!(word, "due" | "calculate" | "part") && misspelt::is_verb(word, settings);
    let Stepwise { mut tree, order, mut steps } = syntax::open(source, &verb);
    let mut resolver = Resolver::new(source, *around);
    resolver.slips = misspelt::set_aside(&mut tree, settings);
    let blocks = declarations::blocks(&tree);
    let body = resolver.run(&mut tree, &order, &mut steps);
    let Resolver { declarations, mut slips, waivers, catalogues, .. } = resolver;
    let lent = catalogues.iter().flat_map(|catalogue| &catalogue.texts);
    let own = declarations.messages.iter().filter(|message| message.span.file == source.id);
    let theirs = catalogues.iter().flat_map(|catalogue| &catalogue.declarations.messages);
    let standing = own.chain(theirs).filter_map(messages::to_call).collect();
    let texts = std::iter::once(&source.text).chain(lent).cloned().collect();
    slips.sort_by_key(|slip| slip.span().start);
    let document = Document { file: source.id, declarations, body, slips, waivers, blocks, standing, texts };
    Resolved { document, unread: steps.findings() }
}

/// What the head alone says; sections and `due`s come in later.
fn body_of(statement: &ast::Statement, header: Header) -> Body {
    match &statement.head {
        Head::Procedure { number, title } => Body::Procedure(Box::new(Procedure {
            number: number.clone(),
            title: title.clone().unwrap_or_else(|| number.clone()),
            span: statement.span,
            header,
            sections: Vec::new(),
            dues: Vec::new(),
        })),
        Head::Catalogue { title } => Body::Catalogue { title: title.clone() },
        _ => Body::Unknown,
    }
}

/// The text, taken out of the tree; its place stays there too.
fn taken(text: &mut Text) -> Text {
    Text::new(std::mem::take(&mut text.value), text.span)
}

/// Room for another: in a table that is made now, for the first `most`. Nearly all are full then.
fn make_room<T>(list: &mut Vec<T>, most: usize) {
    if list.is_empty() {
        // An empty one that is made to grow takes twice as long.
        *list = Vec::with_capacity(most);
    } else {
        list.reserve_exact(1);
    }
}

/// What is known while one file is resolved.
struct Resolver<'a> {
    source: &'a SourceFile,
    around: Surroundings<'a>,
    declarations: Declarations,
    /// The catalogues drawn on, in the order they are searched.
    catalogues: Vec<&'a Document>,
    /// Some names may be unknown only because a catalogue or a line could not be read.
    incomplete: bool,
    /// Lines that were not read and may declare something.
    lost_lines: Vec<rescue::Lost>,
    /// The names they seem to declare; found when first asked for.
    lost: Option<HashSet<String>>,
    /// The header's models; `None` where the author was silent.
    models: Option<Vec<Text>>,
    labels: Labels,
    readings: Readings,
    near: Near,
    /// No bracket and no angle stands in the file, so that no text need be searched for them.
    bare: bool,
    /// Some step tightens to a torque without a wrench that covers it.
    lacks_wrench: bool,
    slips: Vec<Slip>,
    waivers: Vec<Waiver>,
}

impl<'a> Resolver<'a> {
    fn new(source: &'a SourceFile, around: Surroundings<'a>) -> Resolver<'a> {
        Resolver {
            source,
            around,
            declarations: Declarations::default(),
            catalogues: Vec::new(),
            incomplete: false,
            lost_lines: Vec::new(),
            lost: None,
            models: None,
            labels: Labels::default(),
            readings: Readings::default(),
            near: Near::default(),
            bare: memchr::memchr2(b'[', b'<', source.text.as_bytes()).is_none(),
            lacks_wrench: false,
            slips: Vec::new(),
            waivers: Vec::new(),
        }
    }

    fn run(&mut self, tree: &mut Tree, order: &[Entry], steps: &mut Steps<'_>) -> Body {
        // A line may be unread for its form, or set aside for its first word.
        let all_read = steps.all_read() && self.slips.is_empty();
        self.lost_lines = if all_read { Vec::new() } else { self.lines_not_read(tree) };
        let head = self.head(tree);
        // Where nothing says what the file is, that is the one fault.
        let in_procedure = !matches!(head.map(|h| &h.head), Some(Head::Catalogue { .. }));
        self.use_catalogues(tree, in_procedure);
        self.declare(tree);
        self.collect_labels(tree, order);
        self.rescue(tree);
        let header = head.map(|statement| self.header(statement)).unwrap_or_default();
        self.fill_declarations(tree);
        self.fill_messages(tree);
        let body = head.map_or(Body::Unknown, |statement| body_of(statement, header));
        let (sections, dues) = self.sections(tree, order, steps, in_procedure);
        if self.lacks_wrench {
            self.other_wrenches();
        }
        match body {
            Body::Procedure(procedure) => {
                Body::Procedure(Box::new(Procedure { sections, dues, ..*procedure }))
            }
            other => other,
        }
    }

    /// The statement that says what the file is; it comes first, and once.
    fn head<'t>(&mut self, tree: &'t Tree) -> Option<&'t ast::Statement> {
        let is_head = |s: &&ast::Statement| matches!(s.head, Head::Procedure { .. } | Head::Catalogue { .. });
        let head = tree.statements.iter().find(is_head);
        match (tree.statements.first(), head) {
            (Some(first), _) if matches!(first.head, Head::Unread) => {}
            (first, None) => {
                let span = first.map_or(Span::new(self.source.id, 0, 0), |s| s.span);
                self.unusable(span, "a file starts with `procedure` or `catalogue`");
            }
            (Some(first), Some(head)) if first.span != head.span => {
                self.unusable(first.span, "nothing stands above the `procedure` or `catalogue` line");
            }
            _ => {}
        }
        for again in tree.statements.iter().filter(is_head).skip(1) {
            self.unusable(again.span, "one file holds one `procedure` or one `catalogue`");
        }
        head
    }

    #[cold]
    fn slip(&mut self, slip: Slip) {
        self.slips.push(slip);
    }

    #[cold]
    fn unusable(&mut self, span: Span, why: &'static str) {
        self.slip(Slip::UnusableStatement { span, why });
    }

    /// Leads to the step of a label.
    fn jump(&mut self, label: &Text, expected: &'static str) -> Jump {
        let step = self.labels.step(label.as_str());
        if step.is_none() {
            self.dangling(label, expected);
        }
        Jump { label: label.clone(), step }
    }

    /// A label, figure or list that is not there.
    #[cold]
    fn dangling(&mut self, label: &Text, expected: &'static str) {
        if self.incomplete || self.is_lost(label.as_str()) {
            return;
        }
        let names = self.labels.names().chain(self.declarations.names.keys().map(|name| name.as_str()));
        let near = self.near.among(label.as_str(), names);
        self.slip(Slip::DanglingReference { label: label.clone(), expected, near });
    }
}
