//! A property class or grade that no table has.
use super::judged::thread_of;
use super::suggestion::did_you_mean;
use super::{Rule, Subject};
use crate::model::declarations::{Part, Strength, StrengthSystem};
use crate::model::fastener::strength::{NoStrength, Why, strength, word};
use crate::model::fastener::thread::Thread;
use crate::report::{Finding, Severity};

pub static RULE: Rule = Rule {
    id: "unknown-strength",
    severity: Severity::Warning,
    waivable: true,
    summary: "A property class or grade is in no table",
    explain: "A misprinted class is ordered as it stands, and a weaker screw goes in where the strong one was.

Classes are those of ISO 898-1 (4.6, 4.8, 5.6, 5.8, 6.8, 8.8, 9.8, 10.9, 12.9), of ISO 3506-1 for stainless \
(A2 and A4, -50, -70, -80), and for nuts those of ISO 898-2 (5, 6, 8, 9, 10, 12). Grades are those of SAE J429 \
for inch threads (1, 2, 4, 5, 5.2, 7, 8, 8.2). Some are not made in every diameter.

Write what is stamped on the head. Another standard's grade is kept with a written reason; its torque is then \
not looked at.",
    bad: "\
parts
    screws \"Cover screw\"  x4  thread M10, class 8.9, dry, torque 40 to 48 N.m

tools
    wrench \"Torque wrench M\"  range 10 to 50 N.m

clean screws
tighten screws with wrench
",
    good: "\
parts
    screws \"Cover screw\"  x4  thread M10, class 8.8, dry, torque 40 to 48 N.m

tools
    wrench \"Torque wrench M\"  range 10 to 50 N.m

clean screws
tighten screws with wrench
",
    check,
};

fn check(subject: &Subject<'_>, findings: &mut Vec<Finding>) {
    let own = subject.document.declarations.parts.iter().filter(|part| subject.owns(part.thing.span));
    findings.extend(own.filter_map(of_part));
}

fn of_part(part: &Part) -> Option<Finding> {
    let written = part.strength.as_ref()?;
    // An unknown thread has its own finding.
    let thread = match &part.thread {
        Some(_) => thread_of(part)?,
        None => likely(written.system),
    };
    strength(written.system, written.value.as_str(), &thread).err().map(|none| finding(written, &none))
}

/// A thread in the middle of the tables, where none is declared.
fn likely(system: StrengthSystem) -> Thread {
    Thread { diameter: 10.0, pitch: 1.5, unified: system == StrengthSystem::Grade }
}

fn finding(written: &Strength, none: &NoStrength) -> Finding {
    let (word, value) = (word(written.system), &written.value.value);
    let text = match none.why {
        Why::Unknown => format!("There is no {word} `{value}`"),
        Why::Size => format!("`{word} {value}` is not made in this diameter"),
        Why::Word => format!("`{word} {value}` is not said of such a thread"),
    };
    let help = did_you_mean(&none.near).unwrap_or(format!("Write the {word} that is stamped on the head"));
    Finding::new(RULE.id, written.value.span, text).help(help)
}
