//! Each file of a build is compiled once, whoever needs it first: its own turn, or a sheet that may link to it.
use super::run;
use super::tally::Tally;
use super::trouble::Trouble;
use super::workspace::Workspace;
use crate::source::{FileId, SourceFile};
use crate::{Compiled, compile};
use std::collections::HashMap;
use std::sync::{Arc, Mutex, OnceLock, PoisonError};

/// A file with what came of it.
pub type Made = Result<Arc<(SourceFile, Compiled)>, Trouble>;

pub struct Turns<'a> {
    workspace: &'a Workspace,
    files: Mutex<HashMap<FileId, Turn>>,
}

/// How far a file is.
enum Turn {
    /// Compiled, or being compiled: whoever comes second waits.
    Open(Arc<OnceLock<Made>>),
    /// Its own turn is over, and only the counts are kept; none where it could not be had.
    Over(Option<Tally>),
}

impl<'a> Turns<'a> {
    /// `clean`: those that are known to be without findings, whose turn never comes.
    pub fn new(workspace: &'a Workspace, clean: impl Iterator<Item = FileId>) -> Turns<'a> {
        let files = clean.map(|id| (id, Turn::Over(Some(Tally::of(&[]))))).collect();
        Turns { workspace, files: Mutex::new(files) }
    }

    /// The file's own turn, which comes once.
    pub fn take<T>(&self, id: FileId, work: impl FnOnce(&SourceFile, &Compiled) -> T) -> Result<T, Trouble> {
        let made = self.made(id, &self.slot(id));
        let tally = made.as_ref().ok().map(|made| Tally::of(&made.1.findings));
        let result = made.map(|made| work(&made.0, &made.1));
        self.with(|files| files.insert(id, Turn::Over(tally)));
        result
    }

    /// The counts of its findings, before its turn or after; none where the file cannot be had.
    pub fn tally(&self, id: FileId) -> Option<Tally> {
        if let Some(tally) = self.with(|files| match files.get(&id) {
            Some(Turn::Over(tally)) => Some(*tally),
            _ => None,
        }) {
            return tally;
        }
        self.made(id, &self.slot(id)).ok().map(|made| Tally::of(&made.1.findings))
    }

    fn made(&self, id: FileId, slot: &OnceLock<Made>) -> Made {
        let make = || {
            let source = run::source(self.workspace, id)?;
            let compiled = compile(&source, &run::surroundings(self.workspace));
            Ok(Arc::new((source, compiled)))
        };
        slot.get_or_init(make).clone()
    }

    fn slot(&self, id: FileId) -> Arc<OnceLock<Made>> {
        self.with(|files| match files.entry(id).or_insert_with(|| Turn::Open(Arc::default())) {
            Turn::Open(slot) => Arc::clone(slot),
            Turn::Over(_) => Arc::default(),
        })
    }

    fn with<T>(&self, look: impl FnOnce(&mut HashMap<FileId, Turn>) -> T) -> T {
        look(&mut self.files.lock().unwrap_or_else(PoisonError::into_inner))
    }
}
