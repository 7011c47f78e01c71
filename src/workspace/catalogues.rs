//! Reads the catalogues that files name with `use`, each once, before any procedure is checked.
use super::outline::{self, Outline};
use super::{Workspace, pictures};
use crate::model::Surroundings;
use crate::model::catalogues::{Catalogues, Fault, join};
use crate::model::document::Body;
use crate::report::Severity;
use crate::source::{FileId, SourceFile};
use crate::{Compiled, compile};
use std::collections::HashMap;
use std::sync::Arc;

/// The catalogues of a run, and their texts for findings that point into them.
#[derive(Debug, Default)]
pub struct Shelf {
    pub catalogues: Catalogues,
    sources: HashMap<FileId, SourceFile>,
}

impl Shelf {
    /// The text of the catalogue with this id.
    pub fn source(&self, id: FileId) -> Option<&SourceFile> {
        self.sources.get(&id)
    }
}

/// Loads what the outlines and the settings name, and what those catalogues name in turn.
pub fn load(workspace: &Workspace, outlines: &[(FileId, &Outline)]) -> Shelf {
    let mut loader = Loader { workspace, shelf: Shelf::default(), open: Vec::new() };
    for (id, outline) in outlines {
        for written in &outline.pictures {
            pictures::want(&mut loader.shelf.catalogues.pictures, workspace, workspace.name(*id), written);
        }
    }
    // A catalogue is read with its pictures at hand.
    if let Some(written) = &workspace.settings.cautions {
        loader.want("", written);
    }
    for (id, outline) in outlines {
        for written in &outline.uses {
            loader.want(workspace.name(*id), written);
        }
    }
    loader.shelf
}

struct Loader<'a> {
    workspace: &'a Workspace,
    shelf: Shelf,
    /// Catalogues whose own catalogues are being read, outermost first.
    open: Vec<String>,
}

impl Loader<'_> {
    /// Sees to it that what `from` names is on the shelf. A path that cannot be joined is told of where it is written.
    fn want(&mut self, from: &str, written: &str) {
        let Ok(path) = join(from, written) else { return };
        if self.shelf.catalogues.contains(&path) {
            return;
        }
        if self.open.contains(&path) {
            let round = format!("it leads back to itself: {} → {path}", self.open.join(" → "));
            self.shelf.catalogues.add(path, Err(round));
            return;
        }
        if self.open.len() >= DEEPEST {
            self.shelf.catalogues.add(path, Err(format!("catalogues are nested more than {DEEPEST} deep")));
            return;
        }
        self.read(path);
    }

    fn read(&mut self, path: String) {
        let id = self.id(&path);
        let text = match self.workspace.read(&path, &path) {
            Ok(text) => text,
            Err(trouble) => return self.shelf.catalogues.add(path, Err(trouble.message)),
        };
        self.open.push(path.clone());
        let outline = outline::of(&text);
        for written in &outline.pictures {
            pictures::want(&mut self.shelf.catalogues.pictures, self.workspace, &path, written);
        }
        for written in &outline.uses {
            self.want(&path, written);
        }
        self.open.pop();
        if self.shelf.catalogues.contains(&path) {
            return;
        }
        let source = SourceFile::new(id, path.as_str(), text);
        let surroundings = Surroundings {
            settings: &self.workspace.settings,
            register: &self.workspace.register,
            catalogues: &self.shelf.catalogues,
        };
        let Compiled { document, findings } = compile(&source, &surroundings);
        if let Some(error) = findings.iter().find(|finding| finding.severity == Severity::Error) {
            let fault = Fault { span: error.span, message: error.message.to_string() };
            self.shelf.catalogues.mark_faulty(document.file, fault);
        }
        let catalogue = match document.body {
            Body::Catalogue { .. } => Ok(Arc::new(document)),
            Body::Procedure(_) => Err("it is a procedure, not a catalogue".to_owned()),
            Body::Unknown => Err("it does not begin with `catalogue \"Title\"`".to_owned()),
        };
        self.shelf.catalogues.add(path, catalogue);
        self.shelf.sources.insert(id, source);
    }

    /// The id of a catalogue: its place among the files, or one behind them where it is not listed there.
    fn id(&self, path: &str) -> FileId {
        let behind = self.workspace.names().len() + self.shelf.sources.len();
        self.workspace.id(path).unwrap_or(FileId(u32::try_from(behind).unwrap_or(u32::MAX)))
    }
}

/// How deep catalogues may name others; a chain this long is a slip, and reading it must not use up the stack.
const DEEPEST: usize = 32;
