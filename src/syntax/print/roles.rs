//! What each line of a statement is, read off the tree.
use super::super::ast::{Declaration, Detail, DetailValue, Head, Statement};
use super::super::lines::LineKind;
use super::Raw;
use crate::report::Finding;
use crate::source::Span;

/// What a line is to its statement.
#[derive(Clone, Copy)]
pub(super) enum Role<'t> {
    Blank,
    Comment,
    /// The statement itself, and where it goes on.
    Head,
    HeadMore,
    Detail(&'t Detail),
    DetailMore,
    Prose,
    Declaration(&'t Declaration),
    DeclarationMore,
    /// A detail under a declaration; of a `stage:` the tree keeps no detail.
    Deep(Option<&'t Detail>),
    DeepMore,
    /// Could not be read, and stays to the byte.
    Frozen,
}

/// The role of each line of `statement`, in order.
pub(super) fn of<'t>(statement: &'t Statement, raws: &[Raw<'_>], unread: &[&Finding]) -> Vec<Role<'t>> {
    let frozen_head = matches!(statement.head, Head::Unread)
        || unread.iter().any(|finding| holds(statement.span, finding.span.start as usize));
    let mut roles = Vec::with_capacity(raws.len());
    for raw in raws {
        let role = match raw.line.kind {
            LineKind::Blank => Role::Blank,
            LineKind::Comment => Role::Comment,
            LineKind::TooLong => Role::Frozen,
            _ if holds(statement.span, raw.line.start()) => match () {
                () if frozen_head => Role::Frozen,
                () if statement.span.start as usize == raw.line.start() => Role::Head,
                () => Role::HeadMore,
            },
            _ => match &statement.head {
                Head::Unread => Role::Frozen,
                Head::Block { declarations, .. } => declared(declarations, raw, roles.last().copied()),
                _ => under(statement, raw),
            },
        };
        roles.push(role);
    }
    roles
}

fn holds(span: Span, at: usize) -> bool {
    (span.start as usize..span.end as usize).contains(&at)
}

fn starts(span: Span, raw: &Raw<'_>) -> bool {
    span.start as usize == raw.line.start()
}

fn under<'t>(statement: &'t Statement, raw: &Raw<'_>) -> Role<'t> {
    // Details stand in source order.
    let after = statement.details.partition_point(|it| it.span.start as usize <= raw.line.start());
    let detail = after.checked_sub(1).and_then(|at| statement.details.get(at));
    match detail.filter(|detail| holds(detail.span, raw.line.start())) {
        Some(detail) if matches!(detail.value, DetailValue::Unread) => Role::Frozen,
        Some(detail) if starts(detail.span, raw) => Role::Detail(detail),
        Some(_) => Role::DetailMore,
        None => Role::Prose,
    }
}

fn declared<'t>(declarations: &'t [Declaration], raw: &Raw<'_>, before: Option<Role<'t>>) -> Role<'t> {
    let after = declarations.partition_point(|it| it.span.start as usize <= raw.line.start());
    let Some(declaration) = after.checked_sub(1).and_then(|at| declarations.get(at)) else {
        return Role::Frozen;
    };
    if starts(declaration.span, raw) {
        return Role::Declaration(declaration);
    }
    if holds(declaration.span, raw.line.start()) {
        return Role::DeclarationMore;
    }
    let detail = declaration.details.iter().find(|detail| holds(detail.span, raw.line.start()));
    match detail {
        Some(detail) if matches!(detail.value, DetailValue::Unread) => Role::Frozen,
        Some(detail) if starts(detail.span, raw) => Role::Deep(Some(detail)),
        Some(_) => Role::DeepMore,
        None => stage(declaration, raw, before),
    }
}

/// Of a `stage:` the tree keeps what stands behind the colon.
fn stage<'t>(declaration: &'t Declaration, raw: &Raw<'_>, before: Option<Role<'t>>) -> Role<'t> {
    let line = raw.line.start()..raw.line.end();
    let begins = declaration.stages.iter().any(|it| line.contains(&(it.span.start as usize)));
    let goes_on = declaration.stages.iter().any(|it| holds(it.span, raw.line.start()));
    match before {
        _ if begins && raw.content.starts_with("stage") => Role::Deep(None),
        Some(Role::Deep(_) | Role::DeepMore) if goes_on => Role::DeepMore,
        _ => Role::Frozen,
    }
}
