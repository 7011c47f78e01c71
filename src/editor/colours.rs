//! What each word is, for highlighting by meaning.
use super::marks::{Kind, Mark, Sort, Use};
use super::names;
use super::shop::{Page, Shop, declared};
use crate::model::Name;
use crate::source::Span;
use std::collections::HashMap;

/// The classes of words, in the protocol's own terms; [`Colour::class`] counts from the first.
pub const CLASSES: [&str; 12] = [
    "keyword",
    "function",
    "variable",
    "class",
    "struct",
    "enumMember",
    "type",
    "property",
    "string",
    "number",
    "macro",
    "namespace",
];

/// What a word does besides.
pub const MODIFIERS: [&str; 1] = ["declaration"];

/// One word with its class. Two never overlap.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Colour {
    pub span: Span,
    pub class: u32,
    pub declares: bool,
}

/// The words of a page, by place. None goes over the end of a line.
pub fn of(shop: &Shop, page: &Page) -> Vec<Colour> {
    let mut sorts = Sorts { shop, page, known: HashMap::new() };
    let mut colours: Vec<Colour> = Vec::new();
    let mut over: Vec<Colour> = Vec::new();
    for mark in shop.marks(page) {
        let Some((class, declares)) = sorts.class(mark) else { continue };
        for span in by_line(page.text(), mark.span) {
            let colour = Colour { span, class, declares };
            // A name inside a text in quotes parts the text.
            while let Some(outer) = over.pop_if(|outer| outer.span.end <= span.start) {
                push(&mut colours, outer);
            }
            match over.last_mut() {
                Some(outer) if outer.span.end >= span.end && outer.span.start <= span.start => {
                    let before = Colour { span: Span { end: span.start, ..outer.span }, ..*outer };
                    outer.span.start = span.end;
                    push(&mut colours, before);
                    push(&mut colours, colour);
                }
                // Of two that overlap in part the first stays.
                Some(_) => {}
                None => over.push(colour),
            }
        }
    }
    over.into_iter().for_each(|outer| push(&mut colours, outer));
    colours.sort_by_key(|colour| colour.span.start);
    colours
}

fn push(colours: &mut Vec<Colour>, colour: Colour) {
    if !colour.span.is_empty() {
        colours.push(colour);
    }
}

/// A span cut at the ends of lines, without the blanks that lead a line.
fn by_line(text: &str, span: Span) -> impl Iterator<Item = Span> + '_ {
    let mut start = span.start as usize;
    let words = text.get(span.range()).unwrap_or("");
    words.split_inclusive(['\n', '\r']).filter_map(move |line| {
        let from = start;
        start += line.len();
        let content = line.trim_end_matches(['\n', '\r']);
        let lead = content.len() - content.trim_start().len();
        let one = Span::new(span.file, from + lead, from + content.len());
        (!one.is_empty()).then_some(one)
    })
}

struct Sorts<'a> {
    shop: &'a Shop,
    page: &'a Page,
    known: HashMap<&'a str, u32>,
}

impl<'a> Sorts<'a> {
    fn class(&mut self, mark: &'a Mark) -> Option<(u32, bool)> {
        let word =
            |class: &str| CLASSES.iter().position(|it| *it == class).and_then(|at| u32::try_from(at).ok());
        let class = match &mark.kind {
            Kind::Keyword | Kind::Steering => "keyword",
            Kind::Verb(_) => "function",
            Kind::Signal => "macro",
            Kind::Hazard(_) | Kind::Wear(_) | Kind::Unit | Kind::Role => "type",
            Kind::Attribute(_) | Kind::Detail(_) | Kind::Rule => "property",
            Kind::Figures => "number",
            Kind::Text | Kind::Path => "string",
            Kind::Number(_) => "namespace",
            Kind::Quantity(_) => return None,
            Kind::Name(Use::Declared(sort)) => class_of(*sort),
            Kind::Name(Use::Used) => return self.used(mark).map(|class| (class, false)),
        };
        let declares = matches!(mark.kind, Kind::Name(Use::Declared(_)) | Kind::Number(Use::Declared(_)));
        Some((word(class)?, declares))
    }

    fn used(&mut self, mark: &'a Mark) -> Option<u32> {
        let name = self.page.source.slice(mark.span);
        if let Some(class) = self.known.get(name) {
            return Some(*class);
        }
        let own = declared(&self.page.document, name).map(|(it, _)| it);
        let found = own.or_else(|| self.shop.lent(self.page, name).map(|(_, it, _)| it));
        let sort = match found {
            Some(Name::Part(_)) => Sort::Part,
            Some(Name::Tool(_)) => Sort::Tool,
            Some(Name::Supply(_)) => Sort::Supply,
            Some(Name::Torque(_)) => Sort::Torque,
            Some(Name::Figure(_)) => Sort::Figure,
            Some(Name::Message(_)) => Sort::Message,
            None => names::declaration(self.shop, self.page, name).map(|_| Sort::Label)?,
        };
        let class =
            CLASSES.iter().position(|it| *it == class_of(sort)).and_then(|at| u32::try_from(at).ok())?;
        self.known.insert(name, class);
        Some(class)
    }
}

fn class_of(sort: Sort) -> &'static str {
    match sort {
        Sort::Part | Sort::Piece => "variable",
        Sort::Tool => "class",
        Sort::Supply => "struct",
        Sort::Label | Sort::Figure => "enumMember",
        Sort::Torque => "property",
        Sort::Message => "macro",
        Sort::Procedure => "namespace",
    }
}
