//! The parser: the readers by hand agree with the grammar, and every finding lies in the text.
use super::shop::alone;
use cotter::report::Finding;
use cotter::syntax::{parse as read, parse_by_grammar};

pub fn holds(bytes: &[u8]) {
    let text = String::from_utf8_lossy(bytes);
    let source = alone(&text);
    let (quick, whole) = (read(&source), parse_by_grammar(&source));
    assert_eq!(quick.tree, whole.tree, "the readers by hand see another tree");
    assert_eq!(quick.findings, whole.findings, "the readers by hand say something else");
    lie_in(&text, &quick.findings);
}

/// Findings, their labels and their mends point at characters of the text, and say something.
pub fn lie_in(text: &str, findings: &[Finding]) {
    for finding in findings {
        let rule = finding.rule;
        assert!(!finding.message.is_empty(), "[{rule}] says nothing");
        let labels = finding.labels.iter().map(|label| label.span);
        let own = labels.chain([finding.span]).filter(|span| span.file == finding.span.file);
        for span in own.chain(finding.edits.iter().map(|edit| edit.span)) {
            assert!(text.get(span.range()).is_some(), "[{rule}] points at {span:?}");
        }
    }
}
