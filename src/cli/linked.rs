//! Which called procedures have a bench sheet, or get one in this build: a link must lead somewhere.
use super::publish::{Output, folder_name};
use super::turns::Turns;
use super::workspace::{Selection, Workspace};
use crate::report::Severity;
use crate::sheets::Linked;
use std::collections::{BTreeMap, BTreeSet, HashMap};
use std::sync::{Mutex, MutexGuard, PoisonError};

/// What this build knows of the sheets of other procedures. What is asked twice is looked up once.
pub struct Pages<'a> {
    selection: &'a Selection,
    output: &'a Output,
    turns: &'a Turns<'a>,
    threshold: Severity,
    /// For each number, in small letters, the file that may write its sheets.
    owners: HashMap<String, String>,
    /// Whether the procedure of a number has a bench sheet once the build is done.
    known: Mutex<BTreeMap<String, bool>>,
}

impl<'a> Pages<'a> {
    /// Before anything of the build is made; from `threshold` on a finding keeps its procedure without sheets.
    pub fn new(
        selection: &'a Selection,
        output: &'a Output,
        turns: &'a Turns<'a>,
        threshold: Severity,
    ) -> Pages<'a> {
        let owners = owners(&selection.workspace);
        Pages { selection, output, turns, threshold, owners, known: Mutex::default() }
    }

    /// The file that may write the sheets of this number.
    pub fn owner(&self, number: &str) -> Option<&str> {
        self.owners.get(number.to_ascii_lowercase().as_str()).map(String::as_str)
    }

    /// Notes that the procedure of this number gets its sheets.
    pub fn note_made(&self, number: &str) {
        self.known().insert(number.to_owned(), true);
    }

    /// Numbers that sheets of this build name without a link.
    pub fn without(&self) -> BTreeSet<String> {
        self.known().iter().filter(|(_, has)| !**has).map(|(number, _)| number.clone()).collect()
    }

    fn known(&self) -> MutexGuard<'_, BTreeMap<String, bool>> {
        self.known.lock().unwrap_or_else(PoisonError::into_inner)
    }

    /// A procedure of this build whose turn may not have come yet: looked at now, to know how it will end.
    fn will_be_made(&self, number: &str) -> bool {
        let workspace = &self.selection.workspace;
        let file = self
            .owner(number)
            .filter(|owner| workspace.register.find(number).iter().any(|entry| entry.file == **owner));
        let id = file.and_then(|file| workspace.id(file)).filter(|id| self.selection.holds(*id));
        id.and_then(|id| self.turns.tally(id)).is_some_and(|tally| !tally.reaches(self.threshold))
    }
}

impl Linked for Pages<'_> {
    fn has_page(&self, number: &str) -> bool {
        if !self.selection.workspace.register.has_page(number) {
            return false;
        }
        if let Some(&has) = self.known().get(number) {
            return has;
        }
        let has = folder_name(number).is_ok() && (self.output.has(number) || self.will_be_made(number));
        self.known().insert(number.to_owned(), has);
        has
    }
}

/// For each number, whatever its case, the file that may write its sheets: the first by name. Two folders that
/// differ in case alone are one folder on some computers.
pub fn owners(workspace: &Workspace) -> HashMap<String, String> {
    let mut owners: HashMap<String, String> = HashMap::new();
    for number in workspace.register.numbers() {
        for entry in workspace.register.find(number) {
            let owner = owners.entry(number.to_ascii_lowercase()).or_insert_with(|| entry.file.clone());
            if entry.file < *owner {
                owner.clone_from(&entry.file);
            }
        }
    }
    owners
}
