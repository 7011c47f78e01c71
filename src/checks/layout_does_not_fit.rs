//! So many fasteners do not lie in the layout that is declared.
use super::{Rule, Subject};
use crate::model::fastener::pattern::{Layout, fits};
use crate::report::{Finding, Severity};

pub static RULE: Rule = Rule {
    id: "layout-does-not-fit",
    severity: Severity::Warning,
    waivable: true,
    summary: "The count of a part does not go into its layout",
    explain: "The drawing on the sheet shows one place for each fastener. Where the count and the layout do not agree, \
one of them is wrong, and a mechanic who trusts the drawing leaves a fastener out or looks for one that is not there.

Set the count or the layout right. `layout rectangle 4 by 3` holds 12, or 10 where only the edge has fasteners; rows \
are as long as each other, or one longer.",
    bad: "\
parts
    bolts \"Cover bolt\"  x9  layout rectangle 4 by 3, torque 40 N.m crosswise

tools
    wrench-m \"Torque wrench M\"  range 10 to 50 N.m

clean bolts
tighten bolts with wrench-m
",
    good: "\
parts
    bolts \"Cover bolt\"  x10  layout rectangle 4 by 3, torque 40 N.m crosswise

tools
    wrench-m \"Torque wrench M\"  range 10 to 50 N.m

clean bolts
tighten bolts with wrench-m
",
    check,
};

fn check(subject: &Subject<'_>, findings: &mut Vec<Finding>) {
    for part in subject.document.declarations.parts.iter().filter(|part| subject.owns(part.thing.span)) {
        let Some(layout) = part.layout.filter(|layout| !fits(layout.value, part.count)) else {
            continue;
        };
        let name = &part.thing.name.value;
        let text = format!("`{name}` are {}, and {} of them", part.count, held(layout.value));
        let help = "Look at the machine, and set the count or the layout right";
        findings.push(
            Finding::new(RULE.id, layout.span, text).help(help).label(part.thing.name.span, "counted here"),
        );
    }
}

fn held(layout: Layout) -> String {
    match layout {
        Layout::Rectangle { across, down } => {
            let (all, edge) = (across.saturating_mul(down), across.saturating_add(down).saturating_mul(2));
            format!("a rectangle of {across} by {down} has {all}, or {} at its edge,", edge.saturating_sub(4))
        }
        Layout::Rows(rows) => format!("{rows} rows take at least one each, {rows}"),
        Layout::Circle | Layout::Line => "another count".to_owned(),
    }
}
