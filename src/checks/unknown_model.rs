//! A model is named that the header does not list.
use super::once::Once;
use super::suggestion::{did_you_mean, nearest, one_of};
use super::{Rule, Subject};
use crate::model::Slip;
use crate::report::{Finding, Severity};
use crate::source::Text;

pub static RULE: Rule = Rule {
    id: "unknown-model",
    severity: Severity::Error,
    waivable: false,
    summary: "A model is named that the header does not list",
    explain: "\
A step or part for a model that the procedure does not cover is on nobody's sheet; with a misspelt
model a step is missing on the machine that needs it.

Mend the spelling, or add the model under `models:` in the header.
",
    bad: r#"check "make sure that the flush port is clear"
    only: F40-S
    if not ok: stop "Clear the port."
"#,
    good: r#"check "make sure that the flush port is clear"
    only: F40S
    if not ok: stop "Clear the port."
"#,
    check,
};

fn check(subject: &Subject<'_>, findings: &mut Vec<Finding>) {
    let mut once = Once::default();
    for slip in &subject.document.slips {
        if let Slip::UnknownModel { model, known } = slip {
            once.push(subject, findings, model, || finding(model, known));
        }
    }
}

fn finding(model: &Text, known: &[String]) -> Finding {
    let message =
        format!("`{}` is not among the models of the header, so this is on nobody's sheet", model.value);
    let near = nearest(&model.value, known.iter().map(String::as_str));
    let help = did_you_mean(&near)
        .or_else(|| {
            one_of(known).map(|models| format!("The header has {models}; add it there if it is covered"))
        })
        .unwrap_or_else(|| "Name the models under `models:` in the header".to_owned());
    Finding::new(RULE.id, model.span, message).help(help)
}
