//! A fastener is tightened and nothing says how far.
use super::{Rule, Subject, part_objects};
use crate::model::Declarations;
use crate::model::action::{Object, TorqueSource, Work};
use crate::model::declarations::Part;
use crate::model::torque::{Pass, Torque};
use crate::report::{Finding, Severity};

pub static RULE: Rule = Rule {
    id: "torque-never-stated",
    severity: Severity::Error,
    waivable: true,
    summary: "A part is tightened and neither the step nor its declaration says how tight",
    explain: "\"Tighten\" alone means as tight as each pair of hands thinks right: one shears the screw, the next \
leaves it loose.

State the torque once with the part, `torque 20 to 25 N.m`, or in the step, or name a list under `torques` and \
call it with `by`. Where no number is needed say so: `finger tight`, `hand tight`, `snug`, or `not specified`. \
Passes in shares (`in 50 % 75 % 100 %`) need the whole they are shares of: without it nobody can set a wrench, and \
each mechanic takes the number he has in mind. An angle (`by 1/2 turn`) and an end that can be seen \
(`until \"the slot meets the hole\"`) count too.",
    bad: "\
parts
    screws \"Cover screw\"  x4  thread M6

clean screws
tighten screws
",
    good: "\
parts
    screws \"Cover screw\"  x4  thread M6, class 8.8, dry, torque 8 to 10 N.m
    plug   \"Level plug\"

tools
    wrench-s \"Torque wrench S\"  range 2 to 12 N.m

clean screws, plug
tighten screws with wrench-s
tighten plug hand tight
",
    check,
};

fn check(subject: &Subject<'_>, findings: &mut Vec<Finding>) {
    if subject.has_lost_lines() {
        return;
    }
    let declarations = &subject.document.declarations;
    for work in
        subject.contents.works.iter().filter(|work| work.verb.tightens() && !step_says(work, declarations))
    {
        let silent = part_objects::of(work, declarations)
            .filter(|(_, _, part)| !part_says(part) && !subject.unclear(part.thing.span));
        findings.extend(silent.map(|(_, object, part)| match share(work, part) {
            Some(share) => finding_of_share(object, share, subject),
            None => finding(object, part, subject),
        }));
    }
}

/// The step itself, or the list it calls, says how tight.
fn step_says(work: &Work, declarations: &Declarations) -> bool {
    let torque = match (&work.torque, work.torque_source) {
        (Some(torque), TorqueSource::Step) => says(torque),
        // What the list does not say may be filled in from the first part, and then holds for that one alone.
        (Some(_), TorqueSource::Named(id)) => {
            declarations.torques.get(id as usize).is_some_and(|list| says(&list.torque))
        }
        _ => false,
    };
    torque || work.by.is_some() || work.until.is_some() || work.quantity.is_some()
}

fn part_says(part: &Part) -> bool {
    part.torque.as_ref().is_some_and(says)
}

/// Shares of nothing do not count.
fn says(torque: &Torque) -> bool {
    torque.says_something() && !torque.lacks_whole()
}

/// The first share of a torque that the part is tightened in.
fn share<'a>(work: &'a Work, part: &'a Part) -> Option<&'a Pass> {
    [&work.torque, &part.torque].into_iter().flatten().find_map(|torque| torque.shares().next())
}

fn finding_of_share(object: &Object, share: &Pass, subject: &Subject<'_>) -> Finding {
    let name = &object.word.value;
    let text = format!("`{name}` is tightened in shares of a torque that is stated nowhere");
    let help = "Give the whole torque with the part, or before its shares: `25 N.m in 50 % 100 %`";
    let finding = Finding::new(RULE.id, object.word.span, text).help(help);
    if subject.owns(share.span) {
        finding.label(share.span, "no wrench can be set to a share of nothing")
    } else {
        finding
    }
}

fn finding(object: &Object, part: &Part, subject: &Subject<'_>) -> Finding {
    let name = &object.word.value;
    let text = format!("`{name}` is tightened, and nothing says how tight");
    let finding = Finding::new(RULE.id, object.word.span, text).help(
        "Give a torque with the part or in the step (`20 to 25 N.m`); where no number is needed: `snug`, `not specified`",
    );
    if subject.owns(part.thing.name.span) {
        finding.label(part.thing.name.span, "declared here without `torque`")
    } else {
        finding
    }
}
