//! What there is to be seen: every procedure with its findings, and its last good sheets.
use super::told::{Told, told};
use crate::model::{Body, Document};
use crate::report::{Finding, Severity};
use crate::sheets::language::Words;
use crate::sheets::{self, Context, SheetError};
use crate::source::{FileId, SourceFile};
use crate::workspace::{self, OpenTexts, Reach, Workspace};
use crate::{Compiled, compile};
use rayon::prelude::*;
use serde::Serialize;
use std::collections::HashMap;
use std::path::{Path, PathBuf};
use std::sync::{Arc, Condvar, Mutex, MutexGuard, PoisonError};
use std::time::Duration;

/// The workspace, looked at again and again.
pub struct Shop {
    root: PathBuf,
    reach: Reach,
    seen: Mutex<Seen>,
    changed: Condvar,
}

/// How it stood when it was looked at last.
#[derive(Default)]
struct Seen {
    /// Rises with each look that found something changed.
    turn: u64,
    trouble: Option<String>,
    files: Vec<Listed>,
    workspace: Option<Arc<Workspace>>,
    /// By file: what its sheets are made of. Stays while the file is faulty.
    good: HashMap<String, Good>,
}

/// A file of the list.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct Listed {
    pub file: String,
    /// Empty for a catalogue, and for a file that says neither.
    pub number: String,
    pub title: String,
    pub errors: usize,
    pub warnings: usize,
    pub advice: usize,
    /// Whether there is a sheet to show, and whether it is of an earlier state of the file.
    pub sheet: bool,
    pub old: bool,
    pub findings: Vec<Told>,
    /// Why the file could not be read.
    pub trouble: String,
}

#[derive(Clone)]
struct Good {
    workspace: Arc<Workspace>,
    document: Arc<Document>,
}

/// What the list page is told.
#[derive(Debug, Serialize)]
pub struct List {
    pub turn: u64,
    pub folder: String,
    pub trouble: Option<String>,
    pub files: Vec<Listed>,
}

impl Shop {
    pub fn new(root: PathBuf, reach: Reach) -> Shop {
        Shop { root, reach, seen: Mutex::default(), changed: Condvar::new() }
    }

    pub fn root(&self) -> &Path {
        &self.root
    }

    /// Reads and checks everything anew, and wakes who waits for a change.
    pub fn look(&self) {
        let found = match self.root.is_dir() {
            true => workspace::around(&self.root, self.reach, OpenTexts::new())
                .map_err(|trouble| with_help(&trouble)),
            false => Err("The folder is gone. What was seen last stays here.".to_owned()),
        };
        match found {
            Err(trouble) => {
                let mut seen = self.seen();
                if seen.trouble.as_ref() != Some(&trouble) {
                    seen.trouble = Some(trouble);
                    self.turn(&mut seen);
                }
            }
            Ok((workspace, _)) => self.take(Arc::new(workspace)),
        }
    }

    fn take(&self, workspace: Arc<Workspace>) {
        let ids: Vec<FileId> = workspace.ids().collect();
        let looked: Vec<(Listed, Option<Good>)> =
            ids.into_par_iter().map(|id| look_at(&workspace, id)).collect();
        let mut seen = self.seen();
        let mut files = Vec::with_capacity(looked.len());
        let mut good = HashMap::new();
        for (mut listed, fresh) in looked {
            let old = seen.good.remove(&listed.file).filter(|_| !listed.number.is_empty());
            listed.old = fresh.is_none() && old.is_some();
            if let Some(shown) = fresh.or(old) {
                listed.sheet = true;
                good.insert(listed.file.clone(), shown);
            }
            files.push(listed);
        }
        seen.trouble = None;
        seen.files = files;
        seen.good = good;
        seen.workspace = Some(workspace);
        self.turn(&mut seen);
    }

    fn turn(&self, seen: &mut Seen) {
        seen.turn += 1;
        self.changed.notify_all();
    }

