//! A safety message names a hazard that is no class of the list.
use super::suggestion::did_you_mean;
use super::{Rule, Subject};
use crate::model::Slip;
use crate::report::{Finding, Severity};

pub static RULE: Rule = Rule {
    id: "unknown-hazard",
    severity: Severity::Error,
    waivable: false,
    summary: "A safety message names a hazard that is no class of the list",
    explain: "\
The class says what kind of harm is near, in the same words on every sheet of the shop; from it
Cotter knows whether a step that needs a message has one.

The classes are, for people: crushing, shearing, cutting, entanglement, drawing-in, impact,
stabbing, friction, ejection, high-pressure, stored-energy, falling-load, lifting, slip,
electric-shock, arc, burn, scald, fire, explosion, chemical, asphyxiation, noise, vibration, dust,
radiation, unexpected-start, eye-injury; for things and surroundings: damage, contamination,
environment. What cannot be said by a class is said by the lines `hazard:`, `harm:` and `avoid:`.
",
    bad: r#"warning crushed
    hazard: The cover is heavy and slips from wet hands.
    harm:   Crushed fingers.
    avoid:  Hold the cover with both hands.
check "make sure that the cover is dry"
    if not ok: stop "Dry the cover."
"#,
    good: r#"warning crushing
    hazard: The cover is heavy and slips from wet hands.
    harm:   Crushed fingers.
    avoid:  Hold the cover with both hands.
check "make sure that the cover is dry"
    if not ok: stop "Dry the cover."
"#,
    check,
};

fn check(subject: &Subject<'_>, findings: &mut Vec<Finding>) {
    for slip in &subject.document.slips {
        if let Slip::UnknownHazard { word, near } = slip {
            let message = format!("`{}` is no class of hazard and no standing message", word.value);
            let help = did_you_mean(near).unwrap_or_else(|| {
                "Take a class of the list (`cotter explain unknown-hazard`), or name a standing message"
                    .to_owned()
            });
            findings.push(Finding::new(RULE.id, word.span, message).help(help));
        }
    }
}
