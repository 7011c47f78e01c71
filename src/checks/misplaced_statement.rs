//! A statement stands where it means nothing.
use super::{Rule, Subject};
use crate::model::Slip;
use crate::report::{Finding, Severity};

pub static RULE: Rule = Rule {
    id: "misplaced-statement",
    severity: Severity::Error,
    waivable: false,
    summary: "A statement, or a line under it, stands where it means nothing",
    explain: "\
A file holds one procedure or one catalogue, says so in its first statement, and declares before it
works. A catalogue has no steps, since nobody would ever do them.

Move the statement to where it belongs, or into a file of its own.
",
    bad: r#"catalogue "Common items"

tools
    hook "Seal hook"

clean hook
"#,
    good: r#"catalogue "Common items"

tools
    hook "Seal hook"
"#,
    check,
};

fn check(subject: &Subject<'_>, findings: &mut Vec<Finding>) {
    for slip in &subject.document.slips {
        if let Slip::UnusableStatement { span, why } = slip {
            if subject.source.text.trim_start_matches('\u{feff}').trim().is_empty() {
                let empty = Finding::new(
                    RULE.id,
                    *span,
                    "The file is empty: it starts with `procedure NUMBER \"Title\"`",
                );
                findings.push(empty.help("Begin with that line, or with `catalogue \"Title\"` for things that several procedures use"));
                continue;
            }
            findings.push(
                Finding::new(RULE.id, *span, format!("This cannot stand here: {why}"))
                    .help("Move it to where it belongs, or into a file of its own"),
            );
        }
    }
}
