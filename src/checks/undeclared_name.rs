//! A statement uses a name that nothing declares.
use super::once::Once;
use super::suggestion::did_you_mean;
use super::{Rule, Subject};
use crate::model::Slip;
use crate::report::{Finding, Severity};
use crate::source::Span;

pub static RULE: Rule = Rule {
    id: "undeclared-name",
    severity: Severity::Error,
    waivable: false,
    summary: "A name is used that nothing declares",
    explain: r#"The lists at the head of a sheet are what people fetch before they start. A thing that a step names
and no list holds is missing when it is needed, and a misspelt name is the wrong thing.

Declare it under `parts`, `tools` or `supplies`, name the catalogue that holds it with `use`, or
mend the spelling. A place that is no part of the work may stand in quotes: `on "the bench"`.
"#,
    bad: r#"parts
    cover  "Bearing cover" starts off
    gasket "Cover gasket"  single-use, starts off

install new gaskett, cover on "the housing"
install new gasket on "the housing"
"#,
    good: r#"parts
    cover  "Bearing cover" starts off
    gasket "Cover gasket"  single-use, starts off

install new gasket, cover on "the housing"
"#,
    check,
};

/// `x10` behind an action.
fn times(name: &str) -> Option<String> {
    let number = name.strip_prefix('x').filter(|rest| rest.bytes().all(|byte| byte.is_ascii_digit()))?;
    (!number.is_empty()).then(|| format!("How often is written `{number} times`"))
}

/// The declared name that the word makes with its neighbours, were the blanks between them hyphens.
fn joined(subject: &Subject<'_>, span: Span) -> Option<String> {
    let text = &subject.source.text;
    let range = span.range();
    let word = text.get(range.clone()).filter(|_| subject.owns(span))?;
    let before = text.get(..range.start)?.lines().next_back()?;
    let before = before.strip_suffix(' ').and_then(|it| it.rsplit(' ').next());
    let behind = text.get(range.end..)?.lines().next()?.strip_prefix(' ').unwrap_or("");
    let mut behind = behind.split([' ', ',', ';']).take_while(|it| !it.is_empty());
    let (next, last) = (behind.next(), behind.next());
    let names = [
        next.zip(last).map(|(next, last)| format!("{word}-{next}-{last}")),
        next.map(|next| format!("{word}-{next}")),
        before.map(|before| format!("{before}-{word}")),
    ];
    names.into_iter().flatten().find(|name| subject.document.declarations.find(name).is_some())
}

fn check(subject: &Subject<'_>, findings: &mut Vec<Finding>) {
    let mut once = Once::default();
    for slip in &subject.document.slips {
        if let Slip::UndeclaredName { name, expected, near } = slip {
            once.push(subject, findings, name, || {
                if let Some(joined) = joined(subject, name.span) {
                    let message = format!("`{}` is not declared, but `{joined}` is", name.value);
                    let help = "A name is one word: put hyphens in place of its blanks";
                    return Finding::new(RULE.id, name.span, message).help(help);
                }
                let message = format!("`{}` is not declared; {expected} belongs here", name.value);
                let help = times(name.as_str()).or_else(|| did_you_mean(near)).unwrap_or_else(|| {
                    "Declare it under `parts`, `tools` or `supplies`, or put a mere place in quotes"
                        .to_owned()
                });
                Finding::new(RULE.id, name.span, message).help(help)
            });
        }
    }
}
