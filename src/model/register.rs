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
    /// Numbers of procedures that follow each other round, each the one before it.
    circles: Vec<Vec<String>>,
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
    /// Notes procedures each of which follows the next, and the last the first.
    pub fn go_round(&mut self, circle: &[String]) {
        self.circles.push(circle.to_vec());
    }
    /// Where following `called` comes back to `own`: over which others.
    pub fn leads_back(&self, own: &str, called: &str) -> Option<Vec<&str>> {
        self.circles.iter().find_map(|circle| {
            let place = |number: &str| circle.iter().position(|it| it == number);
            let (from, _) = (place(called)?, place(own)?);
            let onwards = circle.iter().cycle().skip(from + 1).take(circle.len());
            Some(onwards.map(String::as_str).take_while(|number| *number != own).collect())
        })
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
