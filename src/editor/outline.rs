//! What a file holds, as a tree: blocks with what they declare, sections with their numbered steps.
use super::shop::Page;
use crate::source::{SourceFile, Span};
use crate::syntax::ast::{BlockKind, Head, Statement};

/// One row of the tree.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Row {
    pub name: String,
    pub detail: String,
    pub sort: RowSort,
    /// All of it.
    pub whole: Span,
    /// The line that names it.
    pub line: Span,
    pub rows: Vec<Row>,
}

#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum RowSort {
    Procedure,
    Catalogue,
    Block,
    Thing,
    Section,
    Message,
    Step,
}

pub fn of(page: &Page) -> Vec<Row> {
    let source = &page.source;
    let steps = page.document.procedure().into_iter().flat_map(|procedure| procedure.steps());
    let mut numbers = steps.map(|step| (step.span, step.number)).peekable();
    let mut rows: Vec<Row> = Vec::new();
    let mut section: Option<Row> = None;
    for statement in &page.tree().statements {
        let mut row = match row(statement, source) {
            Some(row) => row,
            None => continue,
        };
        if row.sort == RowSort::Step {
            while numbers.next_if(|(span, _)| span.start < statement.span.start).is_some() {}
            if let Some((_, number)) = numbers.next_if(|(span, _)| span.start == statement.span.start) {
                row.name = format!("{number}  {}", row.name);
            }
        }
        match (row.sort, &mut section) {
            (RowSort::Section, _) => rows.extend(section.replace(row)),
            (RowSort::Step | RowSort::Message, Some(section)) => {
                section.whole = section.whole.to(row.whole);
                section.rows.push(row);
            }
            _ => rows.push(row),
        }
    }
    rows.extend(section);
    rows.sort_by_key(|row| row.whole.start);
    rows
}

fn row(statement: &Statement, source: &SourceFile) -> Option<Row> {
    let line = || source.slice(statement.span).split_whitespace().collect::<Vec<_>>().join(" ");
    let plain = |sort, name: &str, detail: &str| Row {
        name: name.to_owned(),
        detail: detail.to_owned(),
        sort,
        whole: statement.extent,
        line: statement.span,
        rows: Vec::new(),
    };
    Some(match &statement.head {
        Head::Procedure { number, title } => {
            plain(RowSort::Procedure, number.as_str(), title.as_ref().map_or("", |title| title.as_str()))
        }
        Head::Catalogue { title } => plain(RowSort::Catalogue, title.as_str(), "catalogue"),
        Head::Section { title } => plain(RowSort::Section, title.as_str(), ""),
        Head::Message(_) => plain(RowSort::Message, &line(), ""),
        Head::Step(_) => plain(RowSort::Step, &line(), ""),
        Head::Block { kind, declarations, .. } => {
            let things = declarations.iter().map(|it| Row {
                name: it.name.value.to_string(),
                detail: it.text.as_ref().map_or_else(String::new, |text| text.value.to_string()),
                sort: RowSort::Thing,
                whole: it.span,
                line: it.name.span,
                rows: Vec::new(),
            });
            Row { rows: things.collect(), ..plain(RowSort::Block, block(*kind), "") }
        }
        Head::Use { .. } | Head::Unread => return None,
    })
}

fn block(kind: BlockKind) -> &'static str {
    match kind {
        BlockKind::Parts => "parts",
        BlockKind::Tools => "tools",
        BlockKind::Supplies => "supplies",
        BlockKind::Torques => "torques",
        BlockKind::Figures => "figures",
    }
}
