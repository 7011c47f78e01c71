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
    let all = &subject.document.declarations;
    if subject.procedure().is_none() || subject.has_holes() {
        return;
    }
    let kinds: [(&mut dyn Iterator<Item = &Thing>, fn(u32) -> Name, &str); 5] = [
        (
            &mut all.parts.iter().map(|it| &it.thing),
            Name::Part,
            "a step is missing, or the part is fetched for nothing",
        ),
        (
            &mut all.tools.iter().map(|it| &it.thing),
            Name::Tool,
            "a step leaves it out, or it is fetched for nothing",
        ),
        (
            &mut all.supplies.iter().map(|it| &it.thing),
            Name::Supply,
            "a step leaves it out, or it is fetched for nothing",
        ),
        (&mut all.torques.iter().map(|it| &it.thing), Name::Torque, "nothing is tightened by it"),
        (&mut all.figures.iter().map(|it| &it.thing), Name::Figure, "no step sends the reader to it"),
    ];
    for (things, name, cost) in kinds {
        let unused = things.zip(0..).filter(|(thing, _)| !thing.from_catalogue && thing.times_used == 0);
        // A second declaration of a name has its own finding, and nothing can use it.
        let known = unused.filter(|(thing, id)| all.names.get(thing.name.as_str()) == Some(&name(*id)));
        findings.extend(known.map(|(thing, _)| finding(thing, cost)));
    }
}

fn finding(thing: &Thing, cost: &str) -> Finding {
    let name = &thing.name.value;
    Finding::new(RULE.id, thing.name.span, format!("`{name}` is declared and never used: {cost}"))
        .help(format!("Name `{name}` in the step that needs it, or take this line out"))
}
