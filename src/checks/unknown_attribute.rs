//! A declaration has an attribute that nothing knows.
use super::suggestion::did_you_mean;
use super::{Rule, Subject};
use crate::model::Slip;
use crate::report::{Finding, Severity};

pub static RULE: Rule = Rule {
    id: "unknown-attribute",
    severity: Severity::Error,
    waivable: false,
    summary: "A declaration has an attribute that its kind of thing does not have",
    explain: r#"An attribute is a fact the checks work from: that a ring is single-use, a spring loaded, a seal
sided. A misspelt one is a fact the sheet does not have, so the safety message or the new part is
missing.

Mend the spelling, or put what readers only have to see into the quoted text: `"Cover, grey"`.
Parts, tools and supplies have different attributes.
"#,
    bad: r#"parts
    gasket "Cover gasket" singel-use

install new gasket on "the housing"
"#,
    good: r#"parts
    gasket "Cover gasket" single-use

install new gasket on "the housing"
"#,
    check,
};

fn check(subject: &Subject<'_>, findings: &mut Vec<Finding>) {
    for slip in &subject.document.slips {
        if let Slip::UnknownAttribute { key, on, near } = slip {
            let message = format!("`{}` is no attribute of a {on}, so the checks cannot use it", key.value);
            let help = did_you_mean(near).unwrap_or_else(|| {
                "Put what readers only have to see into the quoted text before the attributes".to_owned()
            });
            findings.push(Finding::new(RULE.id, key.span, message).help(help));
        }
    }
}