    fn seen(&self) -> MutexGuard<'_, Seen> {
        self.seen.lock().unwrap_or_else(PoisonError::into_inner)
    }

    pub fn list(&self) -> List {
        let seen = self.seen();
        List {
            turn: seen.turn,
            folder: self.root.display().to_string(),
            trouble: seen.trouble.clone(),
            files: seen.files.clone(),
        }
    }

    /// The number of the latest look, as soon as it is another than `known`, or after `most`.
    pub fn wait(&self, known: u64, most: Duration) -> u64 {
        let seen = self.seen();
        let waited = self.changed.wait_timeout_while(seen, most, |seen| seen.turn == known);
        waited.unwrap_or_else(PoisonError::into_inner).0.turn
    }

    /// A sheet of the procedure of that number; `None` where there is none to show.
    pub fn sheet(&self, number: &str, kind: &str) -> Option<Result<String, SheetError>> {
        let good = {
            let seen = self.seen();
            let named = seen.files.iter().filter(|it| it.number == number);
            named.filter_map(|it| seen.good.get(&it.file)).next().cloned()?
        };
        good.sheet(kind)
    }

    /// The workspace as it was seen last, with the id of a file of that name.
    pub fn file(&self, name: &str) -> Option<(Arc<Workspace>, FileId)> {
        let workspace = self.seen().workspace.clone()?;
        let id = workspace.id(name)?;
        Some((workspace, id))
    }
}

impl Good {
    fn sheet(&self, kind: &str) -> Option<Result<String, SheetError>> {
        let settings = &self.workspace.settings;
        let words = Words::of(settings.language);
        let context = Context::new(settings, &self.workspace.register, words);
        let (document, benches) = (&*self.document, settings.benches.max(1));
        Some(match kind {
            "bench.html" => sheets::bench::render(document, &context),
            "checklist.html" => sheets::checklist::render(document, &context),
            "instructor.html" => sheets::instructor::render(document, benches, &context),
            "assessment.html" => sheets::assessment::render(document, &context),
            "kit.html" => sheets::kit::of(document, benches, &context)
                .and_then(|kit| sheets::kit::render(&kit, &context)),
            _ => return None,
        })
    }
}

fn look_at(workspace: &Arc<Workspace>, id: FileId) -> (Listed, Option<Good>) {
    let file = workspace.name(id).to_owned();
    match workspace::source(workspace, id) {
        Err(trouble) => (Listed { file, trouble: with_help(&trouble), ..Listed::empty() }, None),
        Ok(source) => {
            let compiled = compile(&source, &workspace::surroundings(workspace));
            let listed = listed(file, workspace, &source, &compiled);
            let sound = listed.errors == 0 && compiled.document.procedure().is_some();
            let good = sound
                .then(|| Good { workspace: Arc::clone(workspace), document: Arc::new(compiled.document) });
            (listed, good)
        }
    }
}

fn listed(file: String, workspace: &Workspace, source: &SourceFile, compiled: &Compiled) -> Listed {
    let procedure = compiled.document.procedure();
    let title = match &compiled.document.body {
        Body::Procedure(procedure) => Some(&procedure.title),
        Body::Catalogue { title } => Some(title),
        Body::Unknown => None,
    };
    let weighs = |severity| compiled.findings.iter().filter(|it: &&Finding| it.severity == severity).count();
    Listed {
        file,
        number: procedure.map_or_else(String::new, |it| it.number.value.to_string()),
        title: title.map_or_else(String::new, |it| it.value.to_string()),
        errors: weighs(Severity::Error),
        warnings: weighs(Severity::Warning),
        advice: weighs(Severity::Advice),
        findings: told(compiled, workspace, source),
        ..Listed::empty()
    }
}

impl Listed {
    fn empty() -> Listed {
        Listed {
            file: String::new(),
            number: String::new(),
            title: String::new(),
            errors: 0,
            warnings: 0,
            advice: 0,
            sheet: false,
            old: false,
            findings: Vec::new(),
            trouble: String::new(),
        }
    }
}

/// The trouble with its mend.
pub fn with_help(trouble: &workspace::trouble::Trouble) -> String {
    let help = trouble.help.as_ref().map_or_else(String::new, |help| format!(" ({help})"));
    format!("{trouble}{help}")
}
