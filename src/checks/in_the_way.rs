//! A temporary tool would be shut in.
use super::obligations::{self, Broken};
use super::{Rule, Subject};
use crate::ledger::Kind;
use crate::report::{Finding, Severity};

pub static RULE: Rule = Rule {
    id: "in-the-way",
    severity: Severity::Error,
    waivable: true,
    summary: "A temporary tool would be shut in",
    explain: "\
A locking pin left in a housing is found by the first turn of the shaft.

The part that goes on covers the place where the tool still is; take the tool out first.",
    bad: "\
parts
    cover   \"Cover\"  holds housing
    housing \"Housing\"

tools
    peg \"Locking peg\"  temporary

remove cover from \"the stand\"
insert peg into housing
install cover on \"the stand\"
remove peg from housing
",
    good: "\
parts
    cover   \"Cover\"  holds housing
    housing \"Housing\"

tools
    peg \"Locking peg\"  temporary

remove cover from \"the stand\"
insert peg into housing
remove peg from housing
install cover on \"the stand\"
",
    check,
};

fn check(subject: &Subject<'_>, findings: &mut Vec<Finding>) {
    findings.extend(obligations::of(subject, &[Kind::InTheWay]).map(|broken| {
        let Broken { name, other, .. } = &broken;
        let text = format!("`{name}` goes on over `{other}`, which is still in place");
        broken.finding(
            RULE.id,
            &text,
            &format!("`{other}` went in here"),
            format!("Take `{other}` out first"),
        )
    }));
}
