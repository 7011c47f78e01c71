//! Whether a record is what its procedure asks for: made for it, complete, within limits, signed in order.
use super::bounds::Side;
use super::job::{is_time, same_name};
use super::plan::{Plan, Planned, Turn};
use super::read::Opened;
use super::shape::{Outcome, Record, State, StepRecord};
use serde::Serialize;
use std::collections::BTreeSet;

/// One thing that is wrong with a record, in plain words.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct Problem {
    /// Stable, for programs: `out-of-limits`.
    pub kind: &'static str,
    pub step: Option<u32>,
    /// The place that the step was repeated for; may be empty.
    pub round: String,
    pub message: String,
    pub help: String,
}

/// All that is wrong, in the order of the work; empty for a good record. Where the seal is broken or the page was made
/// of another text, that alone: what else the record says proves nothing then.
pub fn judge(opened: &Opened, plan: &Plan) -> Vec<Problem> {
    let mut judge = Judge {
        plan,
        record: &opened.record,
        problems: Vec::new(),
        latest: ("", 0),
        gate: ("", 0),
        stopped: None,
        skipping: None,
        missing: Vec::new(),
    };
    if !opened.sealed {
        judge.say(
            "seal-broken",
            "the seal does not fit: something in the record was changed after it was saved, and nothing \
            in it can be relied on",
            "save the record from the bench page again; do not edit it by hand",
        );
    } else if judge.made_of_it() {
        judge.job();
        judge.strangers();
        for turn in &plan.turns {
            judge.turn(turn);
        }
        judge.not_done();
    }
    judge.problems
}

