//! An outcome one letter off from one of those that a limit decides.
use super::{Rule, Subject};
use crate::model::step::{Outcome, When};
use crate::model::{Action, Procedure};
use crate::report::{Finding, Severity};
use crate::source::Span;

pub static RULE: Rule = Rule {
    id: "misspelt-outcome",
    severity: Severity::Warning,
    waivable: true,
    summary: "An outcome of a measurement is one letter off from `below`, `above` or `outside`",
    explain: "\
`below`, `above` and `outside` are decided by the limits of the step, `not ok` by what is looked at. Any other words \
after `if` are a finding that the reader names, such as `cracked`: so `bellow` would be printed as it stands, and \
nothing would follow from a reading below the limit.

Mend the word. Where the free word is meant, say what is seen in two: `if bellow torn`.",
    bad: "\
parts
    shims \"Shim\" x4

measure shims \"height of the stack\" 12.0 to 12.4 mm as stack
    if outsid: stop \"Fit other shims.\"
",
    good: "\
parts
    shims \"Shim\" x4

measure shims \"height of the stack\" 12.0 to 12.4 mm as stack
    if outside: stop \"Fit other shims.\"
",
    check,
};

const OF_LIMITS: [&str; 3] = ["below", "above", "outside"];
const NOT_OK: &str = "not ok";

fn check(subject: &Subject<'_>, findings: &mut Vec<Finding>) {
    let steps = subject.procedure().into_iter().flat_map(Procedure::steps);
    for step in steps.filter(|step| !step.outcomes.is_empty()) {
        let has_limits = step.actions.iter().any(has_limits);
        findings.extend(step.outcomes.iter().flat_map(found).filter_map(|(words, span)| {
            let near =
                |known: &&&str| begin_or_end_alike(words, known) && strsim::osa_distance(words, known) == 1;
            let meant = OF_LIMITS.iter().filter(|_| has_limits).chain([&NOT_OK]).find(near)?;
            Some(finding(words, span, meant))
        }));
    }
}

fn has_limits(action: &Action) -> bool {
    match action {
        Action::Work(work) => work.quantity.is_some(),
        Action::Calculate(sum) => sum.limits.is_some(),
        _ => false,
    }
}

/// Whether the free words of an outcome are meant for one that a limit decides.
pub(super) fn is_slip(words: &str) -> bool {
    OF_LIMITS.iter().any(|known| strsim::osa_distance(words, known) == 1)
}

/// The free words of an outcome; longer ones cannot be slips.
fn found(outcome: &Outcome) -> impl Iterator<Item = (&str, Span)> {
    outcome.when.iter().filter_map(|when| match &when.value {
        When::Found(words) if words.len() <= "outside".len() + 1 => Some((words.as_str(), when.span)),
        _ => None,
    })
}

/// One slip of the pen leaves the first letter or the last; most words need no closer look.
fn begin_or_end_alike(a: &str, b: &str) -> bool {
    let (a, b) = (a.as_bytes(), b.as_bytes());
    a.first() == b.first() || a.last() == b.last()
}

fn finding(words: &str, span: Span, meant: &str) -> Finding {
    Finding::new(RULE.id, span, format!("`{words}` is no outcome that the limits decide"))
        .help(format!("Write `{meant}`"))
        .edit(span, meant)
        .guessed()
}
