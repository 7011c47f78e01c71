//! A repeat that does not lead back, or a skip that does not lead on.
use super::{Rule, Subject};
use crate::model::action::{Jump, Repeat};
use crate::model::{Action, Procedure, Step};
use crate::report::{Finding, Severity};
use crate::source::Span;

pub static RULE: Rule = Rule {
    id: "repeat-out-of-order",
    severity: Severity::Error,
    waivable: true,
    summary: "A `repeat` does not lead back, or a `skip` does not lead on",
    explain: "\
Who is sent \"again from\" a step that comes later leaves the steps between out without knowing; who skips back \
goes round for ever.

`repeat from` names this step or an earlier one, and in `repeat A to B` the step A comes first. `skip to` names a \
later step.",
    bad: "\
parts
    shaft \"Pump shaft\"

measure shaft \"run-out\" max 0.05 mm as run-out
    if above: repeat from polished, at most 2 times
do \"polish the shaft\" on shaft as polished
",
    good: "\
parts
    shaft \"Pump shaft\"

do \"polish the shaft\" on shaft as polished
measure shaft \"run-out\" max 0.05 mm as run-out
    if above: repeat from polished, at most 2 times
",
    check,
};

fn check(subject: &Subject<'_>, findings: &mut Vec<Finding>) {
    for (step, action) in &subject.contents.steering {
        match action {
            Action::Repeat(repeat) => findings.extend(of_repeat(subject, step, repeat)),
            Action::Skip(skip) if skip.to.step.is_some_and(|to| to <= step.number) => {
                let text =
                    format!("`{}` does not come later: the work goes round for ever", skip.to.label.value);
                let help = "Where steps are done again, say `repeat from …, at most 2 times`";
                findings.push(finding(subject, skip.to.label.span, text, &skip.to).help(help));
            }
            _ => {}
        }
    }
}

fn of_repeat(subject: &Subject<'_>, step: &Step, repeat: &Repeat) -> Option<Finding> {
    let from = repeat.from.step?;
    let label = &repeat.from.label;
    if from > step.number {
        let text = format!("`{}` comes later: going back to it leaves out the steps between", label.value);
        let help = "Name an earlier step, or say `skip to` where the steps between are left out on purpose";
        return Some(finding(subject, label.span, text, &repeat.from).help(help));
    }
    let to = repeat.to.as_ref()?;
    if to.step? < from {
        let text =
            format!("`{}` comes before `{}`: there is nothing between them", to.label.value, label.value);
        return Some(finding(subject, to.label.span, text, to).help("Name the first step first"));
    }
    if to.step? > step.number {
        let text = format!("`{}` comes after the repeat itself", to.label.value);
        let help = "Put the `repeat` behind the last step that it repeats";
        return Some(finding(subject, to.label.span, text, to).help(help));
    }
    None
}

fn finding(subject: &Subject<'_>, at: Span, text: String, to: &Jump) -> Finding {
    let steps = subject.procedure().into_iter().flat_map(Procedure::steps);
    let target = steps.into_iter().find(|step| Some(step.number) == to.step);
    let label = target.and_then(|step| step.labels().find(|label| label.value == to.label.value));
    let finding = Finding::new(RULE.id, at, text);
    match label {
        Some(label) => finding.label(label.span, "it stands here"),
        None => finding,
    }
}
