//! What the workspace knows of its other files: procedure numbers and titles.
use super::net::Net;
use std::collections::HashMap;
use std::sync::OnceLock;

/// Numbers of every procedure in the workspace.
#[derive(Debug, Clone, Default)]
pub struct Register {
    entries: HashMap<String, Vec<Entry>>,
    /// What procedures leave behind that others follow.
    nets: HashMap<String, Net>,
    /// Of procedures that lead back to themselves over others: which circle each is in, and which of it it follows.
    circles: HashMap<String, (usize, Vec<String>)>,
    /// Made when first asked for, which a shop without faults never does.
    sorted: OnceLock<Sorted>,
}

/// The numbers from their starts and from their ends.
#[derive(Debug, Clone, Default)]
struct Sorted {
    /// In small letters, with the number itself behind.
    forwards: Vec<(String, String)>,
    /// The same with the letters turned round.
    backwards: Vec<(String, String)>,
}

/// One file that claims a number.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Entry {
    pub title: String,
    /// The file, relative to the workspace.
    pub file: String,
    /// The states its `leaves:` names; empty where it names none.
    pub leaves: String,
    /// The procedure that its `afterwards:` names first.
    pub afterwards: Option<String>,
}

impl Register {
    pub fn add(&mut self, number: &str, entry: Entry) {
        self.sorted = OnceLock::new();
        // One file claims it, nearly always.
        let entries = self.entries.entry(number.to_owned()).or_insert_with(|| Vec::with_capacity(1));
        entries.push(entry);
        entries.sort_by(|a, b| a.file.cmp(&b.file));
    }
    /// Every file that claims `number`, by file name.
    pub fn find(&self, number: &str) -> &[Entry] {
        self.entries.get(number).map_or(&[], Vec::as_slice)
    }
    /// Notes what the procedure of this number leaves behind.
    pub fn bring(&mut self, number: &str, net: Net) {
        self.nets.insert(number.to_owned(), net);
    }
    /// What it leaves behind, where that is known; none where several files claim the number.
    pub fn net(&self, number: &str) -> Option<&Net> {
        self.nets.get(number).filter(|_| self.find(number).len() == 1)
    }
    /// Notes procedures each of which leads to all the others, with those of them that it follows itself.
    pub fn go_round(&mut self, circle: Vec<(String, Vec<String>)>) {
        let circles = self.circles.len();
        self.circles.extend(circle.into_iter().map(|(number, follows)| (number, (circles, follows))));
    }
    /// Where following `called` comes back to `own`: over which others, on the shortest way. Empty where that is long.
    pub fn leads_back(&self, own: &str, called: &str) -> Option<Vec<&str>> {
        let (circle, _) = self.circles.get(own)?;
        let (called, _) = self.circles.get_key_value(called).filter(|(_, (its, _))| its == circle)?;
        // Each with the place of what led to it.
        let mut reached: Vec<(&str, usize)> = vec![(called, 0)];
        let mut at = 0;
        while let Some((number, _)) = reached.get(at).copied().filter(|_| reached.len() < LONGEST_WAY) {
            let (_, follows) = self.circles.get(number)?;
            if follows.iter().any(|it| it == own) {
                return Some(way(&reached, at));
            }
            let new = follows.iter().filter(|it| reached.iter().all(|(known, _)| known != it));
            let new: Vec<&str> = new.map(String::as_str).collect();
            reached.extend(new.into_iter().map(|it| (it, at)));
            at += 1;
        }
        Some(Vec::new())
    }
    /// Numbers that start or end as `number` does, at most 256, some of them twice. Whoever looks for a misspelt
    /// number need not go through the whole shop: what stands before or behind the mistake leads to it.
    pub fn like(&self, number: &str) -> impl Iterator<Item = &str> {
        let sorted = self.sorted.get_or_init(|| Sorted::of(self.entries.keys()));
        let small = number.to_lowercase();
        let forwards = beside(&sorted.forwards, &small);
        let backwards = beside(&sorted.backwards, &turned(&small));
        forwards.iter().chain(backwards).map(|(_, number)| number.as_str())
    }
    pub fn numbers(&self) -> impl Iterator<Item = &str> {
        self.entries.keys().map(String::as_str)
    }
}

/// How many procedures a way back is looked for among.
const LONGEST_WAY: usize = 64;

/// From the first, which is left out, to the one at `last`.
fn way<'r>(reached: &[(&'r str, usize)], last: usize) -> Vec<&'r str> {
    let mut way = Vec::new();
    let mut at = last;
    while let Some((number, before)) = reached.get(at).filter(|_| at > 0) {
        way.push(*number);
        at = *before;
    }
    way.reverse();
    way
}

/// How many numbers are looked at on each side of where a number would stand.
const BESIDE: usize = 64;

impl Sorted {
    fn of<'n>(numbers: impl Iterator<Item = &'n String>) -> Sorted {
        let mut forwards: Vec<_> = numbers.map(|number| (number.to_lowercase(), number.clone())).collect();
        forwards.sort_unstable();
        let mut backwards: Vec<_> =
            forwards.iter().map(|(small, number)| (turned(small), number.clone())).collect();
        backwards.sort_unstable();
        Sorted { forwards, backwards }
    }
}

fn turned(number: &str) -> String {
    number.chars().rev().collect()
}

/// The entries around where `key` stands or would stand.
fn beside<'s>(sorted: &'s [(String, String)], key: &str) -> &'s [(String, String)] {
    let at = sorted.partition_point(|(known, _)| known.as_str() < key);
    sorted.get(at.saturating_sub(BESIDE)..(at + BESIDE).min(sorted.len())).unwrap_or(&[])
}
