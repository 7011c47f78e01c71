//! What a procedure may draw on besides its own text, read before it is: catalogues and pictures.
use super::document::Document;
use super::picture::Pictures;
use crate::source::{FileId, Span};
use std::collections::HashMap;
use std::sync::Arc;

/// Catalogues by their path in the workspace. What a path that could not be had gives instead is why not.
#[derive(Debug, Clone, Default)]
pub struct Catalogues {
    by_path: HashMap<String, Result<Arc<Document>, String>>,
    faults: HashMap<FileId, Fault>,
    /// What figures show.
    pub pictures: Pictures,
}

/// The first error of a catalogue: what it lends cannot be relied on.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Fault {
    /// In the catalogue.
    pub span: Span,
    /// The finding's sentence.
    pub message: String,
}

impl Catalogues {
    /// `path` is relative to the workspace, with forward slashes and no `.` or `..`, as [`join`] gives it.
    pub fn add(&mut self, path: impl Into<String>, catalogue: Result<Arc<Document>, String>) {
        self.by_path.insert(path.into(), catalogue);
    }

    /// Notes that the catalogue of this file has an error.
    pub fn mark_faulty(&mut self, file: FileId, fault: Fault) {
        self.faults.insert(file, fault);
    }

    /// What is wrong with a catalogue, where anything is.
    pub fn fault(&self, document: &Document) -> Option<&Fault> {
        self.faults.get(&document.file)
    }

    /// The catalogue at `path`.
    ///
    /// # Errors
    /// Why it cannot be used, as the tail of a sentence.
    pub fn find(&self, path: &str) -> Result<&Arc<Document>, String> {
        match self.by_path.get(path) {
            Some(Ok(document)) => Ok(document),
            Some(Err(why)) => Err(why.clone()),
            None => Err("there is no such file in the workspace".to_owned()),
        }
    }

    /// The house's own catalogue, whose path the settings give from the workspace's folder.
    ///
    /// # Errors
    /// As [`Catalogues::find`], and where the path cannot be joined.
    pub fn of_house(&self, written: &str) -> Result<&Arc<Document>, String> {
        match self.by_path.get(written) {
            Some(Ok(document)) => Ok(document),
            _ => self.find(&join("", written)?),
        }
    }

    pub fn contains(&self, path: &str) -> bool {
        self.by_path.contains_key(path)
    }
}

/// The path in the workspace that `written` means in the file `from_file` (itself relative to the workspace).
///
/// # Errors
/// Where the path is empty, absolute, or leads out of the workspace.
pub fn join(from_file: &str, written: &str) -> Result<String, String> {
    if written.is_empty() {
        return Err("the path is empty".to_owned());
    }
    if written.contains('\\') {
        return Err("a path is written with forward slashes".to_owned());
    }
    if written.starts_with('/') || written.contains(':') {
        return Err("a path must be relative to this file".to_owned());
    }
    let folder = from_file.rsplit_once('/').map_or("", |(folder, _)| folder);
    let mut parts: Vec<&str> = Vec::new();
    for part in folder.split('/').chain(written.split('/')) {
        match part {
            "" | "." => {}
            ".." if parts.pop().is_none() => return Err("the path leads out of the workspace".to_owned()),
            ".." => {}
            name => parts.push(name),
        }
    }
    if parts.is_empty() { Err("the path names no file".to_owned()) } else { Ok(parts.join("/")) }
}