struct Judge<'a> {
    plan: &'a Plan,
    record: &'a Record,
    problems: Vec<Problem>,
    /// The latest moment so far, and its step.
    latest: (&'a str, u32),
    /// The last signature, and its step.
    gate: (&'a str, u32),
    /// The step whose outcome ended the work.
    stopped: Option<u32>,
    /// Up to this step an outcome jumped.
    skipping: Option<u32>,
    missing: Vec<Turn>,
}

impl<'a> Judge<'a> {
    fn say(&mut self, kind: &'static str, message: impl Into<String>, help: impl Into<String>) {
        self.problems.push(Problem {
            kind,
            step: None,
            round: String::new(),
            message: message.into(),
            help: help.into(),
        });
    }

    fn at(
        &mut self,
        entry: &StepRecord,
        kind: &'static str,
        message: impl Into<String>,
        help: impl Into<String>,
    ) {
        self.problems.push(Problem {
            kind,
            step: Some(entry.step),
            round: entry.round.clone(),
            message: message.into(),
            help: help.into(),
        });
    }

    /// Whether the page was made of this text; says so where not.
    fn made_of_it(&mut self) -> bool {
        let (made, plan) = (&self.record.procedure, self.plan);
        let help = "check it against the file that its page was made of";
        if made.number != plan.number {
            self.say(
                "other-procedure",
                format!("the record is of {}, not of {}", made.number, plan.number),
                help,
            );
        } else if made.revision != plan.revision {
            let message =
                format!("the record is of revision `{}`, the file has `{}`", made.revision, plan.revision);
            self.say("other-revision", message, help);
        } else if made.source != plan.source || made.title != plan.title {
            self.say(
                "other-source",
                "the page was made of another state of the text or of its catalogues: limits and steps \
                may have been others",
                help,
            );
        } else {
            return true;
        }
        false
    }

    fn job(&mut self) {
        let (record, plan) = (self.record, self.plan);
        let job = &record.job;
        let fields =
            [("job number", &job.number), ("serial number", &job.serial), ("technician", &job.technician)];
        for (name, text) in fields {
            if text.trim().is_empty() {
                self.say(
                    "job-incomplete",
                    format!("the {name} is missing: nobody can tell whose work this is"),
                    "fill it in on the page",
                );
            }
        }
        let known = plan.models.contains(&job.model) || plan.models.is_empty() && job.model.is_empty();
        if !known {
            let message =
                format!("the model `{}` is none of the procedure's: {}", job.model, plan.models.join(", "));
            self.say("unknown-model", message, "choose the machine's model on the page");
        }
        let moments = [("started", &record.started), ("saved", &record.saved)];
        for (name, moment) in moments {
            if !is_time(moment) {
                self.say("no-time", format!("`{moment}` ({name}) is no moment of the calendar"), CLOCK);
            }
        }
        if record.started > record.saved {
            self.say("out-of-order", "it was saved before it was started", CLOCK);
        }
    }

    /// Entries that the procedure has no place for, and those out of order or there twice.
    fn strangers(&mut self) {
        let place = |entry: &StepRecord| {
            self.plan.turns.iter().position(|turn| turn.step == entry.step && turn.round == entry.round)
        };
        let places: Vec<_> = self.record.steps.iter().map(|entry| (entry, place(entry))).collect();
        let mut last = None;
        for (entry, place) in places {
            if place.is_none() {
                self.at(
                    entry,
                    "unknown-step",
                    "the procedure has no such step",
                    "save the record from its own page",
                );
            } else if place <= last {
                self.at(
                    entry,
                    "unknown-step",
                    "it stands twice or out of order",
                    "save the record from its own page",
                );
            }
            last = place.or(last);
        }
    }

    fn turn(&mut self, turn: &Turn) {
        let (plan, record) = (self.plan, self.record);
        let Some(planned) = plan.step(turn.step) else { return };
        let entry = record.steps.iter().find(|it| it.step == turn.step && it.round == turn.round);
        let model = &record.job.model;
        let around = plan.step(turn.at).unwrap_or(planned);
        if !planned.is_for(model) || !around.is_for(model) {
            if let Some(entry) = entry {
                let message = format!("the step is not for model {model}, and yet there is an entry");
                self.at(entry, "not-for-model", message, "choose the right model on the page");
            }
            return;
        }
        if let Some(stop) = self.stopped {
            if let Some(entry) = entry {
                let message = format!("the work ended at step {stop}, and yet it went on here");
                self.at(
                    entry,
                    "after-stop",
                    message,
                    "take the outcome back that ended the work, or do not go on",
                );
            }
            return;
        }
        let skipped = self.skipping.is_some_and(|to| turn.step < to);
        let Some(entry) = entry.filter(|entry| entry.state != State::Open) else {
            if !skipped {
                self.missing.push(turn.clone());
            }
            return;
        };
        if entry.state == State::NotApplicable {
            self.moments(entry);
            if !skipped && !planned.optional && !around.optional {
                self.at(
                    entry,
                    "not-done",
                    "it is marked as not for this machine, and the procedure leaves no choice",
                    "do the step",
                );
            }
            return;
        }
        self.moments(entry);
        self.done(entry, planned);
    }

    /// Every moment of the entry is one, lies within the job, and on the right side of the signatures.
    fn moments(&mut self, entry: &'a StepRecord) {
        let record = self.record;
        let values = entry.values.iter().map(|it| it.at.as_str());
        let outcomes = entry.outcomes.iter().map(|it| it.at.as_str());
        let holds = entry.holds.iter().map(|it| it.at.as_str());
        let inner: Vec<&str> = values.chain(outcomes).chain(holds).collect();
        let all = || inner.iter().copied().chain([entry.at.as_str()]);
        if let Some(wrong) = all().find(|moment| !is_time(moment)) {
            return self.at(entry, "no-time", format!("`{wrong}` is no moment of the calendar"), CLOCK);
        }
        if all().any(|moment| moment < record.started.as_str() || moment > record.saved.as_str()) {
            return self.at(
                entry,
                "out-of-order",
                "it was done before the job began, or after it was saved",
                CLOCK,
            );
        }
        if inner.iter().any(|moment| *moment > entry.at.as_str()) {
            return self.at(
                entry,
                "out-of-order",
                "it was ticked before all of it was filled in",
                "tick the step again",
            );
        }
        let (gate, held) = self.gate;
        if all().any(|moment| moment < gate) {
            let message = format!("it was worked before the hold at step {held} was signed");
            return self.at(
                entry,
                "hold-passed",
                message,
                "have the work looked at again, and sign the hold again",
            );
        }
        let (latest, last) = self.latest;
        if let Some(signed) =
            entry.holds.iter().map(|it| it.at.as_str()).min().filter(|signed| *signed < latest)
        {
            let message = format!("it was signed at {signed}, before step {last} was done");
            self.at(entry, "hold-passed", message, "sign when all steps before the hold are done");
        }
        self.latest = self.latest.max((entry.at.as_str(), entry.step));
        let signed = entry.holds.iter().map(|it| (it.at.as_str(), entry.step)).max();
        self.gate = signed.unwrap_or(self.gate).max(self.gate);
    }

    fn done(&mut self, entry: &'a StepRecord, planned: &Planned) {
        let values = entry.values.iter().map(|it| it.attempt);
        let attempts: BTreeSet<u32> =
            values.chain(entry.outcomes.iter().map(|it| it.attempt)).chain([1]).collect();
        if !attempts.iter().zip(1..).all(|(attempt, wanted)| *attempt == wanted) {
            return self.at(
                entry,
                "attempt-missing",
                "an attempt between others is missing",
                "save the record from its own page",
            );
        }
        self.unknown(entry, planned);
        let last = attempts.len() as u32;
        for attempt in attempts {
            self.attempt(entry, planned, attempt, attempt == last);
        }
        let redone =
            planned.branches.iter().filter(|it| taken(entry, None, it.branch)).filter_map(|it| it.redo);
        if let Some(most) =
            redone.filter_map(|redo| redo.most).max().filter(|most| last > most.saturating_add(1))
        {
            let message = format!("it was done again {} times, and {most} are allowed", last - 1);
            self.at(entry, "too-often", message, "stop and ask");
        }
        self.signed(entry, planned);
        let ends = planned.branches.iter().filter(|it| taken(entry, Some(last), it.branch));
        for branch in ends {
            if branch.stop {
                self.stopped = Some(entry.step);
            }
            self.skipping = branch.skip.filter(|to| *to > entry.step).or(self.skipping);
        }
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

    fn attempt(&mut self, entry: &StepRecord, planned: &Planned, attempt: u32, last: bool) {
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
        let redo = branches().any(|it| it.redo.is_some());
        let ended = branches().any(|it| it.stop);
        if last && redo && !ended {
            self.at(
                entry,
                "not-done-again",
                "its outcome says to do it again, and that is not recorded",
                "do it again, and fill in the new values",
            );
        }
        if !last && !redo {
            self.at(entry, "attempt-missing", "it was done again, and no outcome says so", OWN_PAGE);
        }
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

    /// One message for all steps that are not done.
    fn not_done(&mut self) {
        let missing = std::mem::take(&mut self.missing);
        let Some(first) = missing.first() else { return };
        let mut ranges: Vec<(u32, u32, &str)> = Vec::new();
        for turn in &missing {
            match ranges.last_mut() {
                Some((_, to, round)) if *to + 1 == turn.step && *round == turn.round => *to = turn.step,
                _ => ranges.push((turn.step, turn.step, &turn.round)),
            }
        }
        let shown = ranges.iter().map(|(from, to, round)| {
            let steps = if from == to { format!("step {from}") } else { format!("steps {from} to {to}") };
            if round.is_empty() { steps } else { format!("{steps} for {round}") }
        });
        let message = format!("not done: {}", shown.collect::<Vec<_>>().join(", "));
        self.problems.push(Problem {
            kind: "not-done",
            step: Some(first.step),
            round: first.round.clone(),
            message,
            help: "finish the work on the page, and save the record again".to_owned(),
        });
    }
}

const CLOCK: &str = "set the clock of the tablet right, and fill the record in again";
const OWN_PAGE: &str = "save the record from the procedure's own page";

/// Whether the branch was taken, in that attempt or in any.
fn taken(entry: &StepRecord, attempt: Option<u32>, branch: u32) -> bool {
    entry.outcomes.iter().any(|it| it.branch == branch && attempt.is_none_or(|attempt| it.attempt == attempt))
}

fn named(label: &str, piece: u32) -> String {
    let label = if label.is_empty() { "the value" } else { label };
    if piece == 0 { label.to_owned() } else { format!("{label} ({piece})") }
}
