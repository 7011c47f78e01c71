//! A discarded part goes back, and no new one is ordered.
use super::obligations::{self, Broken};
use super::{Rule, Subject};
use crate::ledger::Kind;
use crate::report::{Finding, Severity};
use crate::source::Span;

pub static RULE: Rule = Rule {
    id: "discarded-not-ordered",
    severity: Severity::Error,
    waivable: true,
    summary: "A discarded part goes back, and no new one is ordered",
    explain: "\
The step throws it away, and a later one fits \"it\".

Without `new` the kit list orders none, and the reader takes the old one out of the bin.",
    bad: "\
parts
    belt   \"Drive belt\"
    pulley \"Pulley\"

remove belt from pulley; discard belt
install belt on pulley
",
    good: "\
parts
    belt   \"Drive belt\"
    pulley \"Pulley\"

remove belt from pulley; discard belt
install new belt on pulley
",
    check,
};

fn check(subject: &Subject<'_>, findings: &mut Vec<Finding>) {
    findings.extend(obligations::of(subject, &[Kind::DiscardedGoesBack]).map(|broken| {
        let Broken { name, .. } = &broken;
        let text = format!("`{name}` was discarded and goes back in");
        broken
            .finding(RULE.id, &text, "discarded here", format!("Fit a new one: `new {name}`"))
            .edit(Span { end: broken.breach.at.start, ..broken.breach.at }, "new ")
    }));
}
