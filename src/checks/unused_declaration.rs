//! A thing is declared and no step uses it.
use super::{Rule, Subject};
use crate::model::declarations::Thing;
use crate::report::{Finding, Severity};

pub static RULE: Rule = Rule {
    id: "unused-declaration",
    severity: Severity::Warning,
    waivable: true,
    summary: "A part, tool, supply, tightening list or figure is declared and never used",
    explain:
        "The lists at the head of the sheet are fetched, ordered and paid for. A tool that no step names is \
carried for nothing; a part that no step names is the sign of a step that was forgotten.

Name it in the step where it is used, or take the line out. Catalogues may hold more than one procedure uses.",
    bad: "\
tools
    hook \"Seal hook\"

check \"make sure that the pump is cold\"
    if not ok: stop \"Let the pump cool down.\"
",
    good: "\
parts
    lip-seal \"Lip seal\"  single-use

tools
    hook \"Seal hook\"

remove lip-seal from \"the cover\" with hook; discard lip-seal
install new lip-seal in \"the cover\"
",
    check,
};

fn check(subject: &Subject<'_>, findings: &mut Vec<Finding>) {
    if subject.procedure().is_none() {
        return;
    }
    let all = &subject.document.declarations;
    let mut of = |things: &mut dyn Iterator<Item = &Thing>, cost: &str| {
        let unused = things.filter(|thing| !thing.from_catalogue && thing.times_used == 0);
        findings.extend(unused.map(|thing| finding(thing, cost)));
    };
    of(&mut all.parts.iter().map(|it| &it.thing), "a step is missing, or the part is fetched for nothing");
    of(&mut all.tools.iter().map(|it| &it.thing), "a step leaves its tool out, or it is fetched for nothing");
    of(&mut all.supplies.iter().map(|it| &it.thing), "a step leaves it out, or it is fetched for nothing");
    of(&mut all.torques.iter().map(|it| &it.thing), "nothing is tightened by it");
    of(&mut all.figures.iter().map(|it| &it.thing), "no step sends the reader to it");
}

fn finding(thing: &Thing, cost: &str) -> Finding {
    let name = &thing.name.value;
    Finding::new(RULE.id, thing.name.span, format!("`{name}` is declared and never used: {cost}"))
        .help(format!("Name `{name}` in the step that needs it, or take this line out"))
}
