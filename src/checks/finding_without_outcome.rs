//! Something is looked at and nothing says what follows.
use super::finders;
use super::{Rule, Subject};
use crate::model::step::When;
use crate::model::verb::Effect;
use crate::model::{Action, Procedure, Step};
use crate::report::{Finding, Severity};

pub static RULE: Rule = Rule {
    id: "finding-without-outcome",
    severity: Severity::Warning,
    waivable: true,
    summary: "Something is looked at, tried or checked, and nothing says what follows",
    explain: "\
Who inspects a part and finds a crack has to know whether it is renewed, reported or let pass. A sheet that is \
silent leaves that to the one who is in a hurry.

Under `inspect`, `test` and `check` stands at least one outcome: `if cracked: …`, `if not ok: …`, `otherwise: …`. \
A reading without a limit is recorded or used by a `calculate`. Nothing is owed where a later step hangs on the \
finding (`only: rim-look failed`), or a `hold` of the same section has somebody answer for it.",
    bad: "\
parts
    drum \"Brake drum\"

inspect drum \"cracks, scores\"
",
    good: "\
parts
    drum \"Brake drum\"

inspect drum \"cracks, scores\"
    if cracked: renew drum
    if scored: report supervisor \"The drum is scored.\"
",
    check,
};

fn check(subject: &Subject<'_>, findings: &mut Vec<Finding>) {
    for step in subject.contents.finders.iter().copied() {
        let says = |when: &When| !matches!(when, When::Impossible);
        if step.outcomes.iter().flat_map(|outcome| &outcome.when).any(|when| says(&when.value)) {
            continue;
        }
        let Some(work) = step.actions.iter().filter_map(Action::work).find(|work| work.verb.finds) else {
            continue;
        };
        let reading = work.verb.does(Effect::Measures);
        let used = reading && (step.record.is_some() || finders::is_read(subject, step));
        // A limit that nothing follows from has a rule of its own.
        if used || finders::limits(step).is_some() || subject.is_unclear_step(step) {
            continue;
        }
        if finders::is_asked(subject, step) || is_signed_for(subject, step) {
            continue;
        }
        let text = match reading {
            true => "Nothing says what the reading is for",
            false => "Nothing says what to do when it is not as it should be",
        };
        let help = match reading {
            true => "Give it a limit with an outcome, record it (`record: …`), or take it out",
            false => "Add an outcome under the step: `if cracked: …`, `if not ok: stop \"…\"`",
        };
        findings.push(Finding::new(RULE.id, work.verb_span, text).help(help));
    }
}

/// Whether somebody answers for it further down its section.
fn is_signed_for(subject: &Subject<'_>, step: &Step) -> bool {
    let sections = subject.procedure().map(|procedure: &Procedure| procedure.sections.as_slice());
    let of_step = |from: u32, to: u32| (from..=to).contains(&step.number);
    let section = sections.unwrap_or(&[]).iter().find(|section| {
        let ends = section.steps.first().zip(section.steps.last());
        ends.is_some_and(|(first, last)| of_step(first.number, last.number))
    });
    let later = section.into_iter().flat_map(|section| &section.steps);
    let mut later = later.skip_while(|it| it.number <= step.number);
    later.any(|it| it.actions.iter().any(|action| matches!(action, Action::Hold(_))))
}
