//! A limit is set and nothing says what follows when it is not kept.
use super::finders;
use super::{Rule, Subject};
use crate::report::{Finding, Severity};

pub static RULE: Rule = Rule {
    id: "limit-without-action",
    severity: Severity::Warning,
    waivable: true,
    summary: "A limit is set and nothing says what follows when it is not kept",
    explain: "\
The reading is taken, it is too small, and the sheet goes on. One mechanic fits the part all the same, the next \
throws it away.

Each side of the limit that a reading can miss needs its outcome: `if below:`, `if above:`, or `if outside:` for \
both. A later step may hang on it instead (`only: seat failed`).",
    bad: "\
parts
    shaft \"Pump shaft\"

measure shaft \"bearing seat diameter\" 30.002 to 30.015 mm as seat
    if below: stop \"Send the shaft for repair.\"
",
    good: "\
parts
    shaft \"Pump shaft\"

measure shaft \"bearing seat diameter\" 30.002 to 30.015 mm as seat
    if below: stop \"Send the shaft for repair.\"
    if above: stop \"Stone the high spot off and measure again.\"
",
    check,
};

fn check(subject: &Subject<'_>, findings: &mut Vec<Finding>) {
    for step in subject.contents.finders.iter().copied() {
        let Some(limits) = finders::limits(step) else { continue };
        let (below, above) = finders::covered(step);
        let (low, high) = (limits.below && !below, limits.above && !above);
        let side = match (low, high) {
            (true, true) => "outside",
            (true, false) => "below",
            (false, true) => "above",
            (false, false) => continue,
        };
        if subject.is_unclear_step(step) || finders::is_asked(subject, step) {
            continue;
        }
        let limit = if limits.below && limits.above { "its limits" } else { "its limit" };
        let text = format!("Nothing says what to do with a reading {side} {limit}");
        findings.push(Finding::new(RULE.id, limits.span, text).help(format!(
            "Add `if {side}: …` under the step: `stop \"…\"`, or what mends it and `repeat from …, at most 2 times`"
        )));
    }
}
