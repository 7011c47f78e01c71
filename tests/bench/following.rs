//! The rules that follow the work from step to step: what is open and settled, what is tightened to what and with
//! which wrench, which hazards come and what guards them. All others look at lines and declarations as they stand.
use cotter::checks;
use cotter::model::Settings;
use cotter::model::levels::Level;

#[rustfmt::skip]
const FOLLOWING: [&str; 61] = [
    "adapter-without-lever",
    "align-direction-missing",
    "align-past-maximum",
    "branch-ends-open",
    "broken-order",
    "class-unknown",
    "condition-unstated",
    "cure-not-waited",
    "discarded-not-ordered",
    "drag-torque-forgotten",
    "energy-not-isolated",
    "fitted-over",
    "fitted-while-fitted",
    "forbidden-substitute",
    "grade-raised-torque-kept",
    "in-the-way",
    "left-disconnected",
    "left-drained",
    "left-in",
    "left-isolated",
    "left-loose",
    "left-off",
    "left-open",
    "left-raised",
    "lock-before-torque",
    "lockout-out-of-order",
    "mark-never-used",
    "measured-while-fitted",
    "missing-caution",
    "missing-protection",
    "never-tightened",
    "no-wrench-fits",
    "not-discarded",
    "not-tested",
    "pass-above-final",
    "passes-fall-short",
    "passes-not-rising",
    "pattern-needs-layout",
    "removed-twice",
    "renewed-without-its-set",
    "reused-single-use",
    "reused-unchecked",
    "still-held",
    "stretch-too-large",
    "support-under-load",
    "surface-not-clean",
    "surface-not-dry",
    "tightened-without-wrench",
    "torque-contradicted",
    "torque-to-yield-reused",
    "torque-too-low-to-hold",
    "torque-would-yield",
    "unaligned-fit",
    "unidentified-look-alike",
    "unit-slip",
    "unmarked-removal",
    "unverified-before-commit",
    "worked-on-while-off",
    "wrench-out-of-range",
    "wrench-too-large",
    "wrong-model-part",
];

/// The settings of a house that has these off. A rule that is off does not run, and what only such rules ask for is
/// never worked out.
pub fn off() -> Settings {
    let mut settings = Settings::default();
    for id in FOLLOWING {
        settings.rules.set(id, Level::Off);
        let rule = checks::find(id).expect("the rules have these names");
        assert!(rule.level(&settings).is_none(), "`{id}` can be off");
    }
    settings
}
