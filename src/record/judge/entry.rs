//! What a step that is done must say: each value, its outcome, each signature, and nothing else.
use super::{Judge, OWN_PAGE};
use crate::record::bounds::Side;
use crate::record::job::same_name;
use crate::record::plan::Planned;
use crate::record::shape::{Outcome, StepRecord};
use std::collections::BTreeSet;

impl<'a> Judge<'a> {
    pub(super) fn done(&mut self, entry: &'a StepRecord, planned: &Planned) {
        let numbered =
            entry.values.iter().map(|it| it.attempt).chain(entry.outcomes.iter().map(|it| it.attempt));
        if numbered.max() > Some(entry.attempts) || !self.done_again(entry) {
            return self.at(entry, "attempt-missing", "it was done again, and no outcome says so", OWN_PAGE);
        }
        self.unknown(entry, planned);
        for attempt in 1..=entry.attempts {
            let empty = entry.values.iter().all(|it| it.attempt != attempt)
                && entry.outcomes.iter().all(|it| it.attempt != attempt);
            // The first time round it may have been jumped over, or not been asked for.
            if attempt == entry.attempts || !(empty && self.may_be_left(planned)) {
                self.attempt(entry, planned, attempt);
            }
        }
        self.signed(entry, planned);
        let ends = planned.branches.iter().filter(|it| taken(entry, Some(entry.attempts), it.branch));
        for branch in ends {
            if branch.stop {
                self.stopped = Some(entry.step);
            }
            self.skipping = branch.skip.filter(|to| *to > entry.step).or(self.skipping);
        }
    }

    /// Whether there is a way through the procedure that leaves the step out.
    fn may_be_left(&self, planned: &Planned) -> bool {
        let jumped = |step: &Planned| {
            step.step < planned.step && step.branches.iter().any(|it| it.skip > Some(planned.step))
        };
        planned.optional || !planned.hangs.is_empty() || self.plan.steps.iter().any(jumped)
    }

    /// Values, outcomes and signatures that the step has no place for, or that say of themselves what is not so.
    fn unknown(&mut self, entry: &StepRecord, planned: &Planned) {
        let mut seen = BTreeSet::new();
        for value in &entry.values {
            let field = planned.fields.iter().find(|it| it.field == value.field);
            let told = field.is_some_and(|field| {
                let limits = field.limits.as_ref();
                let (low, high) = limits.map_or(("", ""), |it| (&it.low, &it.high));
                let unit = limits.map_or("", |it| &it.unit);
                let unit_fits = field.units.iter().any(|it| *it == value.unit)
                    || field.units.is_empty() && value.unit.is_empty();
                value.low == low
                    && value.high == high
                    && value.limits_in == unit
                    && unit_fits
                    && value.label == field.label
            });
            if !told || !seen.insert((0, value.field.as_str(), value.attempt)) {
                let message = format!(
                    "the value `{}` ({}) is not one that the step asks for",
                    value.typed, value.label
                );
                self.at(entry, "unknown-value", message, OWN_PAGE);
            }
        }
        for outcome in &entry.outcomes {
            let branch = planned.branches.iter().find(|it| it.branch == outcome.branch);
            let told = branch.is_some_and(|it| it.when == outcome.when && !it.exception);
            let twice = entry
                .outcomes
                .iter()
                .filter(|it| (it.branch, it.attempt) == (outcome.branch, outcome.attempt));
            if !told || twice.count() > 1 {
                let message = format!("the outcome `{}` is not one of the step", outcome.when);
                self.at(entry, "unknown-outcome", message, OWN_PAGE);
            }
        }
        for signed in &entry.holds {
            let hold = planned.holds.iter().any(|it| it.hold == signed.hold && it.role == signed.role);
            let twice = entry.holds.iter().filter(|it| it.hold == signed.hold).count();
            if !hold || twice > 1 {
                let message = format!(
                    "the signature of {} ({}) is not one that the step asks for",
                    signed.name, signed.role
                );
                self.at(entry, "unknown-signature", message, OWN_PAGE);
            }
        }
    }

