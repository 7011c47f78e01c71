//! A machine is cut off from its energy and not restored.
use super::obligations::{self, Broken};
use super::{Rule, Subject};
use crate::ledger::Kind;
use crate::report::{Finding, Severity};

pub static RULE: Rule = Rule {
    id: "left-isolated",
    severity: Severity::Error,
    waivable: true,
    summary: "A machine is cut off from its energy and not restored",
    explain: "\
A machine that stays locked out without a word is unlocked by somebody who does not know why it was.

What is isolated or locked out is restored by a later step or by a procedure that is followed, or the header \
says that it stays so, `leaves: \"pump isolated\"`, and `afterwards:` names the procedure that restores it.",
    bad: "\
parts
    main-switch \"Main switch\"  live 400 V AC

danger electric-shock
    hazard: The terminals are live.
    harm:   Death.
    avoid:  Keep the cover closed.
    wear:   insulating gloves
turn off main-switch
",
    good: "\
parts
    main-switch \"Main switch\"  live 400 V AC

danger electric-shock for section
    hazard: The terminals are live.
    harm:   Death.
    avoid:  Keep the cover closed.
    wear:   insulating gloves
turn off main-switch
turn on main-switch
",
    check,
};

fn check(subject: &Subject<'_>, findings: &mut Vec<Finding>) {
    findings.extend(obligations::of(subject, &[Kind::LeftIsolated]).map(|broken| {
        let Broken { name, .. } = &broken;
        let text = format!("`{name}` is cut off here and never restored");
        broken.finding(
            RULE.id,
            &text,
            "",
            "Add the step that restores it, or say in `leaves:` that it is isolated",
        )
    }));
}
