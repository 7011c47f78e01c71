//! When things were done: on the calendar, within the job, and on the right side of each signature.
use super::{CLOCK, Judge};
use crate::record::job::is_time;
use crate::record::shape::StepRecord;

impl<'a> Judge<'a> {
    /// Every moment of the entry is one, lies within the job, and on the right side of the signatures.
    pub(super) fn moments(&mut self, entry: &'a StepRecord) {
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
        // What was done before the work went back over that hold too was done under an earlier signature.
        let earlier_counts = held < self.earliest_back(entry);
        let counts = |attempt: u32| earlier_counts || attempt == entry.attempts;
        let values = entry.values.iter().filter(|it| counts(it.attempt)).map(|it| it.at.as_str());
        let outcomes = entry.outcomes.iter().filter(|it| counts(it.attempt)).map(|it| it.at.as_str());
        let holds = entry.holds.iter().map(|it| it.at.as_str());
        if values.chain(outcomes).chain(holds).chain([entry.at.as_str()]).any(|moment| moment < gate) {
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
}
