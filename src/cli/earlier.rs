//! An earlier revision of a workspace, for marks of what changed since.
use super::git::{Git, Unpacked};
use super::trouble::Trouble;
use super::workspace::{self, Selection};
use super::{paths, run};
use crate::compare;
use crate::model::Document;
use crate::model::resolve;
use crate::sheets::Since;
use rayon::prelude::*;
use std::collections::HashMap;
use std::path::Path;

/// Every procedure of it, by number.
pub struct Earlier {
    procedures: HashMap<String, Document>,
    /// As the user wrote it.
    asked: String,
}

impl Earlier {
    /// A folder of old sources, or a git revision of the workspace at `root`.
    pub fn open(asked: &Path, here: &Path, root: &Path) -> Result<Earlier, Trouble> {
        let name = asked.to_string_lossy().into_owned();
        let folder = paths::tidy(here, asked);
        if folder.is_dir() {
            return Earlier::of(here, &folder, name);
        }
        let git = Git::around(root)?;
        let unpacked: Unpacked = git.unpack(&git.commit(&name)?)?;
        let root = root.canonicalize().unwrap_or_else(|_| root.to_path_buf());
        let inside = root.strip_prefix(&git.top).unwrap_or(Path::new(""));
        Earlier::of(unpacked.top(), &unpacked.top().join(inside), name)
    }

    fn of(here: &Path, folder: &Path, asked: String) -> Result<Earlier, Trouble> {
        let groups = workspace::group(here, &[folder.to_path_buf()]);
        let none = || Trouble::new(&asked, "holds no procedures to look for changes in");
        let (selection, troubles) = Selection::open(here, groups.first().ok_or_else(none)?);
        // Where nothing could be looked at, what kept it is said, and of which revision.
        let kept = |trouble: Trouble| {
            let message = format!("as of {asked}: {}", trouble.message);
            Trouble { message, ..trouble }
        };
        let why = || troubles.into_iter().next().map_or_else(none, kept);
        let selection = selection.filter(|it| !it.files.is_empty()).ok_or_else(why)?;
        let document = |id| {
            let source = run::source(&selection.workspace, id).ok()?;
            let document = resolve::resolve(&source, &run::surroundings(&selection.workspace)).document;
            Some((document.procedure()?.number.value.to_string(), document))
        };
        let procedures = selection.files.par_iter().filter_map(|id| document(*id)).collect();
        Ok(Earlier { procedures, asked })
    }

    /// What changed; none where the procedure was not there yet.
    pub fn since(&self, number: &str, document: &Document) -> Option<Since> {
        let old = self.procedures.get(number)?;
        Some(Since::of(&compare::compare(old, document), document, &self.asked))
    }
}
