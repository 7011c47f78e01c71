//! A verb is not given what it needs.
use super::{Rule, Subject};
use crate::model::Slip;
use crate::model::verb::Verb;
use crate::report::{Finding, Severity};

pub static RULE: Rule = Rule {
    id: "missing-role",
    severity: Severity::Error,
    waivable: false,
    summary: "A verb is not given what it needs",
    explain: r#""Remove" is no instruction until it says what. The sheet would print half a sentence, and the checks
would not know what has come off.

Name what the help asks for. Work that has no object of its own can be written with `do "…"`.
"#,
    bad: r#"parts
    cover "Bearing cover"

clean cover
remove from "the housing"
"#,
    good: r#"parts
    cover "Bearing cover"

clean cover
"#,
    check,
};

fn check(subject: &Subject<'_>, findings: &mut Vec<Finding>) {
    for slip in &subject.document.slips {
        if let Slip::MissingRole { verb, span, wanted } = slip {
            let message = format!("Something is missing after `{}`: {wanted}", verb.value);
            let help = match Verb::find(&verb.value) {
                Some(_) => "Add it, or use `do` with your own sentence",
                None => "Add it to the line",
            };
            findings.push(Finding::new(RULE.id, *span, message).help(help));
        }
    }
}
