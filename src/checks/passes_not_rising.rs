//! A pass is set lower than the one before it.
use super::{Rule, Subject, passes};
use crate::report::{Finding, Severity};
use std::collections::HashSet;

pub static RULE: Rule = Rule {
    id: "passes-not-rising",
    severity: Severity::Warning,
    waivable: true,
    summary: "A pass is set lower than the one before it, and nothing is loosened between",
    explain: "A wrench set lower than last time clicks before the fastener moves, so that the pass does nothing, and the \
gasket goes from too little to all of it in one step. Nearly always two passes have changed places.

Passes rise, or stay the same where a torque is gone round twice. A list that starts again after it was loosened says \
so: `stage: loosen to finger tight`.",
    bad: "\
parts
    bolts \"Head bolt\"  x8  torque 40 N.m in 75 % 50 % 100 %

tools
    wrench-m \"Torque wrench M\"  range 10 to 50 N.m

clean bolts
tighten bolts with wrench-m
",
    good: "\
parts
    bolts \"Head bolt\"  x8  torque 40 N.m in 50 % 75 % 100 %

tools
    wrench-m \"Torque wrench M\"  range 10 to 50 N.m

clean bolts
tighten bolts with wrench-m
",
    check,
};

fn check(subject: &Subject<'_>, findings: &mut Vec<Finding>) {
    let mut seen = HashSet::new();
    for tightening in subject.tightenings() {
        for climb in passes::climbs(&tightening.torque) {
            // Where one lies above the last, that is the greater fault.
            let last = climb.last().map(|step| step.aim);
            if climb.iter().any(|step| Some(step.aim) > last) {
                continue;
            }
            for pair in climb.windows(2) {
                let [before, after] = pair else { continue };
                let place = passes::place(subject, after.pass.span, tightening);
                if after.aim >= before.aim || !seen.insert(place) {
                    continue;
                }
                let text = format!(
                    "{} comes after {}: the wrench clicks before the fastener moves",
                    after.said(),
                    before.said()
                );
                let finding = Finding::new(RULE.id, place, text).help(
                    "Put the passes in rising order, or loosen between them: `stage: loosen to finger tight`",
                );
                let first = before.pass.span;
                let own = subject.owns(first) && first != place;
                findings.push(if own { finding.label(first, "tightened this far already") } else { finding });
            }
        }
    }
}
