//! Findings as the page shows them, with places that a text box counts in.
use crate::Compiled;
use crate::report::{Edit, Finding};
use crate::source::{SourceFile, Span};
use crate::syntax;
use crate::workspace::Workspace;
use crate::workspace::fixes::{self, Fix, Looked};
use serde::Serialize;

/// More than anybody reads; a file with more is mended from the top.
const MOST: usize = 200;

#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct Told {
    pub rule: &'static str,
    pub severity: &'static str,
    /// Line and column from 1.
    pub line: usize,
    pub column: usize,
    /// The source line.
    pub text: String,
    /// From the text's start, in UTF-16 units.
    pub from: usize,
    pub to: usize,
    pub message: String,
    pub help: String,
    /// Other places, each "line 12: declared here".
    pub others: Vec<String>,
    /// The best first.
    pub mends: Vec<Mend>,
}

/// What can be done about a finding.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct Mend {
    pub title: String,
    /// It may be applied without a look.
    pub safe: bool,
    pub changes: Vec<Change>,
}

#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct Change {
    pub from: usize,
    pub to: usize,
    pub text: String,
}

/// The first [`MOST`] findings of a file.
pub fn told(compiled: &Compiled, workspace: &Workspace, source: &SourceFile) -> Vec<Told> {
    let Compiled { document, findings } = compiled;
    if findings.is_empty() {
        return Vec::new();
    }
    let tree = &syntax::parse(source).tree;
    let looked = Looked { settings: &workspace.settings, source, document, findings, tree };
    findings.iter().take(MOST).map(|finding| one(finding, workspace, &looked)).collect()
}

fn one(finding: &Finding, workspace: &Workspace, looked: &Looked<'_>) -> Told {
    let source = looked.source;
    let (line, column) = source.line_column(finding.span.start);
    let change = |edit: Edit| Change {
        from: units(source, edit.span.start),
        to: units(source, edit.span.end),
        text: edit.text,
    };
    // The box holds this file alone.
    let here = |fix: &Fix<'_>| fix.edits.iter().all(|edit| edit.span.file == source.id);
    let mends = fixes::of(looked, finding).into_iter().filter(here).map(|fix| Mend {
        title: fix.title,
        safe: fix.safe,
        changes: fix.edits.into_iter().map(change).collect(),
    });
    Told {
        rule: finding.rule,
        severity: finding.severity.name(),
        line,
        column,
        text: source.text.get(source.line_range(line)).unwrap_or_default().trim_end().to_owned(),
        from: units(source, finding.span.start),
        to: units(source, finding.span.end),
        message: finding.message.to_string(),
        help: finding.help.clone().unwrap_or_default().into_owned(),
        others: finding
            .labels
            .iter()
            .map(|label| other(label.span, &label.text, workspace, source))
            .collect(),
        mends: mends.collect(),
    }
}

fn other(span: Span, text: &str, workspace: &Workspace, source: &SourceFile) -> String {
    if span.file == source.id {
        return format!("line {}: {text}", source.line_column(span.start).0);
    }
    match workspace.shelf.source(span.file) {
        Some(theirs) => format!("{}, line {}: {text}", theirs.name, theirs.line_column(span.start).0),
        None => text.to_owned(),
    }
}

fn units(source: &SourceFile, offset: u32) -> usize {
    source.text.get(..offset as usize).unwrap_or_default().encode_utf16().count()
}
