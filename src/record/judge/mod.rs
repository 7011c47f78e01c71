//! Whether a record is what its procedure asks for: made for it, complete, within limits, signed in order.
mod back;
mod entry;
mod moments;

use super::hang::Hang;
use super::job::is_time;
use super::plan::{Plan, Turn};
use super::read::Opened;
use super::shape::{Record, State, StepRecord};
use back::Back;
use serde::Serialize;

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
        gone: Vec::new(),
        backs: back::all(&opened.record, plan),
        not_again: Vec::new(),
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
        judge.not_done_again();
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
    /// Steps whose condition did not come true, by number and round.
    gone: Vec<(u32, &'a str)>,
    /// Where an outcome sent the work back.
    backs: Vec<Back<'a>>,
    /// What was not done again after that.
    not_again: Vec<Turn>,
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
                self.at(entry, "unknown-step", "the procedure has no such step", OWN_PAGE);
            } else if place <= last {
                self.at(entry, "unknown-step", "it stands twice or out of order", OWN_PAGE);
            }
            last = place.or(last);
        }
    }

    fn turn(&mut self, turn: &'a Turn) {
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
        let hangs = planned.hangs.iter().chain(around.hangs.iter().filter(|_| turn.at != turn.step));
        let came: Vec<Option<bool>> = hangs.map(|hang| self.came_true(hang, turn)).collect();
        if came.contains(&Some(false)) {
            self.gone.push((turn.step, &turn.round));
            if let Some(entry) = entry.filter(|entry| entry.state == State::Done) {
                self.at(
                    entry,
                    "not-asked-for",
                    "the finding that it hangs on came out otherwise, and yet it is marked as done",
                    "look at that finding again: it or this step is wrong",
                );
            }
            return;
        }
        let optional = planned.optional || around.optional || came.contains(&None);
        let Some(entry) = entry.filter(|entry| entry.state != State::Open) else {
            if !skipped {
                self.missing.push(turn.clone());
            }
            return;
        };
        if entry.state == State::NotApplicable {
            self.moments(entry);
            if !skipped && !optional {
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

    /// Whether the step's condition came true; `None` where its finding was not made.
    fn came_true(&self, hang: &Hang, turn: &Turn) -> Option<bool> {
        let of_round =
            |round: &str| self.record.steps.iter().find(|it| it.step == hang.on && it.round == round);
        let nowhere =
            hang.taken && self.gone.iter().any(|(step, round)| *step == hang.on && *round == turn.round);
        if nowhere { Some(false) } else { hang.came_true(of_round(&turn.round).or_else(|| of_round(""))) }
    }

    /// One message for all steps that are not done.
    fn not_done(&mut self) {
        let missing = std::mem::take(&mut self.missing);
        let message = format!("not done: {}", named(&missing));
        self.of_all(&missing, "not-done", message, "finish the work on the page, and save the record again");
    }

    /// One message for all that an outcome sent back to and nobody did again.
    fn not_done_again(&mut self) {
        let missing = std::mem::take(&mut self.not_again);
        let message = format!("not done again, though an outcome sends the work back: {}", named(&missing));
        self.of_all(&missing, "not-done-again", message, "do it again, and fill in the new values");
    }

    fn of_all(&mut self, turns: &[Turn], kind: &'static str, message: String, help: &str) {
        let Some(first) = turns.first() else { return };
        let (step, round) = (Some(first.step), first.round.clone());
        self.problems.push(Problem { kind, step, round, message, help: help.to_owned() });
    }
}

/// "step 3, steps 12 to 14 for rear left"
fn named(turns: &[Turn]) -> String {
    let mut ranges: Vec<(u32, u32, &str)> = Vec::new();
    for turn in turns {
        match ranges.last_mut() {
            Some((_, to, round)) if *to + 1 == turn.step && *round == turn.round => *to = turn.step,
            _ => ranges.push((turn.step, turn.step, &turn.round)),
        }
    }
    let shown = ranges.iter().map(|(from, to, round)| {
        let steps = if from == to { format!("step {from}") } else { format!("steps {from} to {to}") };
        if round.is_empty() { steps } else { format!("{steps} for {round}") }
    });
    shown.collect::<Vec<_>>().join(", ")
}

const CLOCK: &str = "set the clock of the tablet right, and fill the record in again";
const OWN_PAGE: &str = "save the record from the procedure's own page";
