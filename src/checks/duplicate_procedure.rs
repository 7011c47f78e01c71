//! Two files claim one procedure number.
use super::{Rule, Subject};
use crate::model::Slip;
use crate::report::{Finding, Severity};

pub static RULE: Rule = Rule {
    id: "duplicate-procedure",
    severity: Severity::Error,
    waivable: false,
    summary: "Two files of the workspace have one procedure number",
    explain: "\
Whoever fetches the sheet by its number gets one of the two, and the sheets of one would be written
over those of the other.

Give one of them a number of its own, or take the old copy out of the workspace.
",
    bad: r#"procedure EX-009 "Clean the strainer"
    revision:   A, 2026-11-02
    equipment:  F40 transfer pump
    models:     F40
    source:     manual "F40 workshop manual, issue 7"
    time:       30 min
    people:     1
    outcome:    Clean a strainer without letting dirt into the pump.
    requires:   none
    afterwards: none
    leaves:     none

parts
    strainer "Strainer"
tools none
supplies none

clean strainer
"#,
    good: r#"procedure EX-004 "Clean the strainer"
    revision:   A, 2026-11-02
    equipment:  F40 transfer pump
    models:     F40
    source:     manual "F40 workshop manual, issue 7"
    time:       30 min
    people:     1
    outcome:    Clean a strainer without letting dirt into the pump.
    requires:   none
    afterwards: none
    leaves:     none

parts
    strainer "Strainer"
tools none
supplies none

clean strainer
"#,
    check,
};

fn check(subject: &Subject<'_>, findings: &mut Vec<Finding>) {
    for slip in &subject.document.slips {
        if let Slip::DuplicateProcedure { number, others } = slip {
            let message = format!("`{}` is the number of {} as well", number.value, files(others));
            findings.push(
                Finding::new(RULE.id, number.span, message)
                    .help("Give one of them a number of its own, or take the old copy away"),
            );
        }
    }
}

/// The first few, since a folder copied whole would name them all.
fn files(others: &[String]) -> String {
    const SHOWN: usize = 3;
    let shown: Vec<String> = others.iter().take(SHOWN).map(|file| format!("`{file}`")).collect();
    match others.len().checked_sub(SHOWN) {
        None | Some(0) => shown.join(", "),
        Some(more) => format!("{} and {more} more", shown.join(", ")),
    }
}
