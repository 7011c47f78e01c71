//! A torque clamps next to nothing.
use super::judged::Judged;
use super::{Rule, Subject};
use crate::model::fastener::preload::{Verdict, force, share_of};
use crate::report::{Finding, Severity};

pub static RULE: Rule = Rule {
    id: "torque-too-low-to-hold",
    severity: Severity::Advice,
    waivable: true,
    summary: "A torque stays under a fifth of what its fastener holds even on the smoothest thread",
    explain: "A joint that is hardly clamped slips, frets and works loose; a fastener bought for its strength \
does not bring it.

The preload is F = T / (K·d). The rule takes the greatest torque allowed and the least nut factor K of the \
thread's state, and speaks where even that preload is under a fifth of the proof load of the class. Published \
torques, those for thin shear nuts among them, stay above it. It is silent where an angle or a stretch follows, and \
without a class.

Hold figure, unit, thread and class against the source. Where something soft sets the limit, a plastic cover or a \
gasket, set the rule aside with that reason.",
    bad: "\
parts
    screws \"Cover screw\"  x4  thread M10, class 8.8, dry, torque 9 to 11 N.m

tools
    wrench \"Torque wrench S\"  range 2 to 12 N.m

clean screws
tighten screws with wrench
",
    good: "\
parts
    screws \"Cover screw\"  x4  thread M10, class 8.8, dry, torque 40 to 48 N.m

tools
    wrench \"Torque wrench M\"  range 10 to 50 N.m

clean screws
tighten screws with wrench
",
    check,
};

fn check(subject: &Subject<'_>, findings: &mut Vec<Finding>) {
    let low = subject.judged().iter().filter(|it| it.judgement.verdict == Verdict::Low);
    findings.extend(low.map(|it| finding(it, subject)));
}

fn finding(judged: &Judged<'_>, subject: &Subject<'_>) -> Finding {
    let most = force(judged.judgement.preload.most);
    let of_proof = judged.judgement.shares.map_or_else(String::new, |it| share_of(it.most, "its proof load"));
    let (name, torque) = (judged.name(), judged.value.print());
    let text = format!("`{name}` would work loose: {torque} is a preload of {most} at the most, {of_proof}");
    let customary = judged.customary().unwrap_or_default();
    let help = format!("Hold figure, unit and class against the source; {customary}");
    judged.with_sum(Finding::new(RULE.id, judged.span, text).help(help), subject)
}
