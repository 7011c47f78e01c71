//! A stand comes out while the machine rests on it.
use super::obligations::{self, Broken};
use super::{Rule, Subject};
use crate::ledger::Kind;
use crate::report::{Finding, Severity};

pub static RULE: Rule = Rule {
    id: "support-under-load",
    severity: Severity::Error,
    waivable: true,
    summary: "A stand comes out while the machine still rests on it",
    explain: "\
Whoever pulls a stand from under a machine that rests on it has the machine on the hand, and those beside it have it on \
the foot.

What was lowered onto a temporary tool rests on it until something takes its weight: `raise` it, `lift` it or `support` \
it with something else before the tool comes out.",
    bad: "\
parts
    trailer \"Trailer\"

tools
    jack   \"Trolley jack\"
    stands \"Axle stand\" x2  temporary

raise trailer with jack
put 2 of stands under \"the axle\"; lower trailer onto 2 of stands with jack
remove stands from \"the axle\"
",
    good: "\
parts
    trailer \"Trailer\"

tools
    jack   \"Trolley jack\"
    stands \"Axle stand\" x2  temporary

raise trailer with jack
put 2 of stands under \"the axle\"; lower trailer onto 2 of stands with jack
raise trailer with jack; remove stands from \"the axle\"
lower trailer with jack
",
    check,
};

fn check(subject: &Subject<'_>, findings: &mut Vec<Finding>) {
    findings.extend(obligations::of(subject, &[Kind::UnderLoad]).map(|broken| {
        let Broken { name, other, .. } = &broken;
        let text = format!("`{name}` comes out while `{other}` still rests on it");
        let since = format!("`{other}` was let down on it here");
        broken.finding(RULE.id, &text, &since, format!("Take the weight first: `raise {other}`"))
    }));
}
