//! The steps of a lockout stand in the wrong order.
use super::obligations::{self, Broken};
use super::{Rule, Subject};
use crate::ledger::Kind;
use crate::report::{Finding, Severity};

pub static RULE: Rule = Rule {
    id: "lockout-out-of-order",
    severity: Severity::Error,
    waivable: true,
    summary: "The steps of a lockout stand in the wrong order",
    explain: "\
A switch locked while it is still on locks nothing off; energy let go before the lock can come back. 29 CFR \
1910.147(d) gives the order: prepare, shut down, isolate, lock, release what is stored, verify.

Move the step to its place. What another procedure has isolated counts where `requires:` or `follow` names it.",
    bad: "\
parts
    main-switch \"Main switch\"

tools
    padlock \"Padlock\"

lock out main-switch with padlock
turn off main-switch
unlock main-switch; turn on main-switch
",
    good: "\
parts
    main-switch \"Main switch\"

tools
    padlock \"Padlock\"

turn off main-switch
lock out main-switch with padlock
unlock main-switch; turn on main-switch
",
    check,
};

const KINDS: [Kind; 4] =
    [Kind::LockoutOutOfOrder, Kind::NeverLockedOut, Kind::OnWhileLocked, Kind::NeverProvedDead];

fn check(subject: &Subject<'_>, findings: &mut Vec<Finding>) {
    findings.extend(obligations::of(subject, &KINDS).map(|broken| {
        let Broken { name, .. } = &broken;
        let (text, since, help) = match broken.breach.kind {
            Kind::NeverLockedOut => (
                format!("`{name}` is unlocked, and was never locked out: anybody could have switched it on"),
                "cut off here",
                "Lock it out as soon as it is off",
            ),
            Kind::OnWhileLocked => (
                format!("`{name}` lets the energy in again while the lock is on"),
                "locked out here",
                "Take the lock off first, by whoever put it on",
            ),
            Kind::NeverProvedDead => (
                format!("`{name}` was locked out, and nobody made sure that it was dead"),
                "locked out here",
                "Prove it dead behind the lock, before anybody touches what was live",
            ),
            _ => (
                format!("`{name}` comes too early or too late in the lockout"),
                "this stands before it",
                "Keep the order: shut down, isolate, lock out, release the stored energy, verify",
            ),
        };
        broken.finding(RULE.id, &text, since, help)
    }));
}
