//! Findings as text: drawn for a terminal, or plain lines that tools can read.
use super::graphic;
pub use super::paths::harmful;
use super::terminal::{Look, style};
use super::workspace::Workspace;
use crate::report::{Finding, Severity};
use crate::source::{SourceFile, Span};
use anstyle::AnsiColor;
use std::fmt::Write;

/// How much of a long source line is shown around a finding, in characters.
const SHOWN: usize = 160;

/// A run's texts, from which the places of a file's findings are told.
#[derive(Clone, Copy)]
pub struct Places<'a> {
    pub workspace: &'a Workspace,
    pub source: &'a SourceFile,
}

impl<'a> Places<'a> {
    /// The file a span lies in: the one checked, or a catalogue.
    pub fn file(&self, span: Span) -> Option<&'a SourceFile> {
        if span.file == self.source.id { Some(self.source) } else { self.workspace.shelf.source(span.file) }
    }

    /// `procedures/pump.cotter:12:9`.
    pub fn place(&self, span: Span) -> String {
        let Some(file) = self.file(span) else { return self.workspace.shown(self.workspace.name(span.file)) };
        let (line, column) = file.line_column(span.start);
        format!("{}:{line}:{column}", self.workspace.shown(&file.name))
    }
}

/// All findings of one file.
pub fn findings(findings: &[Finding], places: Places<'_>, look: Look) -> String {
    let mut text = String::new();
    for finding in findings {
        if !(look.drawn && graphic::draw(finding, places, look, &mut text)) {
            plain(finding, places, &mut text);
        }
    }
    text
}

/// The colour of a severity's word.
pub fn colour(severity: Severity) -> AnsiColor {
    match severity {
        Severity::Error => AnsiColor::Red,
        Severity::Warning => AnsiColor::Yellow,
        Severity::Advice => AnsiColor::Cyan,
    }
}

fn plain(finding: &Finding, places: Places<'_>, text: &mut String) {
    let colour = style(colour(finding.severity));
    let (severity, rule) = (finding.severity.name(), finding.rule);
    let place = places.place(finding.span);
    push(text, format_args!("{place}: {colour}{severity}[{rule}]{colour:#}: {}", sentence(&finding.message)));
    if let Some(file) = places.file(finding.span) {
        quote(file, finding.span, text);
    }
    for label in &finding.labels {
        push(text, format_args!("  {}: {}", places.place(label.span), sentence(&label.text)));
    }
    if let Some(help) = &finding.help {
        push(text, format_args!("  help: {}", sentence(help)));
    }
}

/// The source line of `span`, and a line that underlines what `span` has of it.
fn quote(file: &SourceFile, span: Span, text: &mut String) {
    let (number, column) = file.line_column(span.start);
    let range = file.line_range(number);
    let line = file.text.get(range.clone()).unwrap_or("");
    let covered = file.text.get(span.start as usize..range.end.min(span.end as usize)).unwrap_or("");
    let line = line.trim_start_matches('\u{feff}');
    let skip = if line.chars().count() > SHOWN { column.saturating_sub(SHOWN / 2) } else { 0 };
    let shown: String = line.chars().skip(skip).take(SHOWN).collect();
    let before = column.saturating_sub(1 + skip);
    let pad: String = shown.chars().take(before).map(|c| if c == '\t' { '\t' } else { ' ' }).collect();
    let carets = "^".repeat(covered.chars().count().clamp(1, SHOWN.saturating_sub(before).max(1)));
    let width = number.to_string().len();
    push(text, format_args!("  {number} | {}", harmless(&shown)));
    push(text, format_args!("  {:width$} | {pad}{carets}", ""));
}

fn push(text: &mut String, line: std::fmt::Arguments<'_>) {
    text.write_fmt(line).and_then(|()| text.write_str("\n")).expect("a string takes all that is written");
}

/// Harmless and on one line: it may quote the name of a file.
fn sentence(text: &str) -> String {
    harmless(text).replace('\n', "?")
}

/// The text with every character that could steer the terminal shown as `?`.
pub fn harmless(text: &str) -> String {
    text.chars().map(|c| if harmful(c) { '?' } else { c }).collect()
}
