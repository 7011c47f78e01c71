//! A torque stretches its fastener past yield.
use super::judged::Judged;
use super::{Rule, Subject};
use crate::model::fastener::preload::{Verdict, force};
use crate::report::{Finding, Severity};

pub static RULE: Rule = Rule {
    id: "torque-would-yield",
    severity: Severity::Error,
    waivable: true,
    summary: "A torque stretches its fastener past yield even where the thread is at its roughest",
    explain: "A screw that has yielded has lost its clamp for good. It breaks under the wrench, or later on the road.

The preload is F = T / (K·d): torque over nut factor and diameter. K depends on the thread (dry, oiled, plated, \
thread locker) and scatters, so the rule takes the least torque allowed and the greatest K of that state, and \
speaks only where even that preload is over the yield load of the class on the stress area of the thread \
(ISO 898-1, SAE J429, ISO 3506-1; ASME B1.1). What is customary lies far below: three quarters of the proof load. \
Where no class is given the strongest, 12.9, stands for it.

Hold figure, thread and class against the source, and mend the one that is wrong. Where another unit would fit, \
`unit-slip` says so in its place.",
    bad: "\
parts
    screws \"Cover screw\"  x4  thread M6, class 8.8, dry, torque 24 to 30 N.m (17.7 to 22.1 lb-ft)

tools
    wrench \"Torque wrench M\"  range 10 to 50 N.m

clean screws
tighten screws with wrench
",
    good: "\
parts
    screws \"Cover screw\"  x4  thread M6, class 8.8, dry, torque 8 to 10 N.m (71 to 88 lb-in)

tools
    wrench \"Torque wrench S\"  range 2 to 12 N.m

clean screws
tighten screws with wrench
",
    check,
};

fn check(subject: &Subject<'_>, findings: &mut Vec<Finding>) {
    let yielding = subject.judged().iter().filter(|it| it.judgement.verdict == Verdict::Yields);
    findings.extend(yielding.map(|it| finding(it, subject)));
}

fn finding(judged: &Judged<'_>, subject: &Subject<'_>) -> Finding {
    let least = force(judged.judgement.preload.least);
    let (name, torque) = (judged.name(), judged.value.print());
    let limit = judged.yield_load();
    let text = format!("`{name}` would yield: {torque} is a preload of {least} at the least, and {limit}");
    let help = match judged.customary() {
        Some(customary) => format!("Hold figure, thread and class against the source; {customary}"),
        None => "Hold figure and thread against the source, and state the class".to_owned(),
    };
    judged.with_sum(Finding::new(RULE.id, judged.span, text).help(help), subject)
}
