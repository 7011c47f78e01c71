//! A number with its unit stands in a note.
use super::passages::Kind;
use super::prose_words::{WordKind, words};
use super::{Rule, Subject};
use crate::report::{Finding, Severity};

pub static RULE: Rule = Rule {
    id: "limit-in-note",
    severity: Severity::Warning,
    waivable: true,
    summary: "A note holds a limit, which belongs in the step",
    explain: "Notes are the first thing a practised reader skips. A clearance, a torque or a time that stands in one \
is missed, and it is not converted, compared or recorded as the step's own quantities are. MIL-DTL-87268D \
3.2.2.3 asks for tolerances in the step.

Move the amount to the step it limits: `measure shaft \"run-out\" max 0.05 mm`. What a part weighs or holds \
belongs to its declaration.",
    bad: "\
parts
    shaft \"Pump shaft\"

note \"The shaft may run out by 0.05 mm.\"
inspect shaft \"straightness\"
    if bent: stop \"Order a shaft.\"
",
    good: "\
parts
    shaft \"Pump shaft\"

tools
    indicator \"Dial indicator\"

note \"The order is that of 29 CFR 1910.147(d).\"
measure shaft \"run-out\" max 0.05 mm with indicator
    if above: stop \"Order a shaft.\"
",
    check,
};

fn check(subject: &Subject<'_>, findings: &mut Vec<Finding>) {
    for passage in subject.contents.passages.iter().filter(|passage| passage.kind() == Kind::Note) {
        for word in words(passage.text()).filter(|word| word.kind == WordKind::Amount) {
            let amount = passage.text().get(word.range.clone()).unwrap_or("");
            let span = passage.span(subject.source, word.range.start, word.range.end);
            let text = format!("`{amount}` stands in a note, where it is read past and not checked");
            findings
                .push(Finding::new(RULE.id, span, text).help("Put the amount in the step that it limits"));
        }
    }
}
