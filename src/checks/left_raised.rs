//! Something is raised and not let down.
use super::obligations::{self, Broken};
use super::{Rule, Subject};
use crate::ledger::Kind;
use crate::report::{Finding, Severity};

pub static RULE: Rule = Rule {
    id: "left-raised",
    severity: Severity::Error,
    waivable: true,
    summary: "Something is raised and not let down",
    explain: "\
A load left on a jack comes down by itself, when the seal creeps or somebody leans on it.

What is raised is lowered before the end; where it stays up, the header says on what: `leaves: \"trailer on \
stands\"`.",
    bad: "\
parts
    trailer \"Trailer\"

tools
    jack \"Trolley jack\"

danger crushing
    hazard: The trailer can come down.
    harm:   Crushed limbs.
    avoid:  Keep out from under it.
    wear:   safety footwear
raise trailer with jack
",
    good: "\
parts
    trailer \"Trailer\"

tools
    jack \"Trolley jack\"

danger crushing for next 2 steps
    hazard: The trailer can come down.
    harm:   Crushed limbs.
    avoid:  Keep out from under it.
    wear:   safety footwear
raise trailer with jack
lower trailer with jack
",
    check,
};

fn check(subject: &Subject<'_>, findings: &mut Vec<Finding>) {
    findings.extend(obligations::of(subject, &[Kind::LeftRaised]).map(|broken| {
        let Broken { name, .. } = &broken;
        let text = format!("`{name}` is raised here and never lowered");
        broken.finding(
            RULE.id,
            &text,
            "",
            format!("Add `lower {name} …`, or say in `leaves:` on what it stands"),
        )
    }));
}
