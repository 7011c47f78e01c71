//! A file named by `use` cannot be had.
use super::{Rule, Subject};
use crate::model::Slip;
use crate::report::{Finding, Severity};

pub static RULE: Rule = Rule {
    id: "unusable-catalogue",
    severity: Severity::Error,
    waivable: false,
    summary: "A catalogue that the procedure uses cannot be read, or has an error",
    explain: "\
The shop's tools, supplies and standing safety messages live in its catalogues. Without the
catalogue their names mean nothing, and a warning called by its name would have no words.

Mend the path: it is read from the folder of the file that names it, with forward slashes, and may
not leave the workspace. The file must be a catalogue and no procedure.

A catalogue with an error holds back every procedure that uses it, as an error of its own would: the
misspelt range of a torque wrench is no range.
",
    bad: r#"use "no-such-file.cotter"

check "make sure that the pump is cold"
    if not ok: stop "Let the pump cool down."
"#,
    good: r#"check "make sure that the pump is cold"
    if not ok: stop "Let the pump cool down."
"#,
    check,
};

fn check(subject: &Subject<'_>, findings: &mut Vec<Finding>) {
    for slip in &subject.document.slips {
        if let Slip::UnusableCatalogue { path, why, fault } = slip {
            let message = format!("`{}` cannot be used: {why}", path.value);
            let finding = Finding::new(RULE.id, path.span, message);
            findings.push(match fault {
                Some(fault) => finding
                    .label(fault.span, fault.message.clone())
                    .help("Mend the catalogue first; what it lends cannot be relied on until then"),
                None => finding
                    .help("Mend the path; it starts at the folder of this file and stays in the workspace"),
            });
        }
    }
}
