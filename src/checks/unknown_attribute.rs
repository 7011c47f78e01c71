//! A declaration has an attribute that nothing knows.
use super::suggestion::did_you_mean;
use super::{Rule, Subject};
use crate::model::Slip;
use crate::report::{Finding, Severity};
use crate::source::{Span, Text};

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
    gasket "Cover gasket" starts off, singel-use

install new gasket on "the housing"
"#,
    good: r#"parts
    gasket "Cover gasket" starts off, single-use

install new gasket on "the housing"
"#,
    check,
};

fn check(subject: &Subject<'_>, findings: &mut Vec<Finding>) {
    let mut last = None;
    for slip in &subject.document.slips {
        if let Slip::UnknownAttribute { key, on, near } = slip {
            let listed = near.is_empty() && last.is_some_and(|last| is_one_list(last, key.span, subject));
            if !listed {
                findings.push(count(key, subject).unwrap_or_else(|| finding(key, on, near)));
                last = (!near.is_empty()).then_some(key.span);
            }
        }
    }
}

/// Behind a misspelt key the rest of its list (`hazrds H225, H319`) looks like more attributes.
fn is_one_list(misspelt: Span, next: Span, subject: &Subject<'_>) -> bool {
    let between = subject.source.slice(Span { start: misspelt.end, end: next.start, ..next });
    !between.is_empty() && !between.contains(['"', '#'])
}

/// `4x` for `x4`.
fn count(key: &Text, subject: &Subject<'_>) -> Option<Finding> {
    let line = subject.source.text.get(key.span.start as usize..).filter(|_| key.value.is_empty())?;
    let number = line.get(..line.find(|c: char| !c.is_ascii_digit())?).filter(|number| !number.is_empty())?;
    let x = line.get(number.len()..)?.strip_prefix('x')?;
    let from = key.span.start as usize;
    let span = Span::new(key.span.file, from, from + number.len() + 1);
    let found = Finding::new(
        RULE.id,
        span,
        format!("`{number}x` is no attribute; a number of pieces is `x{number}`"),
    );
    (!x.starts_with(char::is_alphanumeric))
        .then(|| found.help(format!("Write `x{number}`")).edit(span, format!("x{number}")))
}

fn finding(key: &Text, on: &str, near: &[String]) -> Finding {
    let message = format!("`{}` is no attribute of a {on}, so the checks cannot use it", key.value);
    let help = did_you_mean(near).unwrap_or_else(|| {
        "Put what readers only have to see into the quoted text before the attributes".to_owned()
    });
    Finding::new(RULE.id, key.span, message).help(help)
}
