//! Live or pressurised parts are worked on before they are dead.
use super::obligations::{self, Broken};
use super::{Rule, Subject};
use crate::ledger::Kind;
use crate::report::{Finding, Severity};

pub static RULE: Rule = Rule {
    id: "energy-not-isolated",
    severity: Severity::Error,
    waivable: true,
    summary: "Live or pressurised parts are worked on before they are dead",
    explain: "\
A terminal is touched while it is live, a joint is opened under pressure.

Parts declared `live` or `pressurised` are worked on only after a step has cut the energy off or let it go \
(`turn off`, `isolate`, `vent`, `drain`, a measured zero), a followed procedure has, or `requires:` says that \
another did.",
    bad: "\
parts
    casing \"Pump casing\"  pressurised 6 bar
    plug   \"Drain plug\"   holds casing

warning high-pressure
    hazard: Oil under pressure leaves the joint as a jet.
    harm:   Oil under the skin.
    avoid:  Stand aside.
    wear:   eye protection, gloves
remove plug from \"the casing\"
install plug in \"the casing\"
",
    good: "\
parts
    casing \"Pump casing\"  pressurised 6 bar
    plug   \"Drain plug\"   holds casing

warning high-pressure for next 2 steps
    hazard: Oil under pressure leaves the joint as a jet.
    harm:   Oil under the skin.
    avoid:  Stand aside.
    wear:   eye protection, gloves
vent casing until \"the gauge shows zero\"
remove plug from \"the casing\"
install plug in \"the casing\"
",
    check,
};

fn check(subject: &Subject<'_>, findings: &mut Vec<Finding>) {
    if subject.is_silent_on_start() {
        return;
    }
    findings.extend(obligations::of(subject, &[Kind::EnergyNotIsolated]).map(|broken| {
        let Broken { name, other, .. } = &broken;
        let text = if other.is_empty() {
            format!("`{name}` is worked on before its energy is cut off")
        } else {
            format!("`{other}` holds `{name}`, whose pressure has not been let go")
        };
        let finding = broken.finding(RULE.id, &text, "", "Cut the energy off or let it go in an earlier step, or name in `requires:` the procedure that does");
        broken.labelled(finding, broken.declaration(broken.breach.what), "its energy is declared here")
    }));
}
