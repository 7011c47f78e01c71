//! A text that was to be filled in still holds its dots.
use super::passages::Passage;
use super::{Rule, Subject};
use crate::report::{Finding, Severity};

pub static RULE: Rule = Rule {
    id: "placeholder-left",
    severity: Severity::Error,
    waivable: false,
    summary: "A text in quotes still holds only the dots that stand for it",
    explain: "\
`facing \"…\"` keeps the place of words that only somebody who knows the machine can write. `cotter check --fix` puts \
it where a sided part is fitted without a side, so that it is not forgotten. On a sheet it would be a hole: the \
learner reads three dots and guesses.

A text in quotes of nothing but dots, dashes, underscores or question marks is such a place. Write what is meant, or \
take the phrase out.",
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
        if let Passage::Quoted(_, text) = passage
            && stands_for_words(text.as_str())
        {
            let told = format!("`\"{}\"` stands for words that were never written", text.value);
            let finding = Finding::new(RULE.id, text.span, told);
            findings.push(finding.help("Write what is meant between the quotes, or take the phrase out"));
        }
    }
}

/// The first letter decides for nearly every text.
fn stands_for_words(text: &str) -> bool {
    !text.is_empty()
        && text.chars().all(|letter| matches!(letter, '…' | '.' | '?' | '_' | '-' | '–' | '—' | ' '))
}
