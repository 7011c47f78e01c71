//! Findings drawn for a terminal by miette, with frames around the source lines.
use super::plain::{Places, harmful, harmless};
use super::terminal::Look;
use crate::report::{Finding, Severity};
use crate::source::{SourceFile, Span};
use miette::{
    Diagnostic, GraphicalReportHandler, GraphicalTheme, LabeledSpan, MietteError, MietteSpanContents,
    SourceCode, SourceSpan, SpanContents, ThemeCharacters, ThemeStyles,
};
use std::fmt::{self, Display, Formatter};

/// Lines longer than this (bytes) are not drawn: the frame would be unreadable, and miette fails past column 65,535.
const LONGEST_DRAWN: usize = 1_000;

/// Draws one finding; false where its lines are too long to be drawn.
pub fn draw(finding: &Finding, places: Places<'_>, look: Look, text: &mut String) -> bool {
    let Some(file) = places.file(finding.span) else { return false };
    let near: Vec<(Span, Option<String>)> = std::iter::once((finding.span, None))
        .chain(finding.labels.iter().map(|label| (label.span, Some(harmless(&label.text)))))
        .filter(|(span, _)| span.file == finding.span.file)
        .collect();
    if near.iter().any(|(span, _)| !drawable(file, *span)) {
        return false;
    }
    let drawn = Drawn {
        finding,
        labels: near.into_iter().map(|(span, text)| labelled(file, span, text)).collect(),
        help: help(finding, places),
        lines: Lines::new(file, places.workspace.shown(&file.name)),
    };
    let theme = GraphicalTheme {
        characters: ThemeCharacters::unicode(),
        styles: if look.coloured { ThemeStyles::ansi() } else { ThemeStyles::none() },
    };
    let handler = GraphicalReportHandler::new_themed(theme).with_width(look.width).with_links(false);
    let length = text.len();
    let done = handler.render_report(text, &drawn).is_ok();
    if done {
        text.push('\n')
    } else {
        text.truncate(length)
    }
    done
}

/// Whether the span's line and its neighbours are short enough.
fn drawable(file: &SourceFile, span: Span) -> bool {
    let (line, _) = file.line_column(span.start);
    (line.saturating_sub(1).max(1)..=line + 1).all(|line| file.line_range(line).len() <= LONGEST_DRAWN)
}

/// The part of the span on its first line: a frame over twenty lines hides what it shows.
fn labelled(file: &SourceFile, span: Span, text: Option<String>) -> LabeledSpan {
    let (line, _) = file.line_column(span.start);
    let end = file.line_range(line).end.min(span.end as usize);
    let start = span.start as usize;
    let length = end.saturating_sub(start);
    match text {
        Some(text) => LabeledSpan::new(Some(text), start, length),
        None => LabeledSpan::new_primary_with_span(None, (start, length)),
    }
}

/// The mend, and what labels in other files say.
fn help(finding: &Finding, places: Places<'_>) -> Option<String> {
    let elsewhere = finding.labels.iter().filter(|label| label.span.file != finding.span.file);
    let lines: Vec<String> = finding
        .help
        .iter()
        .map(|help| harmless(help))
        .chain(elsewhere.map(|label| format!("{}: {}", places.place(label.span), harmless(&label.text))))
        .collect();
    (!lines.is_empty()).then(|| lines.join("\n"))
}

/// A finding in miette's clothes.
#[derive(Debug)]
struct Drawn<'a> {
    finding: &'a Finding,
    labels: Vec<LabeledSpan>,
    help: Option<String>,
    lines: Lines<'a>,
}

impl Display for Drawn<'_> {
    fn fmt(&self, f: &mut Formatter<'_>) -> fmt::Result {
        f.write_str(&harmless(&self.finding.message))
    }
}

impl std::error::Error for Drawn<'_> {}

impl Diagnostic for Drawn<'_> {
    fn code<'a>(&'a self) -> Option<Box<dyn Display + 'a>> {
        Some(Box::new(format!("{}[{}]", self.finding.severity.name(), self.finding.rule)))
    }
    fn severity(&self) -> Option<miette::Severity> {
        Some(match self.finding.severity {
            Severity::Error => miette::Severity::Error,
            Severity::Warning => miette::Severity::Warning,
            Severity::Advice => miette::Severity::Advice,
        })
    }
    fn help<'a>(&'a self) -> Option<Box<dyn Display + 'a>> {
        self.help.as_ref().map(|help| Box::new(help) as Box<dyn Display>)
    }
    fn source_code(&self) -> Option<&dyn SourceCode> {
        Some(&self.lines)
    }
    fn labels(&self) -> Option<Box<dyn Iterator<Item = LabeledSpan> + '_>> {
        Some(Box::new(self.labels.iter().cloned()))
    }
}

/// A file whose lines are found by its index, so that a late finding costs no more than an early one.
#[derive(Debug)]
struct Lines<'a> {
    file: &'a SourceFile,
    shown: String,
    /// The text with harmful characters blanked byte for byte, where it has any.
    cleaned: Option<String>,
}

impl<'a> Lines<'a> {
    fn new(file: &'a SourceFile, shown: String) -> Lines<'a> {
        let blank = |c: char| if harmful(c) && c != '\r' { "?".repeat(c.len_utf8()) } else { c.to_string() };
        let cleaned =
            file.text.contains(|c| harmful(c) && c != '\r').then(|| file.text.chars().map(blank).collect());
        Lines { file, shown, cleaned }
    }

    /// From 0, in characters.
    fn column(&self, offset: usize) -> usize {
        self.file.line_column(u32::try_from(offset).unwrap_or(u32::MAX)).1.saturating_sub(1)
    }

    fn text(&self) -> &str {
        self.cleaned.as_deref().unwrap_or(&self.file.text)
    }
}

impl SourceCode for Lines<'_> {
    fn read_span<'a>(
        &'a self,
        span: &SourceSpan,
        lines_before: usize,
        lines_after: usize,
    ) -> Result<Box<dyn SpanContents<'a> + 'a>, MietteError> {
        let at = |offset: usize| self.file.line_column(u32::try_from(offset).unwrap_or(u32::MAX)).0;
        let first = at(span.offset()).saturating_sub(lines_before).max(1);
        let last = (at(span.offset() + span.len()) + lines_after).min(self.file.line_count());
        let start = self.file.line_range(first).start;
        let end = self.file.line_range(last).end.max(start);
        let bytes = self.text().as_bytes().get(start..end).ok_or(MietteError::OutOfBounds)?;
        let shown = SourceSpan::from((start, end - start));
        let count = last.saturating_sub(first) + 1;
        // Asked without context, miette wants to print the place of the span itself.
        let column = if lines_before + lines_after == 0 { self.column(span.offset()) } else { 0 };
        let name = self.shown.clone();
        Ok(Box::new(MietteSpanContents::new_named(
            name,
            bytes,
            shown,
            first.saturating_sub(1),
            column,
            count,
        )))
    }
}
