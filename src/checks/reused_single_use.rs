//! A single-use part goes back in.
use super::{Rule, Subject, part_objects};
use crate::ledger::Groups;
use crate::model::action::{Object, Work};
use crate::model::declarations::Part;
use crate::model::verb::Effect;
use crate::model::{Action, Declarations, Name, Step};
use crate::report::{Finding, Severity};
use crate::source::Span;
use std::collections::BTreeMap;

pub static RULE: Rule = Rule {
    id: "reused-single-use",
    severity: Severity::Error,
    waivable: true,
    summary: "A single-use part is fitted without `new`",
    explain: "A split pin that was bent once breaks at the second bend; a pressed seal, a crush washer and a gasket \
leak when they go back. The part costs pennies and holds what costs a shaft.

A part declared `single-use` needs `new` each time it is fitted. Once a new one is in hand (`clean new gasket`, \
`install new gasket`) later steps may name it without `new`, until it is taken off again. Steps for one model \
only are followed for that model. What a part `holds` comes free with it: a crush washer under a plug is to be renewed \
when the plug comes out, be it named or not.",
    bad: "\
parts
    gasket \"Cover gasket\"  single-use

remove gasket from \"the housing\"; discard gasket
install gasket on \"the housing\"
",
    good: "\
parts
    gasket \"Cover gasket\"  single-use

remove gasket from \"the housing\"; discard gasket
install new gasket on \"the housing\"
",
    check,
};

fn check(subject: &Subject<'_>, findings: &mut Vec<Finding>) {
    let Some(procedure) = subject.procedure() else { return };
    let declarations = &subject.document.declarations;
    if declarations.parts.iter().all(|part| part.single_use.is_none()) {
        return;
    }
    let groups = Groups::of(procedure, declarations);
    let mut hand = InHand::default();
    for step in procedure.steps() {
        let on = groups.mask(&step.applies);
        for action in &step.actions {
            hand.follow(action, on, declarations, &groups, findings);
        }
        let mut ends = Vec::new();
        for branch in branches(step) {
            let mut taken = InHand { before: Some(&hand), ..InHand::default() };
            branch.iter().for_each(|action| taken.follow(action, on, declarations, &groups, findings));
            if branch.iter().all(goes_on) {
                ends.push(taken.since);
            }
        }
        ends.iter().for_each(|end| hand.keep_common(end));
    }
}

/// What may happen after the step's own line, each on its own.
fn branches(step: &Step) -> impl Iterator<Item = &[Action]> {
    let outcomes = step.outcomes.iter().map(|outcome| outcome.then.as_slice());
    let options = step.options.iter().map(|option| option.actions.as_slice());
    outcomes.chain(options).chain(step.exceptions.iter().map(|exception| exception.actions.as_slice()))
}

fn goes_on(action: &Action) -> bool {
    !matches!(action, Action::Stop(_) | Action::Skip(_) | Action::Repeat(_))
}

/// For each part, on which models a new one is in hand or in place.
#[derive(Default)]
struct InHand<'b> {
    /// In a branch: how it was before.
    before: Option<&'b InHand<'b>>,
    since: BTreeMap<u32, u64>,
    /// Parts that what holds them set free, and that no step has named since.
    loose: BTreeMap<u32, u64>,
}

impl InHand<'_> {
    fn of(&self, part: u32) -> u64 {
        let before = || self.before.map(|before| before.of(part));
        self.since.get(&part).copied().or_else(before).unwrap_or(0)
    }

    fn follow(
        &mut self,
        action: &Action,
        on: u64,
        all: &Declarations,
        groups: &Groups<'_>,
        out: &mut Vec<Finding>,
    ) {
        let Some(work) = action.work() else { return };
        for (id, object, part) in part_objects::of(work, all) {
            let on = on & groups.mask(&part.applies);
            if work.takes_off() {
                self.loosen(part, on, all);
            } else if work.fits() && object.new.is_none() {
                out.extend(self.clamped(work, part, on, all).map(|held| finding_of_held(object, part, held)));
            }
            if part.single_use.is_none() {
                continue;
            }
            let fresh = self.of(id);
            // What becomes of it is said.
            self.loose.remove(&id);
            if comes_off(work) {
                self.since.insert(id, fresh & !on);
            } else if object.new.is_some() || work.verb.does(Effect::Renews) {
                self.since.insert(id, fresh | on);
            } else if work.fits() && on & !fresh != 0 {
                out.push(finding(work, object, part));
                // Said once; the steps that go on with the same part are not wrong again.
                self.since.insert(id, fresh | on);
            }
        }
    }
    /// What a part that comes off held is no longer as it was pressed.
    fn loosen(&mut self, part: &Part, on: u64, all: &Declarations) {
        for (id, _) in held_once(part, all) {
            self.since.insert(id, self.of(id) & !on);
            let loose = self.loose.get(&id).copied().unwrap_or(0);
            self.loose.insert(id, loose | on);
        }
    }

    /// A single-use part that goes back with what holds it, and was not touched since that came off.
    fn clamped<'d>(
        &mut self,
        work: &Work,
        part: &'d Part,
        on: u64,
        all: &'d Declarations,
    ) -> Option<&'d Part> {
        let mut old = None;
        let named = |id| work.objects.iter().any(|object| object.name == Some(Name::Part(id)));
        for (id, held) in held_once(part, all).filter(|(id, _)| !named(*id)) {
            let loose = self.loose.remove(&id).unwrap_or(0);
            if loose & on & !self.of(id) != 0 {
                old = old.or(Some(held));
            }
        }
        old
    }

    /// After a branch that goes on, only what is new on both ways is new.
    fn keep_common(&mut self, branch: &BTreeMap<u32, u64>) {
        for (id, fresh) in branch {
            if let Some(ours) = self.since.get_mut(id) {
                *ours &= fresh;
            }
        }
    }
}

/// Single-use parts that the part holds in their places.
fn held_once<'d>(part: &'d Part, all: &'d Declarations) -> impl Iterator<Item = (u32, &'d Part)> {
    let held = part.holds.iter().filter_map(|held| match held.value {
        Name::Part(id) => Some((id, all.part(id)?)),
        _ => None,
    });
    held.filter(|(_, part)| part.single_use.is_some())
}

fn comes_off(work: &Work) -> bool {
    work.takes_off() || work.verb.does(Effect::Discards)
}

fn finding(work: &Work, object: &Object, part: &Part) -> Finding {
    let name = &object.word.value;
    let verb = &work.verb.name;
    let text = format!("`{name}` is single-use and goes back in: `{verb}` without `new`");
    let mut finding = Finding::new(RULE.id, object.word.span, text)
        .help(format!("Fit a new one: `new {name}`"))
        .edit(Span { end: object.word.span.start, ..object.word.span }, "new ");
    if let Some(span) = part.single_use.filter(|span| span.file == object.word.span.file) {
        finding = finding.label(span, "declared single-use here");
    }
    finding
}

/// Perhaps it is meant to stay, so this is no error.
fn finding_of_held(object: &Object, part: &Part, held: &Part) -> Finding {
    let (holder, name) = (part.thing.name.as_str(), held.thing.name.as_str());
    let text = format!("`{name}` is single-use and goes back with `{holder}`, which held it");
    let help = format!("Discard it where `{holder}` comes off, and `install new {name}` before this");
    let finding =
        Finding { severity: Severity::Warning, ..Finding::new(RULE.id, object.word.span, text) }.help(help);
    match held.single_use.filter(|span| span.file == object.word.span.file) {
        Some(span) => finding.label(span, "declared single-use here"),
        None => finding,
    }
}
