//! Which step of the new revision is which of the old: by what it does, by its label, by verb and objects.
//!
//! A plain difference of two lists shows a moved step as one gone and one added. Here each step is looked for
//! wherever it stands; then as few steps as can be are called moved.
use super::actions::Key;
use std::collections::{HashMap, HashSet, VecDeque};
use std::hash::Hash;

/// What a step is recognised by.
#[derive(Debug, Clone)]
pub struct Marks {
    /// All of its meaning in one text.
    pub print: String,
    pub labels: Vec<String>,
    /// Of its actions, in order.
    pub keys: Vec<Key>,
}

/// Who belongs to whom; indexes of the two lists.
#[derive(Debug, Clone, Default)]
pub struct Pairs {
    pub of_old: Vec<Option<usize>>,
    pub of_new: Vec<Option<usize>>,
}

/// How far from its own place a changed step is looked for, in steps.
const NEAR: usize = 40;

/// What two steps must share of verbs and objects, in hundredths, to be one step that changed.
const ALIKE: usize = 30;

/// Pairs the steps of two revisions. The work grows with their number, whatever stands in them.
pub fn pair(old: &[Marks], new: &[Marks]) -> Pairs {
    let mut pairs = Pairs { of_old: vec![None; old.len()], of_new: vec![None; new.len()] };
    let print = |all: &'_ [Marks], at: usize| all.get(at).map(|it| it.print.clone());
    let before = |all: &[Marks], at: usize| at.checked_sub(1).and_then(|at| print(all, at));
    // With both neighbours, then with one, then alone: so that of two like steps the right one is found.
    pairs.by(old, new, |all, at| Some((before(all, at), print(all, at), print(all, at + 1))));
    pairs.by(old, new, |all, at| Some((before(all, at), print(all, at))));
    pairs.by(old, new, |all, at| Some((print(all, at), print(all, at + 1))));
    pairs.by(old, new, |all, at| all.get(at)?.labels.first().cloned());
    pairs.by(old, new, print);
    let gap = |pairs: &Pairs, side: Side, at: usize| pairs.before(side, at);
    pairs.in_gaps(old, new, gap, |one, other| one.keys == other.keys);
    pairs.by(old, new, |all, at| all.get(at).map(|it| it.keys.clone()));
    pairs.in_gaps(old, new, gap, alike);
    let gap = |pairs: &Pairs, side: Side, at: usize| pairs.after(side, at);
    pairs.in_gaps(old, new, gap, alike);
    pairs
}

#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Side {
    Old,
    New,
}

impl Pairs {
    fn set(&mut self, old: usize, new: usize) {
        if let (Some(one), Some(other)) = (self.of_old.get_mut(old), self.of_new.get_mut(new)) {
            (*one, *other) = (Some(new), Some(old));
        }
    }

    fn free(side: &[Option<usize>]) -> Vec<usize> {
        side.iter().enumerate().filter(|(_, pair)| pair.is_none()).map(|(at, _)| at).collect()
    }

    /// Pairs what is left and equal under `key`, in order.
    fn by<K: Hash + Eq>(&mut self, old: &[Marks], new: &[Marks], key: impl Fn(&[Marks], usize) -> Option<K>) {
        let mut waiting: HashMap<K, VecDeque<usize>> = HashMap::new();
        for at in Pairs::free(&self.of_new) {
            if let Some(key) = key(new, at) {
                waiting.entry(key).or_default().push_back(at);
            }
        }
        for at in Pairs::free(&self.of_old) {
            let found = key(old, at).and_then(|key| waiting.get_mut(&key)?.pop_front());
            if let Some(found) = found {
                self.set(at, found);
            }
        }
    }

    /// Pairs what is left between the same neighbours and fits, in order.
    fn in_gaps(
        &mut self,
        old: &[Marks],
        new: &[Marks],
        gap: impl Fn(&Pairs, Side, usize) -> Option<usize>,
        fits: impl Fn(&Marks, &Marks) -> bool,
    ) {
        let mut waiting: HashMap<Option<usize>, VecDeque<usize>> = HashMap::new();
        for at in Pairs::free(&self.of_new) {
            waiting.entry(gap(self, Side::New, at)).or_default().push_back(at);
        }
        let wanted: Vec<_> =
            Pairs::free(&self.of_old).into_iter().map(|at| (at, gap(self, Side::Old, at))).collect();
        for (at, gap) in wanted {
            let Some(candidates) = waiting.get_mut(&gap) else { continue };
            let fitting = candidates.iter().take(NEAR).position(|&other| {
                old.get(at).zip(new.get(other)).is_some_and(|(one, other)| fits(one, other))
            });
            if let Some(found) = fitting.and_then(|place| candidates.remove(place)) {
                self.set(at, found);
            }
        }
    }

    /// The new place of the nearest paired step before this one, within reach.
    fn before(&self, side: Side, at: usize) -> Option<usize> {
        (at.saturating_sub(NEAR)..at).rev().find_map(|at| self.anchor(side, at))
    }

    fn after(&self, side: Side, at: usize) -> Option<usize> {
        (at + 1..at + NEAR).find_map(|at| self.anchor(side, at))
    }

    fn anchor(&self, side: Side, at: usize) -> Option<usize> {
        match side {
            Side::Old => *self.of_old.get(at)?,
            Side::New => self.of_new.get(at)?.map(|_| at),
        }
    }

    /// The old places of the steps that moved: as few as can be, so that all others keep their order.
    pub fn moved(&self) -> HashSet<usize> {
        let placed: Vec<(usize, usize)> =
            self.of_old.iter().enumerate().filter_map(|(old, new)| Some((old, (*new)?))).collect();
        // The longest run of rising places stays: `ends` holds for each length the run with the lowest end.
        let mut ends: Vec<usize> = Vec::new();
        let mut led_from: Vec<Option<usize>> = Vec::with_capacity(placed.len());
        let new_of = |at: usize| placed.get(at).map_or(0, |it| it.1);
        for (at, (_, new)) in placed.iter().enumerate() {
            let length = ends.partition_point(|&end| new_of(end) < *new);
            led_from.push(length.checked_sub(1).and_then(|it| ends.get(it)).copied());
            match ends.get_mut(length) {
                Some(end) => *end = at,
                None => ends.push(at),
            }
        }
        let mut moved: HashSet<usize> = placed.iter().map(|it| it.0).collect();
        let mut next = ends.last().copied();
        while let Some(at) = next {
            if let Some((old, _)) = placed.get(at) {
                moved.remove(old);
            }
            next = led_from.get(at).copied().flatten();
        }
        moved
    }
}

/// Enough of verbs and objects in common.
fn alike(one: &Marks, other: &Marks) -> bool {
    let words = |marks: &Marks| -> HashSet<String> {
        let each = |key: &Key| {
            std::iter::once(format!("!{}", key.verb)).chain(key.objects.clone()).collect::<Vec<_>>()
        };
        marks.keys.iter().flat_map(each).collect()
    };
    let (one, other) = (words(one), words(other));
    let shared = one.intersection(&other).count();
    shared * 100 >= ALIKE * one.union(&other).count().max(1)
}
