//! The header has a date that no calendar has, or that is not written year first.
use super::{Rule, Subject};
use crate::report::{Finding, Severity};
use crate::source::{Span, Text};

pub static RULE: Rule = Rule {
    id: "impossible-date",
    severity: Severity::Error,
    waivable: true,
    summary: "The header has a date that no calendar has, or that does not begin with the year",
    explain: "\
Two prints lie on the bench, and the date says which one holds. `2026-13-40` comes after every other, and nobody \
can ask for it. `03/04/2026` is a day in March to one reader and in April to the next.

Looked at are `revision`, `approved` and `source`: four digits, two and two are year, month and day (ISO 8601).",
    bad: "\
procedure EX-001 \"Renew the cover gasket\"
    revision:   A, 2026-13-40
    equipment:  F40 transfer pump
    models:     F40
    source:     manual \"F40 workshop manual, issue 7\"
    time:       30 min
    people:     1
    requires:   none
    afterwards: none

parts none
tools none
supplies none

do \"look round\"
",
    good: "\
procedure EX-001 \"Renew the cover gasket\"
    revision:   A, 2028-02-29
    equipment:  F40 transfer pump
    models:     F40
    source:     manual \"F40 workshop manual, issue 7\"
    time:       30 min
    people:     1
    requires:   none
    afterwards: none

parts none
tools none
supplies none

do \"look round\"
",
    check,
};

fn check(subject: &Subject<'_>, findings: &mut Vec<Finding>) {
    let Some(procedure) = subject.procedure() else { return };
    let header = &procedure.header;
    let sources = header.sources.iter().flatten();
    for text in header.revision.iter().chain(&header.approved).chain(sources) {
        for (word, fault, span) in dates(text, subject) {
            let message = match fault {
                Fault::NoDay => format!("`{word}` is no day of the calendar"),
                Fault::NotYearFirst => format!("`{word}` does not begin with the year"),
            };
            let help = "Write year, month and day: `2026-11-02`";
            findings.push(Finding::new(RULE.id, span, message).help(help));
        }
    }
}

enum Fault {
    NoDay,
    NotYearFirst,
}

/// `1.1.2026`
const SHORTEST: usize = 8;

/// What is written as a date in there and is not right, with its place.
fn dates<'t>(text: &Text, subject: &'t Subject<'_>) -> Vec<(&'t str, Fault, Span)> {
    let written = subject.source.slice(text.span);
    let mut found = Vec::new();
    let mut start = 0;
    for word in written.split_inclusive(|c: char| !c.is_ascii_digit() && !matches!(c, '-' | '.' | '/')) {
        let trimmed = word.trim_end_matches(|c: char| !c.is_ascii_digit());
        let fault = if trimmed.len() < SHORTEST {
            None
        } else if is_wrong(trimmed) {
            Some(Fault::NoDay)
        } else {
            is_year_last(trimmed).then_some(Fault::NotYearFirst)
        };
        if let Some(fault) = fault {
            let from = text.span.range().start + start;
            found.push((trimmed, fault, Span::new(text.span.file, from, from + trimmed.len())));
        }
        start += word.len();
    }
    found
}

/// `27.11.2026`, `11/27/2026`: whether day or month comes first differs from country to country.
fn is_year_last(word: &str) -> bool {
    ['.', '/', '-'].into_iter().any(|sign| {
        let parts: Vec<&str> = word.split(sign).collect();
        let digits = |at: usize| {
            parts.get(at).filter(|it| it.bytes().all(|byte| byte.is_ascii_digit())).map(|it| it.len())
        };
        let short = |at: usize| matches!(digits(at), Some(1 | 2));
        parts.len() == 3 && short(0) && short(1) && digits(2) == Some(4)
    })
}

/// Four, two and two digits that are no day.
fn is_wrong(word: &str) -> bool {
    let mut numbers = word.split('-');
    let mut next = |digits: usize| {
        let written = numbers.next().filter(|it| it.len() == digits)?;
        written.parse::<u32>().ok().filter(|_| written.bytes().all(|byte| byte.is_ascii_digit()))
    };
    let (Some(year), Some(month), Some(day)) = (next(4), next(2), next(2)) else { return false };
    numbers.next().is_none() && !(1..=days(year, month)).contains(&day)
}

/// Of the month; none where there is no such month.
fn days(year: u32, month: u32) -> u32 {
    let leap = year.is_multiple_of(4) && (!year.is_multiple_of(100) || year.is_multiple_of(400));
    match month {
        1 | 3 | 5 | 7 | 8 | 10 | 12 => 31,
        4 | 6 | 9 | 11 => 30,
        2 if leap => 29,
        2 => 28,
        _ => 0,
    }
}
