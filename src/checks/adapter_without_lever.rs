//! An adapter changes what a wrench shows, and nobody can tell by how much.
use super::wrenches::OfOneStep;
use super::{Rule, Subject};
use crate::model::Name;
use crate::model::tightening;
use crate::report::{Finding, Severity};

pub static RULE: Rule = Rule {
    id: "adapter-without-lever",
    severity: Severity::Error,
    waivable: true,
    summary: "An adapter is set on a wrench whose lever is not declared",
    explain: "A crow-foot or an extension that sets the drive off makes the lever longer, so that the fastener gets \
more than the wrench shows: 40 mm on a wrench of 250 mm add 16 %. What the wrench must be set to instead is the \
torque times L / (L + E), and without the lever L it cannot be worked out.

Give the wrench its `length`, from the centre of the drive to the middle of the grip. Set at a right angle to the \
wrench, `with wrench-s, crow-foot at 90 deg`, an adapter changes nothing; turned back along it, `at 180 deg`, it makes \
the lever shorter.",
    bad: "\
parts
    union \"Oil pipe union nut\"  torque 35 to 40 N.m

tools
    wrench-m  \"Torque wrench M\"          range 10 to 50 N.m
    crow-foot \"Crow-foot adapter, 24 mm\" adapter 40 mm

clean union
tighten union with wrench-m, crow-foot
",
    good: "\
parts
    union \"Oil pipe union nut\"  torque 35 to 40 N.m

tools
    wrench-m  \"Torque wrench M\"          range 10 to 50 N.m, length 350 mm
    crow-foot \"Crow-foot adapter, 24 mm\" adapter 40 mm

clean union
tighten union with wrench-m, crow-foot
",
    check,
};

fn check(subject: &Subject<'_>, findings: &mut Vec<Finding>) {
    for step in subject.measured() {
        findings.extend(finding(step, subject));
    }
}

fn finding(step: &OfOneStep<'_>, subject: &Subject<'_>) -> Option<Finding> {
    let declarations = &subject.document.declarations;
    let adapter = step.work.tools.iter().find(|object| match object.name {
        Some(Name::Tool(id)) => declarations.tool(id).is_some_and(|tool| tool.adapter.is_some()),
        _ => false,
    })?;
    let mut wrenches = tightening::wrenches(step.work, declarations);
    let (_, wrench) = wrenches.find(|(_, tool)| step.share(tool, subject).is_none())?;
    let (adapter, place, name) = (&adapter.word.value, adapter.word.span, &wrench.thing.name.value);
    let Some(length) = &wrench.length else {
        let text = format!(
            "With `{adapter}` the fastener gets another torque than `{name}` shows, and its lever is not known"
        );
        let finding = Finding::new(RULE.id, place, text).help(format!(
            "Give `{name}` its `length`, from the drive's centre to the grip's; `at 90 deg` needs none"
        ));
        let own = subject.owns(wrench.thing.name.span);
        return Some(if own {
            finding.label(wrench.thing.name.span, "declared here without `length`")
        } else {
            finding
        });
    };
    let text = format!("`{adapter}` leaves nothing of the lever of `{name}`, {}", length.print());
    Some(Finding::new(RULE.id, place, text).help("Look at both lengths again; the adapter is the shorter"))
}
