//! One name is given to two things.
use super::{Rule, Subject};
use crate::model::Slip;
use crate::report::{Finding, Severity};

pub static RULE: Rule = Rule {
    id: "duplicate-name",
    severity: Severity::Error,
    waivable: false,
    summary: "One name is given twice",
    explain: "\
A name that means two things makes the sheet pick one of them, and the reader cannot see that there
was a choice. Parts, tools, supplies, lists, figures, standing messages, pieces of a set and labels
of steps share one set of names, since all of them may stand in brackets in prose.

Give one of the two another name, and look at every step that uses it.
",
    bad: r#"parts
    cover "Bearing cover"
    cover "Coupling cover"

clean cover
"#,
    good: r#"parts
    bearing-cover  "Bearing cover"
    coupling-cover "Coupling cover"

clean bearing-cover, coupling-cover
"#,
    check,
};

fn check(subject: &Subject<'_>, findings: &mut Vec<Finding>) {
    for slip in &subject.document.slips {
        if let Slip::DuplicateName { name, first } = slip {
            let message =
                format!("`{}` is taken already; a step that names it could mean either", name.value);
            findings.push(
                Finding::new(RULE.id, name.span, message)
                    .label(*first, "first given here")
                    .help("Give one of them another name, and look at the steps that use it"),
            );
        }
    }
}
