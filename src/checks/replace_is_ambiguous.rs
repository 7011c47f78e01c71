//! A step says `replace`.
use super::{Rule, Subject};
use crate::model::Slip;
use crate::report::{Finding, Severity};

pub static RULE: Rule = Rule {
    id: "replace-is-ambiguous",
    severity: Severity::Error,
    waivable: false,
    summary: "A step says `replace`, which readers take in two ways",
    explain: r#"Half the trade reads "replace the gasket" as "fit a new one", the other half as "put it back". The
wrong half puts a used seal back, or waits for a part that was never ordered.

Write `renew` for taking the old one out for good and fitting a new one, `refit` for putting the
same one back.
"#,
    bad: r#"parts
    cover "Bearing cover"

clean cover
replace cover
"#,
    good: r#"parts
    cover "Bearing cover"

remove cover
refit cover
"#,
    check,
};

fn check(subject: &Subject<'_>, findings: &mut Vec<Finding>) {
    let written = subject.document.slips.iter().filter_map(|slip| match slip {
        Slip::ReplaceIsAmbiguous { verb } => Some((verb.as_str(), verb.span)),
        _ => None,
    });
    let told = subject.contents.works.iter().filter(|work| work.verb.name == "do").filter_map(|work| {
        let text = work.what.as_deref()?;
        let word = text.as_str().split(' ').next().filter(|word| word.eq_ignore_ascii_case("replace"))?;
        Some((word, text.span))
    });
    for (word, span) in written.chain(told) {
        let message =
            format!("`{word}` means \"fit a new one\" to one reader and \"put it back\" to another");
        findings.push(
            Finding::new(RULE.id, span, message)
                .help("Write `renew` to fit a new one, `refit` to put the same one back"),
        );
    }
}
