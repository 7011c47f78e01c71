//! A pattern goes by how the fasteners lie, and nothing says it.
use super::patterns::{self, Patterned};
use super::{Rule, Subject};
use crate::model::fastener::pattern::Layout;
use crate::model::torque::Pattern;
use crate::report::{Finding, Severity};
use std::collections::HashSet;

pub static RULE: Rule = Rule {
    id: "pattern-needs-layout",
    severity: Severity::Warning,
    waivable: true,
    summary: "A pattern goes by how the fasteners lie, and their layout is not said",
    explain: "`from centre` means something only where there is a centre: each mechanic would pick his own first bolt. \
With the layout the sheet shows a drawing that numbers the fasteners in the order of work.

Say with the part how its pieces lie: `layout 2 rows`, `layout line`, `layout rectangle 4 by 3`. Without a layout \
fasteners lie on a circle, which has no centre to start from; `crosswise` and `clockwise` go well with it. Of one \
fastener there is no pattern at all: its count is missing.",
    bad: "\
parts
    bolts \"Head bolt\"  x8  torque 40 N.m from centre

tools
    wrench-m \"Torque wrench M\"  range 10 to 50 N.m

clean bolts
tighten bolts with wrench-m
",
    good: "\
parts
    bolts \"Head bolt\"  x8  layout 2 rows, torque 40 N.m from centre

tools
    wrench-m \"Torque wrench M\"  range 10 to 50 N.m

clean bolts
tighten bolts with wrench-m
",
    check,
};

fn check(subject: &Subject<'_>, findings: &mut Vec<Finding>) {
    let mut seen = HashSet::new();
    for it in patterns::all(subject) {
        let Some((text, help)) = fault(&it) else { continue };
        let place = it.place(subject);
        if !seen.insert(place) {
            continue;
        }
        let finding = Finding::new(RULE.id, place, text).help(help);
        let own = subject.owns(it.part.thing.name.span);
        findings.push(if own { finding.label(it.part.thing.name.span, "declared here") } else { finding });
    }
}

fn fault(it: &Patterned<'_>) -> Option<(String, &'static str)> {
    let name = &it.object.word.value;
    let from = matches!(it.pattern.value, Pattern::FromCentre | Pattern::FromEnds);
    if it.single {
        let text = format!("`{name}` is a single one, and a pattern takes several");
        return Some((text, "Give the count with the part, as `x4`, or take the pattern out"));
    }
    match it.part.layout.map(|layout| layout.value) {
        None if from => {
            let text =
                format!("Nothing says how `{name}` lie, so that nobody can tell where their centre is");
            Some((text, "Say it with the part: `layout 2 rows`, `layout line` or `layout rectangle 4 by 3`"))
        }
        Some(Layout::Circle) if from => {
            let text = format!("`{name}` lie on a circle, which has none of its fasteners at the centre");
            Some((text, "On a circle tighten `crosswise`"))
        }
        _ => None,
    }
}
