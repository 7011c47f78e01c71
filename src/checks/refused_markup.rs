//! Prose holds HTML or a link that the sheets do not take.
use super::{Rule, Subject};
use crate::model::Slip;
use crate::report::{Finding, Severity};

pub static RULE: Rule = Rule {
    id: "refused-markup",
    severity: Severity::Warning,
    waivable: true,
    summary: "Prose holds HTML, or a link of a kind that the sheets refuse",
    explain: "\
A sheet has to look the same on paper, on a tablet and in ten years, and must load nothing from
outside itself. So HTML in prose is printed as the characters it is made of, and only links with
`https`, `http`, `mailto` or a path of their own are made.

Use the marks of CommonMark, `*words*` and `**words**`, or leave the markup out.
",
    bad: r#"check "make sure that the pump is cold"
    if not ok: stop "Let the pump cool down."
    Do this every time.<br>Also in summer.
"#,
    good: r#"check "make sure that the pump is cold"
    if not ok: stop "Let the pump cool down."
    Do this every time. Also in **summer**.
"#,
    check,
};

fn check(subject: &Subject<'_>, findings: &mut Vec<Finding>) {
    for slip in &subject.document.slips {
        if let Slip::RefusedMarkup { span, why } = slip {
            let message = format!("`{}` would be printed as it stands: {why}", subject.source.slice(*span));
            findings.push(
                Finding::new(RULE.id, *span, message)
                    .help("Write `**words**` for weight, or leave the markup out"),
            );
        }
    }
}
