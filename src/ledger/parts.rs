//! How every part stands, and while a branch is followed, how those stood that it changed: leaving the branch costs
//! what was done in it, however many parts there are.
use super::state::PartState;

/// By the number of the part.
#[derive(Debug, Clone, Default)]
pub(super) struct Parts {
    now: Vec<PartState>,
    /// In a branch: each part as it was before a change, the oldest first.
    before: Option<Vec<(u32, PartState)>>,
}

/// What a branch changed: the number of the part and how it stood before, by number.
pub(super) type Changed = Vec<(u32, PartState)>;

impl PartialEq for Parts {
    fn eq(&self, other: &Parts) -> bool {
        self.now == other.now
    }
}

impl FromIterator<PartState> for Parts {
    fn from_iter<I: IntoIterator<Item = PartState>>(parts: I) -> Parts {
        Parts { now: parts.into_iter().collect(), before: None }
    }
}

impl Parts {
    pub(super) fn get(&self, part: u32) -> Option<&PartState> {
        self.now.get(part as usize)
    }

    /// For changing it.
    pub(super) fn get_mut(&mut self, part: u32) -> Option<&mut PartState> {
        let now = self.now.get_mut(part as usize)?;
        if let Some(before) = &mut self.before {
            before.push((part, *now));
        }
        Some(now)
    }

    pub(super) fn iter(&self) -> impl Iterator<Item = &PartState> {
        self.now.iter()
    }

    /// For setting up, before any branch.
    pub(super) fn iter_mut(&mut self) -> impl Iterator<Item = &mut PartState> {
        self.now.iter_mut()
    }

    /// Changes every part that is as it is wanted.
    pub(super) fn change(&mut self, wanted: impl Fn(&PartState) -> bool, change: impl Fn(&mut PartState)) {
        for (part, now) in (0..).zip(&mut self.now).filter(|(_, now)| wanted(now)) {
            if let Some(before) = &mut self.before {
                before.push((part, *now));
            }
            change(now);
        }
    }

    /// From here on it is kept what each part was.
    pub(super) fn enter(&mut self) {
        self.before = Some(Vec::new());
    }

    /// What has changed since the branch was entered.
    pub(super) fn changed(&mut self) -> Changed {
        let mut changed = self.before.take().unwrap_or_default();
        changed.sort_by_key(|(part, _)| *part);
        changed.dedup_by_key(|(part, _)| *part);
        changed
    }

    /// As it was before the branch.
    pub(super) fn leave(&mut self, changed: Changed) {
        for (part, was) in changed {
            if let Some(now) = self.now.get_mut(part as usize) {
                *now = was;
            }
        }
    }
}
