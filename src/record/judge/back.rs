//! Where an outcome sent the work back: which steps are done again, how often, and after when.
use super::Judge;
use crate::record::plan::{Plan, Planned, Turn};
use crate::record::shape::{Record, StepRecord};
use std::collections::BTreeSet;

/// An outcome that was taken and sends the work back to an earlier step, or to its own.
#[derive(Debug)]
pub(super) struct Back<'a> {
    /// The step with the outcome, and the first that is done again.
    step: u32,
    from: u32,
    round: &'a str,
    attempt: u32,
    most: Option<u32>,
    /// When the outcome was ticked.
    at: &'a str,
}

/// All of them; one an attempt, and none where that attempt ended the work.
pub(super) fn all<'a>(record: &'a Record, plan: &Plan) -> Vec<Back<'a>> {
    let of_entry = |entry: &'a StepRecord| plan.step(entry.step).map(|planned| of(entry, planned));
    record.steps.iter().filter_map(of_entry).flatten().collect()
}

fn of<'a>(entry: &'a StepRecord, planned: &Planned) -> Vec<Back<'a>> {
    let branch = |number: u32| planned.branches.iter().find(|it| it.branch == number);
    let ended: BTreeSet<u32> = entry
        .outcomes
        .iter()
        .filter(|it| branch(it.branch).is_some_and(|it| it.stop))
        .map(|it| it.attempt)
        .collect();
    let mut seen = ended;
    let mut backs = Vec::new();
    for outcome in &entry.outcomes {
        let Some(redo) = branch(outcome.branch).and_then(|it| it.redo) else { continue };
        if seen.insert(outcome.attempt) {
            let (step, round) = (entry.step, entry.round.as_str());
            let (attempt, at) = (outcome.attempt, outcome.at.as_str());
            backs.push(Back { step, from: redo.from, round, attempt, most: redo.most, at });
        }
    }
    backs
}

impl Judge<'_> {
    /// Those that send the work back over that step.
    pub(super) fn backs_over(&self, entry: &StepRecord) -> impl Iterator<Item = &Back<'_>> {
        let (step, round) = (entry.step, &entry.round);
        self.backs.iter().filter(move |it| it.round == round && (it.from..=it.step).contains(&step))
    }

    /// The first step to which the work went back over this one; a step later than all where it did not.
    pub(super) fn earliest_back(&self, entry: &StepRecord) -> u32 {
        self.backs_over(entry).map(|it| it.from).min().unwrap_or(u32::MAX)
    }

    /// What was not done again, or too often; false where it was done more often than outcomes say.
    pub(super) fn done_again(&mut self, entry: &StepRecord) -> bool {
        let backs: Vec<&Back<'_>> = self.backs_over(entry).collect();
        let wanted = u32::try_from(backs.len()).unwrap_or(u32::MAX).saturating_add(1);
        let own = || backs.iter().filter(|it| it.step == entry.step);
        let most = own().filter_map(|it| it.most).max();
        let times = own().filter(|it| it.attempt < entry.attempts).count();
        let before = entry.attempts < wanted || backs.iter().any(|it| it.at > entry.at.as_str());
        if before {
            self.not_again.push(Turn { step: entry.step, round: entry.round.clone(), at: entry.step });
        }
        if let Some(most) = most.filter(|most| times > *most as usize) {
            let message = format!("it was done again {times} times, and {most} are allowed");
            self.at(entry, "too-often", message, "stop and ask");
        }
        entry.attempts <= wanted
    }
}
