//! A step starts with a word that is no verb of the table.
use super::suggestion::did_you_mean;
use super::{Rule, Subject};
use crate::model::Slip;
use crate::report::{Finding, Severity};

pub static RULE: Rule = Rule {
    id: "unknown-verb",
    severity: Severity::Error,
    waivable: false,
    summary: "A step starts with a word that is no verb Cotter knows",
    explain: r#"From the verb Cotter knows what a step takes apart, fits, tightens or measures, which safety
messages it needs and how its sentence reads. With an unknown word all of that is missing.

Use a verb of the reference or one of its synonyms. For work that none of them fits write `do "…"`
with your own sentence. A word that is usual in your shop can be given a meaning under `[verbs]` in
`cotter.toml`.
"#,
    bad: r#"parts
    cover "Bearing cover"

claen cover
clean cover
"#,
    good: r#"parts
    cover "Bearing cover"

clean cover
"#,
    check,
};

fn check(subject: &Subject<'_>, findings: &mut Vec<Finding>) {
    for slip in &subject.document.slips {
        if let Slip::UnknownVerb { verb, near } = slip {
            let alone = near.iter().any(|word| word.strip_suffix('s') == Some(verb.as_str()));
            let message = if alone {
                format!("`{}` with nothing behind it is no step", verb.value)
            } else {
                format!("`{}` is no verb Cotter knows, so it cannot say what the step does", verb.value)
            };
            let help = did_you_mean(near).unwrap_or_else(|| {
                "Use a verb of the reference, or `do` with your own sentence in quotes".to_owned()
            });
            findings.push(Finding::new(RULE.id, verb.span, message).help(help));
        }
    }
}
