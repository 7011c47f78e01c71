//! A fastener goes in and never gets its torque.
use super::obligations::{self, Broken};
use super::{Rule, Subject};
use crate::ledger::Kind;
use crate::report::{Finding, Severity};

pub static RULE: Rule = Rule {
    id: "never-tightened",
    severity: Severity::Error,
    waivable: true,
    summary: "A fastener goes in and never gets its torque",
    explain: "\
A screw run in by hand works loose, and nothing shows it: the cover lies flat and the job looks finished. A part \
with a thread or a torque that is fitted has to be tightened after it, to the end of its list: snugging it is \
not enough where a value is declared.

`finger tight` in the line that fits it, `until \"…\"` or an angle settle it where no torque is wanted.",
    bad: "\
parts
    screws \"Cover screw\"  x4  thread M6, class 8.8, dry, torque 8 to 10 N.m
    cover  \"Bearing cover\"

remove screws, cover
install cover, screws
",
    good: "\
parts
    screws \"Cover screw\"  x4  thread M6, class 8.8, dry, torque 8 to 10 N.m
    cover  \"Bearing cover\"

tools
    wrench \"Torque wrench\" range 2 to 12 N.m

remove screws, cover
install cover, screws
tighten screws with wrench
",
    check,
};

fn check(subject: &Subject<'_>, findings: &mut Vec<Finding>) {
    findings.extend(obligations::of(subject, &[Kind::NeverTightened, Kind::NeverTightenedFully]).map(
        |broken| {
            let Broken { name, .. } = &broken;
            let text = match broken.breach.kind {
                Kind::NeverTightenedFully => {
                    format!("`{name}` is only snugged and never tightened to its torque")
                }
                _ if broken.breach.since.is_some() => {
                    format!("`{name}` is fitted here, and not all of it is tightened")
                }
                _ => format!("`{name}` is fitted here and never tightened"),
            };
            let help = format!("Add `tighten {name} with …` after it");
            broken.finding(RULE.id, &text, "only some of the pieces are tightened here", help)
        },
    ));
}
