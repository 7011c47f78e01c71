//! Steps are done again without an end.
use super::{Rule, Subject};
use crate::model::Action;
use crate::report::{Finding, Severity};

pub static RULE: Rule = Rule {
    id: "loop-without-limit",
    severity: Severity::Advice,
    waivable: true,
    summary: "Steps are repeated with nothing that ends it",
    explain: "\
\"Stone the high spot off and measure again\" takes a little off each time. Nobody says when to give up, and the \
shaft becomes too thin in the end.

Say how often at most (`repeat from seat, at most 2 times`), or until when. What comes after the last time is for \
the instructor: the sheet says so.",
    bad: "\
parts
    shaft \"Pump shaft\"

measure shaft \"bearing seat diameter\" max 30.015 mm as seat
    if above: do \"stone the high spot off\" on shaft; repeat from seat
",
    good: "\
parts
    shaft \"Pump shaft\"

measure shaft \"bearing seat diameter\" max 30.015 mm as seat
    if above: do \"stone the high spot off\" on shaft; repeat from seat, at most 2 times
",
    check,
};

fn check(subject: &Subject<'_>, findings: &mut Vec<Finding>) {
    for (_, action) in &subject.contents.steering {
        let Action::Repeat(repeat) = action else { continue };
        let ends = repeat.times.is_some() || repeat.until.is_some() || !repeat.for_each.is_empty();
        if ends || subject.unclear(repeat.span) {
            continue;
        }
        let at = repeat.to.as_ref().unwrap_or(&repeat.from).label.span;
        let text = format!("Nothing says how often the work goes back to `{}`", repeat.from.label.value);
        findings.push(
            Finding::new(RULE.id, repeat.span, text)
                .help("Say when it ends: `, at most 2 times`, or `until \"…\"`")
                .label(at, "and from here on again"),
        );
    }
}
