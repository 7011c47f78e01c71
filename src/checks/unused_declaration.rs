//! A thing is declared and no step uses it.
use super::{Rule, Subject};
use crate::model::declarations::{Name, Thing};
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
    if subject.procedure().is_none() || subject.has_holes() {
        return;
    }
    let all = &subject.document.declarations;
    let parts = (0..).zip(&all.parts).map(|(id, it)| (Name::Part(id), &it.thing));
    let tools = (0..).zip(&all.tools).map(|(id, it)| (Name::Tool(id), &it.thing));
    let supplies = (0..).zip(&all.supplies).map(|(id, it)| (Name::Supply(id), &it.thing));
    let torques = (0..).zip(&all.torques).map(|(id, it)| (Name::Torque(id), &it.thing));
    let figures = (0..).zip(&all.figures).map(|(id, it)| (Name::Figure(id), &it.thing));
    let things = parts.chain(tools).chain(supplies).chain(torques).chain(figures);
    let unused = things.filter(|(_, thing)| !thing.from_catalogue && thing.times_used == 0);
    findings.extend(unused.map(|(name, thing)| finding(thing, cost(name))));
}

/// What comes of it.
fn cost(name: Name) -> &'static str {
    match name {
        Name::Part(_) => "a step is missing, or the part is fetched for nothing",
        Name::Torque(_) => "nothing is tightened by it",
        Name::Figure(_) => "no step sends the reader to it",
        Name::Tool(_) | Name::Supply(_) | Name::Message(_) => {
            "a step leaves it out, or it is fetched for nothing"
        }
    }
}

fn finding(thing: &Thing, cost: &str) -> Finding {
    let name = &thing.name.value;
    Finding::new(RULE.id, thing.name.span, format!("`{name}` is declared and never used: {cost}"))
        .help(format!("Name `{name}` in the step that needs it, or take this line out"))
}
