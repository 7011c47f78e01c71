//! A safety message asks for protective equipment that is not in the list.
use super::suggestion::did_you_mean;
use super::{Rule, Subject};
use crate::model::Slip;
use crate::report::{Finding, Severity};

pub static RULE: Rule = Rule {
    id: "unknown-wear",
    severity: Severity::Error,
    waivable: false,
    summary: "A safety message asks for protective equipment that is not in the list",
    explain: "\
Each piece of equipment is printed with its sign, the same on every sheet, so that a learner knows
at a glance what to put on. A word outside the list has no sign.

The list: eye protection, face shield, gloves, cut gloves, chemical gloves, heat gloves, insulating
gloves, hearing protection, safety footwear, head protection, respirator, dust mask, apron,
overalls, high-visibility clothing, hair net. More than one is separated by commas. Anything else
belongs into `avoid:`.
",
    bad: r#"warning ejection
    hazard: The ring is under tension.
    harm:   Eye injury.
    avoid:  Hold a hand over the ring.
    wear:   sun glasses
check "make sure that the ring sits in its groove"
    if not ok: stop "Fit the ring again."
"#,
    good: r#"warning ejection
    hazard: The ring is under tension.
    harm:   Eye injury.
    avoid:  Hold a hand over the ring.
    wear:   eye protection
check "make sure that the ring sits in its groove"
    if not ok: stop "Fit the ring again."
"#,
    check,
};

fn check(subject: &Subject<'_>, findings: &mut Vec<Finding>) {
    for slip in &subject.document.slips {
        if let Slip::UnknownWear { word, near } = slip {
            let message =
                format!("`{}` is no protective equipment of the list, so it has no sign", word.value);
            let help = did_you_mean(near)
                .unwrap_or_else(|| "Take one of the list: `cotter explain unknown-wear`".to_owned());
            findings.push(Finding::new(RULE.id, word.span, message).help(help));
        }
    }
}
