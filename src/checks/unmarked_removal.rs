//! A matched part comes off without a mark.
use super::obligations::{self, Broken};
use super::{Rule, Subject};
use crate::ledger::Kind;
use crate::report::{Finding, Severity};

pub static RULE: Rule = Rule {
    id: "unmarked-removal",
    severity: Severity::Error,
    waivable: true,
    summary: "A matched part comes off without a mark",
    explain: "\
Two parts that were balanced or run in together go back one tooth off, and the machine shakes itself to pieces.

A part declared `matched` is marked against its mate before it comes off, unless a new one goes in.",
    bad: "\
parts
    coupling \"Coupling half\"  matched shaft
    shaft    \"Pump shaft\"

remove coupling from shaft
install coupling on shaft
",
    good: "\
parts
    coupling \"Coupling half\"  matched shaft
    shaft    \"Pump shaft\"

mark coupling, shaft as clock-mark
remove coupling from shaft
align coupling, shaft at clock-mark; install coupling on shaft
",
    check,
};

fn check(subject: &Subject<'_>, findings: &mut Vec<Finding>) {
    findings.extend(obligations::of(subject, &[Kind::UnmarkedRemoval]).map(|broken| {
        let (Broken { name, .. }, partner) = (&broken, broken.partner());
        let text = format!("`{name}` comes off here without a mark, and goes back to the same place");
        broken.finding(
            RULE.id,
            &text,
            "it goes back here",
            format!("Mark it before this step: `mark {name}, {partner} as {name}-mark`"),
        )
    }));
}
