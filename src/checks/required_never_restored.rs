//! What an earlier procedure switched off stays off.
use super::{Rule, Subject};
use crate::ledger;
use crate::report::{Finding, Severity};

pub static RULE: Rule = Rule {
    id: "required-never-restored",
    severity: Severity::Warning,
    waivable: true,
    summary: "The procedure starts on a locked or drained machine and nothing undoes that",
    explain: "\
The machine is locked out for the job. When the job is done the sheet ends, and the next shift finds a padlock that \
belongs to nobody; or somebody fills and starts it in an order of their own.

Name in `afterwards:` the procedure that brings the machine back, `follow` it, do it in steps of your own, or say \
in `leaves:` how the machine is left.",
    bad: "\
procedure EX-001 \"Clean the strainer\"
    revision:   A, 2026-11-02
    equipment:  F40 transfer pump
    models:     F40
    source:     manual \"F40 workshop manual, issue 7\"
    time:       30 min
    people:     1
    outcome:    Clean a strainer without a drop on the floor.
    requires:   EX-002 \"pump isolated and drained\"
    afterwards: none
    leaves:     none

tools none
supplies none

parts
    strainer \"Suction strainer\"

clean strainer
",
    good: "\
procedure EX-001 \"Clean the strainer\"
    revision:   A, 2026-11-02
    equipment:  F40 transfer pump
    models:     F40
    source:     manual \"F40 workshop manual, issue 7\"
    time:       30 min
    people:     1
    outcome:    Clean a strainer without a drop on the floor.
    requires:   EX-002 \"pump isolated and drained\"
    afterwards: EX-003 \"pump filled and returned to service\"
    leaves:     none

tools none
supplies none

parts
    strainer \"Suction strainer\"

clean strainer
",
    check,
};

fn check(subject: &Subject<'_>, findings: &mut Vec<Finding>) {
    let Some(procedure) = subject.procedure() else { return };
    // Without a line of the header, or with one that was not read, nobody knows what was meant.
    let header = &procedure.header;
    let silent = header.afterwards.is_none() || header.leaves.is_none() && !header.faulty.is_empty();
    if silent || subject.has_lost_lines() {
        return;
    }
    findings.extend(ledger::never_restored(procedure).into_iter().map(|call| {
        let state = ledger::told(call).unwrap_or("");
        let text = format!("The work starts with the state \"{state}\", and nothing undoes it");
        Finding::new(RULE.id, call.span, text).help(
            "Name in `afterwards:` the procedure that undoes it, or say in `leaves:` how the machine is left",
        )
    }));
}
