//! A matched part goes back and is not aligned by its mark.
use super::obligations::{self, Broken};
use super::{Rule, Subject};
use crate::ledger::Kind;
use crate::report::{Finding, Severity};

pub static RULE: Rule = Rule {
    id: "unaligned-fit",
    severity: Severity::Error,
    waivable: true,
    summary: "A matched part goes back and is not aligned by its mark",
    explain: "\
The mark was made and nobody looks at it.

A matched part that goes back is set to its mark, in the step that fits it or right after.",
    bad: "\
parts
    coupling \"Coupling half\"  matched shaft
    shaft    \"Pump shaft\"

mark coupling, shaft
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
    findings.extend(obligations::of(subject, &[Kind::UnalignedFit]).map(|broken| {
        let (Broken { name, .. }, partner) = (&broken, broken.partner());
        let text = format!("`{name}` goes back and is not aligned by its mark");
        broken.finding(
            RULE.id,
            &text,
            "the mark is made here",
            format!("Add `align {name}, {partner} at …`, with the name of its mark"),
        )
    }));
}
