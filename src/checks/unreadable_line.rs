//! A line cannot be read.
use super::{Rule, Subject};
use crate::report::{Finding, Severity};

pub static RULE: Rule = Rule {
    id: "unreadable-line",
    severity: Severity::Error,
    waivable: false,
    summary: "A line does not have the form of any statement",
    explain: "\
What cannot be read is on no sheet. Cotter reads on with the next line, so that one slip is one
finding, and makes no sheet until it is mended.

The finding shows the place up to which the line could be read. Often a quote is not closed, a comma
is left over, a word that leads a phrase (`with`, `from`, `by`) is used as a name, or a step is
indented and so belongs to the line above. A line of more than 8,000 bytes is not read either.
",
    bad: r#"check "make sure that the pump is cold
check "make sure that the pump is dry"
    if not ok: stop "Dry the pump."
"#,
    good: r#"check "make sure that the pump is dry"
    if not ok: stop "Dry the pump."
"#,
    check,
};

/// The parser makes these findings: a line it could not read is not in the document.
fn check(_: &Subject<'_>, _: &mut Vec<Finding>) {}
