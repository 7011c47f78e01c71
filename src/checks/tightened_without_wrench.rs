//! A torque is asked for and no torque wrench is named.
use super::{Rule, Subject};
use crate::model::action::Work;
use crate::model::declarations::Tool;
use crate::model::fastener::wrench::scale;
use crate::model::quantity::Quantity;
use crate::model::tightening::Tightening;
use crate::model::{Declarations, Name};
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
torque that must not be undercut needs one. Where the procedure knows one torque wrench only, and its scale \
covers the value, the mend names it.",
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
    let declarations = &subject.document.declarations;
    for of_one_step in subject.tightenings().chunk_by(|a, b| std::ptr::eq(a.work, b.work)) {
        let Some(work) = of_one_step.first().map(|it| it.work) else { continue };
        if has_wrench(work, declarations, subject) {
            continue;
        }
        let values: Vec<Quantity> =
            of_one_step.iter().flat_map(Tightening::wanted).map(|wanted| wanted.value).collect();
        if !values.is_empty() {
            findings.push(finding(work, &values, declarations, subject));
        }
    }
}

fn has_wrench(work: &Work, declarations: &Declarations, subject: &Subject<'_>) -> bool {
    // A range that could not be read has its own finding.
    let torn = |tool: &Tool| subject.unclear(tool.thing.span) || subject.is_faulty(tool.thing.span.file);
    work.tools.iter().any(|tool| match tool.name {
        // A name nobody declared has its own finding; it may well be the wrench.
        None => true,
        Some(Name::Tool(id)) => declarations.tool(id).is_some_and(|tool| scale(tool).is_some() || torn(tool)),
        Some(_) => false,
    })
}

fn finding(work: &Work, values: &[Quantity], declarations: &Declarations, subject: &Subject<'_>) -> Finding {
    let verb = &work.verb.name;
    let torque = values.first().map_or_else(String::new, |value| value.print());
    let text = format!("`{verb}` asks for {torque}, and no torque wrench is named to measure it with");
    let mut finding = Finding::new(RULE.id, work.verb_span, text);
    if let Some(value) = values.first().filter(|value| subject.owns(value.span())) {
        finding = finding.label(value.span(), "the torque");
    }
    match only_wrench(declarations).filter(|(_, range)| values.iter().all(|value| range.covers(value))) {
        Some((name, _)) => {
            finding.edits.extend(add_tool(work, name));
            finding.help(format!("Name the torque wrench: `with {name}`"))
        }
        None => finding.help("Name a tool that has a torque `range` after `with`"),
    }
}

/// The one torque wrench the procedure knows.
fn only_wrench(declarations: &Declarations) -> Option<(&str, &Quantity)> {
    let mut wrenches = declarations
        .tools
        .iter()
        .filter_map(|tool| scale(tool).map(|range| (tool.thing.name.as_str(), range)));
    let first = wrenches.next()?;
    wrenches.next().is_none().then_some(first)
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
