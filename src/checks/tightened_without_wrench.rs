//! A torque is asked for and no torque wrench is named.
use super::wrenches::{self, OfOneStep};
use super::{Rule, Subject};
use crate::model::action::Work;
use crate::model::fastener::wrench::scale;
use crate::report::{Edit, Finding, Severity};
use crate::source::Span;

pub static RULE: Rule = Rule {
    id: "tightened-without-wrench",
    severity: Severity::Warning,
    waivable: true,
    summary: "A step asks for a torque and names no torque wrench",
    explain: "A torque that nobody can measure is a wish. Without the wrench in the line it is missing from the kit \
list too, and the work is done by feel.

Name a tool with a torque `range` after `with`. A feel, an angle alone and `not specified` need none; a running \
torque that must not be undercut needs one. The mend names the wrench that suits \
best of those declared here and in the catalogues: marked in the unit of the torque, with the value in the middle \
half of its scale, and no larger than needed.",
    bad: "\
parts
    screws \"Cover screw\"  x4  torque 8 to 10 N.m
    nut    \"Clamp nut\"        torque 6 to 8 N.m

tools
    wrench-s \"Torque wrench S\"  range 2 to 12 N.m

clean screws, nut
tighten screws
tighten nut with wrench-s
",
    good: "\
parts
    screws \"Cover screw\"  x4  torque 8 to 10 N.m

tools
    wrench-s \"Torque wrench S\"  range 2 to 12 N.m

clean screws
tighten screws with wrench-s
",
    check,
};

fn check(subject: &Subject<'_>, findings: &mut Vec<Finding>) {
    for step in subject.measured().iter().filter(|step| !step.has_wrench(subject)) {
        // Where there are wrenches and none fits, that is the fault.
        if step.best(subject).is_some() || !wrenches::any(subject) {
            findings.extend(finding(step, subject));
        }
    }
}

fn finding(step: &OfOneStep<'_>, subject: &Subject<'_>) -> Option<Finding> {
    let first = step.values.first()?;
    let verb = &step.work.verb.name;
    let text =
        format!("`{verb}` asks for {}, and no torque wrench is named to measure it with", first.print());
    let mut finding = Finding::new(RULE.id, step.work.verb_span, text);
    if subject.owns(first.span()) {
        finding = finding.label(first.span(), "the torque");
    }
    let Some((tool, scale)) = step.best(subject).and_then(|tool| Some((tool, scale(tool)?))) else {
        return Some(finding.help("Name a tool that has a torque `range` after `with`"));
    };
    let name = tool.thing.name.as_str();
    finding.edits.extend(add_tool(step.work, name));
    let help = format!("Name the torque wrench: `with {name}`; its scale, {}, suits best", scale.print());
    Some(finding.help(help))
}

/// Names the tool after those the action has, or else after its last object.
fn add_tool(work: &Work, name: &str) -> Option<Edit> {
    let after = |span: Span, text: String| Edit { span: Span { start: span.end, ..span }, text };
    match (work.tools.last(), work.objects.last()) {
        (Some(tool), _) => Some(after(tool.word.span, format!(", {name}"))),
        (None, Some(object)) => Some(after(object.word.span, format!(" with {name}"))),
        (None, None) => None,
    }
}
