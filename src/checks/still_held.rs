//! A part comes off while something still holds it.
use super::obligations::{self, Broken};
use super::{Rule, Subject};
use crate::ledger::Kind;
use crate::report::{Finding, Severity};

pub static RULE: Rule = Rule {
    id: "still-held",
    severity: Severity::Error,
    waivable: true,
    summary: "A part comes off while something still holds it",
    explain: "\
A cover levered off with one screw left bends; a hub pulled against its ring breaks the groove. What `holds` a \
part, by its declaration, has to come off before it, in an earlier step or earlier in the same line.

Take the holder off first. If the holder does not hold it, mend the declaration.",
    bad: "\
parts
    ring    \"Retaining ring\"  holds bearing
    bearing \"Bearing\"

remove bearing from \"the shaft\"
remove ring from \"the shaft\"
install bearing, ring on \"the shaft\"
",
    good: "\
parts
    ring    \"Retaining ring\"  holds bearing
    bearing \"Bearing\"

remove ring, bearing from \"the shaft\"
install bearing, ring on \"the shaft\"
",
    check,
};

fn check(subject: &Subject<'_>, findings: &mut Vec<Finding>) {
    findings.extend(obligations::of(subject, &[Kind::StillHeld]).map(|broken| {
        let Broken { name, other, .. } = &broken;
        let text = format!("`{name}` comes off while `{other}` still holds it");
        let help = format!("Take `{other}` off first, or mend its `holds`");
        broken.held(broken.finding(RULE.id, &text, &format!("`{other}` went on here"), help))
    }));
}
