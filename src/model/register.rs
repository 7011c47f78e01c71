//! What the workspace knows of its other files: procedure numbers and titles.
use std::collections::HashMap;

/// Numbers of every procedure in the workspace.
#[derive(Debug, Clone, Default)]
pub struct Register {
    entries: HashMap<String, Vec<Entry>>,
}

/// One file that claims a number.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Entry {
    pub title: String,
    /// The file, relative to the workspace.
    pub file: String,
}

impl Register {
    pub fn add(&mut self, number: &str, entry: Entry) {
        let entries = self.entries.entry(number.to_owned()).or_default();
        entries.push(entry);
        entries.sort_by(|a, b| a.file.cmp(&b.file));
    }
    /// Every file that claims `number`, by file name.
    pub fn find(&self, number: &str) -> &[Entry] {
        self.entries.get(number).map_or(&[], Vec::as_slice)
    }
    pub fn numbers(&self) -> impl Iterator<Item = &str> {
        self.entries.keys().map(String::as_str)
    }
}
