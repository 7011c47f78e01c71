//! What is wrong with the order of the work, as plain data.
use crate::model::{Name, Procedure};
use crate::source::Span;

/// One obligation settled in the wrong order, or never.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Breach {
    pub kind: Kind,
    /// What it is about.
    pub what: Name,
    /// Where it shows: the words that are wrong, or those that opened what nothing settles.
    pub at: Span,
    /// The other thing that plays a part: what holds it, what it is taken for.
    pub other: Option<Name>,
    /// The other place: where it came off, where it was opened.
    pub since: Option<Span>,
    pub models: Models,
    /// Only where earlier findings came out so.
    pub only_if: Vec<Way>,
}

/// How an earlier finding came out: `bearing-check failed`.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Way {
    /// The step that found it out.
    pub step: u32,
    pub label: String,
    pub state: String,
}

impl Way {
    /// In words: `bearing-check failed and seat ok`; none where there are no ways.
    pub fn told(ways: &[Way]) -> Option<String> {
        let told: Vec<String> = ways.iter().map(|way| format!("{} {}", way.label, way.state)).collect();
        (!told.is_empty()).then(|| told.join(" and "))
    }
}

/// The models that a breach holds for.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Models {
    All,
    /// Indexes the header's models.
    Some(Vec<u32>),
}

/// What kind of obligation; each has a rule of its own.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Kind {
    LeftOff,
    LeftDisconnected,
    LeftLoose,
    NeverTightened,
    /// Only snugged.
    NeverTightenedFully,
    LeftIn,
    LeftDrained,
    LeftIsolated,
    LeftRaised,
    LeftOpen,
    RemovedTwice,
    FittedWhileFitted,
    WorkedOnWhileOff,
    /// `other` still holds it.
    StillHeld,
    /// `other` is on already and covers it.
    FittedOver,
    /// `other`, a temporary tool, would be shut in.
    InTheWay,
    /// `other` still rests on it.
    UnderLoad,
    NotDiscarded,
    DiscardedGoesBack,
    UnmarkedRemoval,
    UnalignedFit,
    MarkNeverUsed,
    Unidentified,
    WrongModel,
    NotClean,
    NotDry,
    CureNotWaited,
    RenewedAlone,
    Substitute,
    ReusedUnchecked,
    LockBeforeTorque,
    UnverifiedBeforeCommit,
    BranchEndsOpen,
    EnergyNotIsolated,
    LockoutOutOfOrder,
    /// Unlocked, and never locked out.
    NeverLockedOut,
    /// Energy comes back while the lock is on.
    OnWhileLocked,
    /// Locked out and opened again, and nobody made sure that it was dead.
    NeverProvedDead,
    NotTested,
    /// For wear; `other` still covers it.
    MeasuredWhileFitted,
}

impl Kind {
    /// Whether it says that something was not done, which a step that could not be made sense of may have done.
    pub(super) fn is_of_what_is_missing(self) -> bool {
        use Kind::*;
        !matches!(
            self,
            RemovedTwice
                | FittedWhileFitted
                | StillHeld
                | FittedOver
                | InTheWay
                | UnderLoad
                | MeasuredWhileFitted
                | DiscardedGoesBack
                | WrongModel
                | Substitute
                | LockBeforeTorque
        )
    }
}

/// The same breach of several groups of models becomes one, by place.
pub(super) fn merged(mut breaches: Vec<Breach>, procedure: &Procedure) -> Vec<Breach> {
    if breaches.len() < 2 {
        return breaches;
    }
    let all = procedure.header.models.as_ref().map_or(0, Vec::len);
    breaches
        .sort_by_key(|it| (it.at.start, it.at.end, it.kind, it.what, it.other, it.since.map(|s| s.start)));
    let mut merged: Vec<Breach> = Vec::with_capacity(breaches.len());
    for breach in breaches {
        match merged.last_mut().filter(|last| last.is_same(&breach)) {
            Some(last) => last.join(breach, all),
            None => merged.push(breach),
        }
    }
    merged
}

impl Breach {
    fn is_same(&self, other: &Breach) -> bool {
        (self.kind, self.what, self.at, self.other) == (other.kind, other.what, other.at, other.other)
    }

    fn join(&mut self, more: Breach, all: usize) {
        self.only_if.retain(|way| more.only_if.contains(way));
        if let (Models::Some(mine), Models::Some(more)) = (&mut self.models, more.models) {
            mine.extend(more);
            mine.sort_unstable();
            mine.dedup();
            if mine.len() >= all {
                self.models = Models::All;
            }
        } else {
            self.models = Models::All;
        }
    }
}
