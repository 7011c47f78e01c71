//! Opens the one file that a command is about.
use super::run;
use super::trouble::Trouble;
use super::workspace::{self, Selection};
use crate::source::FileId;
use std::path::Path;

/// A file and the workspace around it.
pub struct One {
    pub selection: Selection,
    pub id: FileId,
}

/// The file at `path`.
pub fn open(path: &Path) -> Result<One, Trouble> {
    open_in(&run::here()?, path, &path.display().to_string())
}

/// The file at `path`, as seen from the folder `here`; `shown` names it in a trouble.
pub fn open_in(here: &Path, path: &Path, shown: &str) -> Result<One, Trouble> {
    if path.is_dir() {
        return Err(Trouble::new(shown, "name one file, not a folder"));
    }
    let groups = workspace::group(here, &[path.to_path_buf()]);
    let Some(asked) = groups.first() else { return Err(Trouble::new(shown, "there is no such file")) };
    let (selection, troubles) = Selection::open(here, asked);
    if let Some(trouble) = troubles.into_iter().next() {
        return Err(trouble);
    }
    let only = selection.and_then(|selection| match selection.files.as_slice() {
        [only] => Some(One { id: *only, selection }),
        _ => None,
    });
    only.ok_or_else(|| Trouble::new(shown, "there is no such procedure"))
}
