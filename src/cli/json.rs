//! Findings for programs: one JSON object a run.
//!
//! `{"version": 1, "findings": […], "troubles": […], "summary": {"files", "errors", "warnings", "advice"}}`. A
//! finding has `rule`, `severity`, `file`, `line`, `column`, `end_line`, `end_column` (from 1, in characters; the
//! end is the place behind the last character), `message`, `help` and `labels` (the same places with a `message`).
//! A trouble has `file`, `message` and, where known, `line`, `column` and `help`.
use super::plain::Places;
use super::tally::Tally;
use super::trouble::Trouble;
use crate::report::{Finding, Severity};
use crate::source::Span;
use serde::Serialize;

/// The whole answer.
#[derive(Debug, Serialize)]
pub struct Answer {
    version: u32,
    findings: Vec<JsonFinding>,
    troubles: Vec<Trouble>,
    summary: Tally,
}

#[derive(Debug, Serialize)]
pub struct JsonFinding {
    rule: &'static str,
    severity: Severity,
    #[serde(flatten)]
    place: Place,
    message: String,
    help: Option<String>,
    labels: Vec<JsonLabel>,
}

#[derive(Debug, Serialize)]
struct JsonLabel {
    #[serde(flatten)]
    place: Place,
    message: String,
}

#[derive(Debug, Serialize)]
struct Place {
    file: String,
    line: usize,
    column: usize,
    end_line: usize,
    end_column: usize,
}

/// The findings of one file.
pub fn findings(findings: &[Finding], places: Places<'_>) -> Vec<JsonFinding> {
    let convert = |finding: &Finding| JsonFinding {
        rule: finding.rule,
        severity: finding.severity,
        place: place(places, finding.span),
        message: finding.message.clone(),
        help: finding.help.clone(),
        labels: finding
            .labels
            .iter()
            .map(|label| JsonLabel { place: place(places, label.span), message: label.text.clone() })
            .collect(),
    };
    findings.iter().map(convert).collect()
}

/// The text of the answer, with a line end.
pub fn answer(findings: Vec<JsonFinding>, troubles: Vec<Trouble>, summary: Tally) -> String {
    let answer = Answer { version: 1, findings, troubles, summary };
    let mut text = serde_json::to_string_pretty(&answer).expect("every key of the answer is text");
    text.push('\n');
    text
}

fn place(places: Places<'_>, span: Span) -> Place {
    let file = places.file(span).unwrap_or(places.source);
    let (line, column) = file.line_column(span.start);
    let (end_line, end_column) = file.line_column(span.end);
    Place { file: places.workspace.shown(&file.name), line, column, end_line, end_column }
}
