//! A part is judged for wear while something still covers it.
use super::obligations::{self, Broken};
use super::{Rule, Subject};
use crate::ledger::Kind;
use crate::report::{Finding, Severity};

pub static RULE: Rule = Rule {
    id: "measured-while-fitted",
    severity: Severity::Advice,
    waivable: true,
    summary: "A part is held against its wear limit while something still covers it",
    explain: "\
A belt is measured through the gap beside its guard, a pad by what looks out of its clamp: the worn place is the \
one that cannot be reached, and the part goes on for another season.

Looked at are readings with `new …, worn …` of a part that is fitted, and that a part declared `holds` it is fitted \
over. Measure it once that is off. Where it can be reached, waive it and say how.",
    bad: "\
parts
    guard \"Belt guard\"  holds belt
    belt  \"Drive belt\"

measure belt \"width across the top\" new 12.7 mm, worn 11.5 mm as belt-width
    if below: stop \"Order a belt.\"
remove guard from \"the deck\"
clean belt
install guard on \"the deck\"
",
    good: "\
parts
    guard \"Belt guard\"  holds belt
    belt  \"Drive belt\"

remove guard from \"the deck\"
measure belt \"width across the top\" new 12.7 mm, worn 11.5 mm as belt-width
    if below: stop \"Order a belt.\"
clean belt
install guard on \"the deck\"
",
    check,
};

fn check(subject: &Subject<'_>, findings: &mut Vec<Finding>) {
    findings.extend(obligations::of(subject, &[Kind::MeasuredWhileFitted]).map(|broken| {
        let Broken { name, other, .. } = &broken;
        let text = format!("`{name}` is held against its wear limit while `{other}` still covers it");
        let help = format!("Measure `{name}` once `{other}` is off");
        broken.held(broken.finding(RULE.id, &text, &format!("`{other}` went on here"), help))
    }));
}
