//! The last share of a torque is not all of it.
use super::{Rule, Subject, passes};
use crate::model::Name;
use crate::model::quantity::Exact;
use crate::model::tightening::Tightening;
use crate::model::torque::{Pass, PassTarget};
use crate::model::verb::Effect;
use crate::report::{Finding, Severity};
use crate::source::Span;
use std::collections::HashSet;

pub static RULE: Rule = Rule {
    id: "passes-fall-short",
    severity: Severity::Warning,
    waivable: true,
    summary: "The passes of a torque end before all of it",
    explain: "The sheet says what the wrench is set to in each pass, and the mechanic stops after the last. A list that \
ends at 75 % leaves every fastener a quarter loose.

End the shares with `100 %`. A list that is gone through in two steps, with something done between them, is fine: the \
rule looks whether a later step takes the same part to its torque before it is loosened. So is one that goes on with an \
angle.",
    bad: "\
parts
    bolts \"Head bolt\"  x8  torque 40 N.m in 50 % 75 %

tools
    wrench-m \"Torque wrench M\"  range 10 to 50 N.m

clean bolts
tighten bolts with wrench-m
",
    good: "\
parts
    bolts \"Head bolt\"  x8  torque 40 N.m
    dowel \"Dowel\"    starts off

tools
    wrench-m \"Torque wrench M\"  range 10 to 50 N.m

clean bolts
tighten bolts in 50 % 75 % with wrench-m
install dowel
tighten bolts with wrench-m
",
    check,
};

fn check(subject: &Subject<'_>, findings: &mut Vec<Finding>) {
    let all = subject.tightenings();
    if !all.iter().any(|it| short(it).is_some()) {
        return;
    }
    let mut seen = HashSet::new();
    // Parts that wait for the rest of their torque, with the step that left them so.
    let mut waiting: Vec<&Tightening<'_>> = Vec::new();
    let mut next = all.iter().peekable();
    for work in &subject.contents.works {
        if work.verb.does(Effect::Loosens) || work.takes_off() {
            let undone = |it: &&Tightening<'_>| {
                let name = it.fastener.map(|fastener| Name::Part(fastener.id));
                work.objects.iter().any(|object| object.name.is_some() && object.name == name)
            };
            let (lost, kept) = waiting.into_iter().partition(undone);
            waiting = kept;
            findings.extend(faults(lost, subject, &mut seen));
        }
        while let Some(it) = next.next_if(|it| std::ptr::eq(it.work, *work)) {
            if it.torque.is_check() {
                continue;
            }
            let part = |it: &Tightening<'_>| it.fastener.map(|fastener| fastener.id);
            waiting.retain(|before| part(before) != part(it));
            waiting.extend(short(it).is_some().then_some(it));
        }
    }
    findings.extend(faults(waiting, subject, &mut seen));
}

fn faults(left: Vec<&Tightening<'_>>, subject: &Subject<'_>, seen: &mut HashSet<Span>) -> Vec<Finding> {
    left.into_iter().filter_map(|it| finding(it, subject)).filter(|it| seen.insert(it.span)).collect()
}

fn finding(tightening: &Tightening<'_>, subject: &Subject<'_>) -> Option<Finding> {
    let (pass, said) = short(tightening)?;
    let place = passes::place(subject, pass.span, tightening);
    let text = format!("The last pass goes to {said} of the torque, and no step takes it further");
    let finding = Finding::new(RULE.id, place, text).help("End with a pass to `100 %`");
    let elsewhere = tightening.span() != place;
    Some(if elsewhere { finding.label(tightening.span(), "tightened here") } else { finding })
}

/// The last pass, where it is a share of less than all.
fn short<'t>(tightening: &'t Tightening<'_>) -> Option<(&'t Pass, String)> {
    let last = tightening.torque.passes.last()?;
    match &last.target {
        PassTarget::Percent(percent) if percent.value() < Exact::from_integer(100) => {
            Some((last, format!("{percent} %")))
        }
        _ => None,
    }
}
