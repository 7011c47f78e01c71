//! One JSON object a run.
//!
//! `{"version": 1, "findings": […], "troubles": […], "summary": {"files", "errors", "warnings", "advice"}}`. A
//! finding has `rule`, `severity`, `file`, `line`, `column`, `end_line`, `end_column` (from 1, in characters; the
//! end is the place behind the last character), `message`, `help`, `labels` (the same places with a `message`) and
//! `fingerprint`. A trouble has `file`, `message` and, where known, `line`, `column` and `help`.
use super::{Answer, Told};
use crate::cli::tally::Tally;
use crate::workspace::trouble::Trouble;
use serde::Serialize;

#[derive(Debug, Serialize)]
struct Whole<'a> {
    version: u32,
    findings: &'a [Told],
    troubles: &'a [Trouble],
    summary: Tally,
}

/// The text of the answer, with a line end.
pub fn answer(answer: &Answer<'_>) -> String {
    let Answer { findings, troubles, tally, .. } = *answer;
    let whole = Whole { version: 1, findings, troubles, summary: tally };
    let mut text = serde_json::to_string_pretty(&whole).expect("every key of the answer is text");
    text.push('\n');
    text
}
