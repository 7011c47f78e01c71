//! A pass tightens further than the torque in the end.
use super::{Rule, Subject, passes};
use crate::model::torque::PassTarget;
use crate::report::{Finding, Severity};
use std::collections::HashSet;

pub static RULE: Rule = Rule {
    id: "pass-above-final",
    severity: Severity::Error,
    waivable: true,
    summary: "A pass goes above the torque in the end",
    explain: "A fastener that was once tightened to more than its torque has been stretched too far, and going round \
again with a lower setting does not take it back: the wrench clicks at once and all looks well.

Between two loosenings (`loosen to …`, `back off …`) no pass may lie above the last, and no share above 100 %. Look for \
two values that have changed places, or a loosening that is missing.",
    bad: "\
parts
    bolts \"Head bolt\"  x8  torque head-passes

tools
    wrench-m \"Torque wrench M\"  range 10 to 50 N.m

torques
    head-passes
        stage: 12 N.m
        stage: 45 N.m
        stage: 25 N.m

clean bolts
tighten bolts with wrench-m
",
    good: "\
parts
    bolts \"Head bolt\"  x8  torque head-passes

tools
    wrench-m \"Torque wrench M\"  range 10 to 50 N.m

torques
    head-passes
        stage: 45 N.m
        stage: loosen to finger tight
        stage: 12 N.m
        stage: 25 N.m

clean bolts
tighten bolts with wrench-m
",
    check,
};

fn check(subject: &Subject<'_>, findings: &mut Vec<Finding>) {
    let mut seen = HashSet::new();
    for tightening in subject.tightenings() {
        for climb in passes::climbs(&tightening.torque) {
            let Some(last) = climb.last() else { continue };
            let Some(above) = climb.iter().find(|step| step.aim > last.aim) else { continue };
            let place = passes::place(subject, above.pass.span, tightening);
            if !seen.insert(place) {
                continue;
            }
            let text =
                format!("This pass tightens to {}, and the list ends at {}", above.said(), last.said());
            let finding = Finding::new(RULE.id, place, text)
                .help("Put the passes in rising order, or loosen before the lower one: `stage: loosen to finger tight`");
            let end = last.pass.span;
            findings.push(if subject.owns(end) {
                finding.label(end, "the torque in the end")
            } else {
                finding
            });
        }
        over_the_whole(subject, tightening, &mut seen, findings);
    }
}

/// A share of more than all.
fn over_the_whole(
    subject: &Subject<'_>,
    tightening: &crate::model::tightening::Tightening<'_>,
    seen: &mut HashSet<crate::source::Span>,
    findings: &mut Vec<Finding>,
) {
    for pass in tightening.torque.shares() {
        let PassTarget::Percent(percent) = &pass.target else { continue };
        let place = passes::place(subject, pass.span, tightening);
        if percent.value() > crate::model::quantity::Exact::from_integer(100) && seen.insert(place) {
            let text = format!("This pass tightens to {percent} % of the torque, more than all of it");
            let help = "Shares rise to `100 %`, the torque itself";
            findings.push(Finding::new(RULE.id, place, text).help(help));
        }
    }
}