    fn attempt(&mut self, entry: &StepRecord, planned: &Planned, attempt: u32) {
        let branches = || planned.branches.iter().filter(|it| taken(entry, Some(attempt), it.branch));
        let mut sides = Vec::new();
        for field in &planned.fields {
            let value = entry.values.iter().find(|it| it.field == field.field && it.attempt == attempt);
            let Some(value) = value.filter(|it| !it.typed.trim().is_empty()) else {
                let what = named(&field.label, field.piece);
                self.at(
                    entry,
                    "value-missing",
                    format!("{what} is not written down"),
                    "fill it in on the page",
                );
                continue;
            };
            let Some(limits) = &field.limits else { continue };
            let what = named(&field.label, field.piece);
            let Some(side) = limits.side(&value.typed, &value.unit) else {
                let message = format!("{what}: `{}` is no number", value.typed);
                self.at(entry, "no-number", message, "write figures, with a decimal point or comma");
                continue;
            };
            sides.push(side);
            let answered = branches().any(|it| if side == Side::Below { it.below } else { it.above });
            if side != Side::Within && !answered {
                let relation = if side == Side::Below { "below" } else { "above" };
                let message = format!(
                    "{what} reads {} {}, {relation} {}, and no outcome is recorded: it goes on as if it were good",
                    value.typed, value.unit, limits.shown
                );
                self.at(
                    entry,
                    "out-of-limits",
                    message,
                    "do what the step says for that case, and tick it on the page",
                );
            }
        }
        self.outcomes(entry, planned, attempt, &sides);
        if planned.choice && branches().count() != 1 {
            self.at(
                entry,
                "no-choice",
                "not exactly one of its methods is ticked",
                "tick the method that was used",
            );
        }
    }

    /// An outcome of a reading must fit the reading.
    fn outcomes(&mut self, entry: &StepRecord, planned: &Planned, attempt: u32, sides: &[Side]) {
        if sides.is_empty() || sides.len() < planned.fields.iter().filter(|it| it.limits.is_some()).count() {
            return;
        }
        let of_attempt = |it: &&Outcome| it.attempt == attempt;
        for outcome in entry.outcomes.iter().filter(of_attempt) {
            let fits = match outcome.when.as_str() {
                "below" => sides.contains(&Side::Below),
                "above" => sides.contains(&Side::Above),
                "outside" => sides.iter().any(|side| *side != Side::Within),
                _ => true,
            };
            if !fits {
                let message = format!("the outcome `{}` is recorded, and no value is so", outcome.when);
                self.at(entry, "outcome-without-cause", message, "take the outcome back, or measure again");
            }
        }
    }

    fn signed(&mut self, entry: &StepRecord, planned: &Planned) {
        for hold in &planned.holds {
            if hold.branch.is_some_and(|branch| !taken(entry, None, branch)) {
                continue;
            }
            let signed = entry.holds.iter().find(|it| it.hold == hold.hold);
            match signed.map(|it| it.name.trim()).filter(|name| !name.is_empty()) {
                None => {
                    let message = format!(
                        "the hold is not signed ({}): nobody vouches for the work before it",
                        hold.role
                    );
                    self.at(entry, "hold-unsigned", message, "have it looked at and signed");
                }
                Some(name) if same_name(name, &self.record.job.technician) => {
                    let message =
                        format!("{name} signed for the own work: the hold needs a second pair of eyes");
                    self.at(entry, "signed-by-doer", message, "have somebody else look and sign");
                }
                Some(_) => {}
            }
        }
    }
}

/// Whether the branch was taken, in that attempt or in any.
fn taken(entry: &StepRecord, attempt: Option<u32>, branch: u32) -> bool {
    entry.outcomes.iter().any(|it| it.branch == branch && attempt.is_none_or(|attempt| it.attempt == attempt))
}

fn named(label: &str, piece: u32) -> String {
    let label = if label.is_empty() { "the value" } else { label };
    if piece == 0 { label.to_owned() } else { format!("{label} ({piece})") }
}
