//! One finding a line: `file:line:column: error[rule]: message`, for tools that read such lines.
use super::{Answer, one_line};
use crate::cli::paths::printable;

/// A line for each finding, and nothing else.
pub fn answer(answer: &Answer<'_>) -> String {
    let mut out = String::new();
    for told in answer.findings {
        let (place, severity) = (&told.place, told.severity.name());
        let message = one_line(&told.message);
        let help = told.help.as_ref().map(|help| format!(" ({})", one_line(help))).unwrap_or_default();
        let line = format!(
            "{}:{}:{}: {severity}[{}]: {message}{help}",
            place.file, place.line, place.column, told.rule
        );
        out.push_str(&printable(&line));
        out.push('\n');
    }
    out
}
