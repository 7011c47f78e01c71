//! Plain values to those of the protocol and back.
use crate::editor::desk::{Desk, Found, Report};
use crate::editor::positions::{Lines, Place};
use crate::editor::shop::Shop;
use crate::editor::texts::Change;
use crate::report::{Finding, Severity};
use crate::source::{FileId, SourceFile, Span};
use crate::workspace::trouble::Trouble;
use gen_lsp_types::{
    Code, Diagnostic, DiagnosticRelatedInformation, DiagnosticSeverity, DiagnosticTag, Location, Message,
    Position, PublishDiagnosticsParams, Range, TextDocumentContentChangeEvent, Uri,
};
use std::collections::HashMap;

/// The changes of a notification.
pub fn changes(events: Vec<TextDocumentContentChangeEvent>) -> Vec<Change> {
    let plain = |event| match event {
        TextDocumentContentChangeEvent::TextDocumentContentChangePartial(it) => {
            Change { range: Some((place(it.range.start), place(it.range.end))), text: it.text }
        }
        TextDocumentContentChangeEvent::TextDocumentContentChangeWholeDocument(it) => {
            Change { range: None, text: it.text }
        }
    };
    events.into_iter().map(plain).collect()
}

pub fn place(position: Position) -> Place {
    Place { line: position.line, character: position.character }
}

fn position(place: Place) -> Position {
    Position { line: place.line, character: place.character }
}

/// Places in the files of one workspace as the client counts them; each file's lines are found once.
pub struct Places<'a> {
    desk: &'a Desk,
    shop: &'a Shop,
    known: HashMap<FileId, Option<(Uri, SourceFile, Lines)>>,
}

impl<'a> Places<'a> {
    pub fn new(desk: &'a Desk, shop: &'a Shop) -> Places<'a> {
        Places { desk, shop, known: HashMap::new() }
    }

    fn file(&mut self, id: FileId) -> Option<&(Uri, SourceFile, Lines)> {
        let (desk, shop) = (self.desk, self.shop);
        let find = || {
            let (path, source) = (shop.path(id)?, shop.source(id)?);
            let lines = desk.lines(&path, &source.text);
            Some((Uri(desk.address(&path)), source, lines))
        };
        self.known.entry(id).or_insert_with(find).as_ref()
    }

    pub fn offset(&mut self, id: FileId, place: Place) -> usize {
        self.file(id).map_or(0, |(_, source, lines)| lines.offset(&source.text, place))
    }

    pub fn range(&mut self, span: Span) -> Range {
        self.location(span).map_or_else(Range::default, |location| location.range)
    }

    pub fn location(&mut self, span: Span) -> Option<Location> {
        let (uri, source, lines) = self.file(span.file)?;
        let (start, end) = lines.range(&source.text, span);
        Some(Location { uri: uri.clone(), range: Range { start: position(start), end: position(end) } })
    }
}

/// What the client is told of a file.
pub fn findings(desk: &Desk, report: &Report) -> PublishDiagnosticsParams {
    let diagnostics = match &report.found {
        Found::Gone => Vec::new(),
        Found::Trouble(trouble) => vec![of_trouble(trouble)],
        Found::Page(page) => match desk.shop_of(&report.path) {
            Some(shop) => {
                let mut places = Places::new(desk, shop);
                page.findings.iter().map(|finding| diagnostic(finding, &mut places)).collect()
            }
            None => Vec::new(),
        },
    };
    PublishDiagnosticsParams { uri: Uri(desk.address(&report.path)), version: report.version, diagnostics }
}

pub fn diagnostic(finding: &Finding, places: &mut Places<'_>) -> Diagnostic {
    let related = finding.labels.iter().filter_map(|label| {
        Some(DiagnosticRelatedInformation {
            location: places.location(label.span)?,
            message: label.text.to_string(),
        })
    });
    let related: Vec<_> = related.collect();
    let message = match &finding.help {
        Some(help) => format!("{}\n{help}", finding.message),
        None => finding.message.to_string(),
    };
    Diagnostic {
        range: places.range(finding.span),
        severity: Some(match finding.severity {
            Severity::Error => DiagnosticSeverity::Error,
            Severity::Warning => DiagnosticSeverity::Warning,
            Severity::Advice => DiagnosticSeverity::Information,
        }),
        code: Some(Code::String(finding.rule.to_owned())),
        source: Some("cotter".to_owned()),
        message: Message::String(message),
        tags: (finding.rule == "unused-declaration").then(|| vec![DiagnosticTag::Unnecessary]),
        related_information: (!related.is_empty()).then_some(related),
        ..Diagnostic::default()
    }
}

/// At the top of the file: what is wrong is elsewhere.
fn of_trouble(trouble: &Trouble) -> Diagnostic {
    let help = trouble.help.as_ref().map_or_else(String::new, |help| format!("\n{help}"));
    Diagnostic {
        severity: Some(DiagnosticSeverity::Error),
        source: Some("cotter".to_owned()),
        message: Message::String(format!("{trouble}{help}")),
        ..Diagnostic::default()
    }
}
