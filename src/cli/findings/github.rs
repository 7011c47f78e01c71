//! Workflow commands that a build service turns into notes beside the lines: `::error file=…,line=…::message`.
//!
//! The command, its properties and the escapes (`%`, line ends; in properties `:` and `,` too) are those of GitHub's
//! published documentation of workflow commands, from memory.
use super::{Answer, Told, one_line};
use crate::cli::plain::harmful;
use crate::report::Severity;

/// A command for each finding and each file that could not be had.
pub fn answer(answer: &Answer<'_>) -> String {
    let troubles = answer.troubles.iter().map(|trouble| {
        let file = property(&trouble.file);
        format!("::error file={file}::{}\n", data(&trouble.to_string()))
    });
    answer.findings.iter().map(command).chain(troubles).collect()
}

fn command(told: &Told) -> String {
    let name = match told.severity {
        Severity::Error => "error",
        Severity::Warning => "warning",
        Severity::Advice => "notice",
    };
    let place = &told.place;
    let mut at = format!("file={},line={},col={}", property(&place.file), place.line, place.column);
    // Columns of an end are told only on the line of the start.
    if place.end_line == place.line {
        at.push_str(&format!(",endColumn={}", place.end_column));
    } else {
        at.push_str(&format!(",endLine={}", place.end_line));
    }
    let help = told.help.as_ref().map(|help| format!("\n{}", one_line(help))).unwrap_or_default();
    let message = data(&format!("{}{help}", one_line(&told.message)));
    format!("::{name} {at},title={}::{message}\n", property(told.rule))
}

fn data(text: &str) -> String {
    text.chars()
        .map(|c| if c != '\r' && harmful(c) { '?' } else { c })
        .collect::<String>()
        .replace('%', "%25")
        .replace('\r', "%0D")
        .replace('\n', "%0A")
}

fn property(text: &str) -> String {
    data(text).replace(':', "%3A").replace(',', "%2C")
}
