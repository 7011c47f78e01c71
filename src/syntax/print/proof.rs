//! The layouts a statement may get, from the house's to the author's own; the first that means the same is taken.
use super::super::ast::{Detail, DetailValue, Statement};
use super::super::lines::LineKind;
use super::super::parse::parse;
use super::roles::{self, Role};
use super::rows::{self, Row};
use super::{INDENT, Raw, columns, push_line};
use crate::report::Finding;
use crate::source::{SourceFile, Text};
use std::fmt::Debug;

/// The statement in the first layout that reads as what was written.
pub(super) fn first_true(
    source: &SourceFile,
    statement: &Statement,
    raws: &[Raw<'_>],
    unread: &[&Finding],
) -> String {
    let roles = roles::of(statement, raws, unread);
    let house = || columns::print(&rows::of(source, raws, &roles));
    // Odd indentation can carry a meaning of its own; its columns stay then.
    let unmoved = || columns::print(&raws.iter().zip(&roles).map(Row::unmoved).collect::<Vec<_>>());
    let as_written = || all(raws, Raw::as_written);
    let layouts: [&dyn Fn() -> String; 3] = [&house, &unmoved, &as_written];
    let layouts = layouts.get(usize::from(stays_in(raws, &roles))..).unwrap_or_default();
    let fits = |text: &String| same(source, statement, unread, text);
    // In a text that goes over the end of a line even the line's end is part of what is said.
    layouts.iter().map(|layout| layout()).find(fits).unwrap_or_else(|| all(raws, |raw| raw.whole))
}

/// Whether a line that could not be read keeps its neighbours where they are: beside it at another depth they would
/// look as if they belonged to something else.
fn stays_in(raws: &[Raw<'_>], roles: &[Role<'_>]) -> bool {
    let mut below = raws.iter().zip(roles).filter(|(raw, _)| {
        matches!(raw.line.kind, LineKind::Indented | LineKind::TooLong) && raw.line.indent() > 0
    });
    let first = below.clone().next().map(|(raw, _)| raw.line.indent());
    first.is_some_and(|indent| indent != INDENT) && below.any(|(_, role)| matches!(role, Role::Frozen))
}

fn all<'a>(raws: &[Raw<'a>], line: impl Fn(&Raw<'a>) -> &'a str) -> String {
    let mut text = String::new();
    raws.iter().for_each(|raw| push_line(&mut text, line(raw)));
    text
}

/// Whether `text` alone is the one statement, with the same lines unread.
fn same(source: &SourceFile, statement: &Statement, unread: &[&Finding], text: &str) -> bool {
    let again = parse(&SourceFile::new(source.id, "", text));
    let [other] = again.tree.statements.as_slice() else { return false };
    let faults = again.findings.len() == unread.len()
        && again.findings.iter().zip(unread).all(|(a, b)| a.rule == b.rule && a.message == b.message);
    faults
        && without_places(&statement.head) == without_places(&other.head)
        && statement.prose.as_ref().map(|it| &*it.source) == other.prose.as_ref().map(|it| &*it.source)
        && statement.details.len() == other.details.len()
        && statement.details.iter().zip(&other.details).all(|(a, b)| same_detail(a, b))
}

fn same_detail(a: &Detail, b: &Detail) -> bool {
    let texts = |texts: &[Text]| texts.iter().map(|text| text.value.clone()).collect::<Vec<_>>();
    let values = match (&a.value, &b.value) {
        (DetailValue::Prose(a), DetailValue::Prose(b)) => *a.source == *b.source,
        (DetailValue::Free, DetailValue::Free) => a.raw.value == b.raw.value,
        (a, b) => without_places(a) == without_places(b),
    };
    a.key.value == b.key.value && texts(&a.arguments) == texts(&b.arguments) && values
}

/// What a piece of the tree says, without where it stands: two that print the same mean the same.
fn without_places(piece: &impl Debug) -> String {
    const PLACE: &str = "Span {";
    let printed = format!("{piece:?}");
    let mut pieces = printed.split(PLACE);
    let mut said = pieces.next().unwrap_or("").to_owned();
    for piece in pieces {
        said.push_str(piece.split_once('}').map_or(piece, |(_, behind)| behind));
    }
    said
}
