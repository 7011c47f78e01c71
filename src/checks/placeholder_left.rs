//! A text that was to be filled in still holds its dots.
use super::passages::Passage;
use super::{Rule, Subject};
use crate::model::placeholder::stands_for_words;
use crate::report::{Finding, Severity};
use crate::source::Span;

pub static RULE: Rule = Rule {
    id: "placeholder-left",
    severity: Severity::Error,
    waivable: false,
    summary: "A text still holds only the dots that stand for it",
    explain: "\
`facing \"…\"` keeps the place of words that only somebody who knows the machine can write. `cotter check --fix` puts \
it where a sided part is fitted without a side, so that it is not forgotten. On a sheet it would be a hole: the \
learner reads three dots and guesses.

A text of nothing but dots, dashes, underscores or question marks is such a place, in quotes or in prose: what is \
looked at, why to stop, what can happen. Write what is meant, or take the phrase out.",
    bad: "\
parts
    hub-seal \"Hub seal\"  single-use, sided

remove hub-seal from \"the hub\"; discard hub-seal
install new hub-seal in \"the hub\" facing \"…\"
",
    good: "\
parts
    hub-seal \"Hub seal\"  single-use, sided

remove hub-seal from \"the hub\"; discard hub-seal
install new hub-seal in \"the hub\" facing \"the lip toward the bearing\"
",
    check,
};

fn check(subject: &Subject<'_>, findings: &mut Vec<Finding>) {
    for passage in &subject.contents.passages {
        match passage {
            Passage::Quoted(_, text) => look(text.as_str(), text.span, subject, findings),
            Passage::Prose(_, prose) => look(&prose.source, prose.span, subject, findings),
        }
    }
    // What is said to learners, and why, which no rule of wording looks at.
    for step in &subject.contents.detailed {
        let asked = step.questions.iter().flat_map(|it| std::iter::once(&it.ask).chain(&it.answer));
        for prose in step.because.iter().chain(&step.teach).chain(asked) {
            look(&prose.source, prose.span, subject, findings);
        }
    }
}

/// Nearly every text is none, which its first letter tells.
#[inline]
fn look(text: &str, span: Span, subject: &Subject<'_>, findings: &mut Vec<Finding>) {
    if stands_for_words(text) {
        tell(span, subject, findings);
    }
}

#[cold]
fn tell(span: Span, subject: &Subject<'_>, findings: &mut Vec<Finding>) {
    let is_new = findings.iter().all(|it| it.rule != RULE.id || it.span != span);
    if is_new && subject.owns(span) {
        let told = format!("`{}` stands for words that were never written", subject.source.slice(span));
        findings
            .push(Finding::new(RULE.id, span, told).help("Write what is meant in its place, or take it out"));
    }
}
