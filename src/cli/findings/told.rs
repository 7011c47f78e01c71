//! A finding with its places in lines and columns, and a fingerprint that stays when lines move.
use crate::cli::plain::Places;
use crate::report::{Finding, Severity};
use crate::source::Span;
use serde::Serialize;
use sha2::{Digest, Sha256};
use std::collections::HashMap;
use std::fmt::Write;

/// One finding.
#[derive(Debug, Clone, Serialize)]
pub struct Told {
    pub rule: &'static str,
    pub severity: Severity,
    #[serde(flatten)]
    pub place: Place,
    pub message: String,
    pub help: Option<String>,
    pub labels: Vec<Label>,
    /// Of the rule, the file and the words it is about; the same wherever in the file they stand.
    pub fingerprint: String,
    /// The safe mend: places and what is to stand there.
    #[serde(skip)]
    pub edits: Vec<(Place, String)>,
    /// Relative to the workspace, whatever folder the program was started in.
    #[serde(skip)]
    pub name: String,
}

#[derive(Debug, Clone, Serialize)]
pub struct Label {
    #[serde(flatten)]
    pub place: Place,
    pub message: String,
}

/// Lines and columns from 1, in characters; the end is the place behind the last character.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct Place {
    pub file: String,
    pub line: usize,
    pub column: usize,
    pub end_line: usize,
    pub end_column: usize,
}

/// The findings of one file.
pub fn of_file(findings: &[Finding], places: Places<'_>) -> Vec<Told> {
    let mut seen: HashMap<String, u32> = HashMap::new();
    let mut told = |finding: &Finding| {
        let about = about(finding, places);
        // The second of two alike is told from the first by its number.
        let count = seen.entry(about.clone()).or_default();
        *count += 1;
        Told {
            rule: finding.rule,
            severity: finding.severity,
            place: place(places, finding.span),
            message: finding.message.to_string(),
            help: finding.help.as_ref().map(|help| help.to_string()),
            labels: finding
                .labels
                .iter()
                .map(|label| Label { place: place(places, label.span), message: label.text.to_string() })
                .collect(),
            fingerprint: fingerprint(&format!("{about}\n{count}")),
            edits: finding
                .edits
                .iter()
                .filter(|_| !finding.guessed)
                .map(|edit| (place(places, edit.span), edit.text.clone()))
                .collect(),
            name: places.source.name.to_string(),
        }
    };
    findings.iter().map(&mut told).collect()
}

/// Rule, file, line without its layout, and the words of the finding in it. Messages may hold numbers of steps, which
/// change when others come before, so they are left out.
fn about(finding: &Finding, places: Places<'_>) -> String {
    let file = places.file(finding.span).unwrap_or(places.source);
    let (number, _) = file.line_column(finding.span.start);
    let line = file.text.get(file.line_range(number)).unwrap_or("");
    let words = |text: &str| super::one_line(text);
    format!("{}\n{}\n{}\n{}", finding.rule, file.name, words(line), words(file.slice(finding.span)))
}

/// Half of the SHA-256, in hexadecimal digits: no two findings of a workspace share it.
fn fingerprint(text: &str) -> String {
    let digest = Sha256::digest(text.as_bytes());
    digest.iter().take(16).fold(String::with_capacity(32), |mut out, byte| {
        let _ = write!(out, "{byte:02x}");
        out
    })
}

fn place(places: Places<'_>, span: Span) -> Place {
    let file = places.file(span).unwrap_or(places.source);
    let (line, column) = file.line_column(span.start);
    let (end_line, end_column) = file.line_column(span.end);
    Place { file: places.workspace.written(&file.name), line, column, end_line, end_column }
}
