//! Finds the `.cotter` files of a folder, in a stable order.
use super::settings::FILE_NAME;
use super::trouble::Trouble;
use super::{Reach, files};
use ignore::{DirEntry, WalkBuilder};
use std::path::{Path, PathBuf};

/// The extension of a source file.
pub const EXTENSION: &str = "cotter";

/// The folder of a workspace that sheets go to unless told otherwise.
pub const SHEETS: &str = "out";
/// The list of all procedures, in the folder of the sheets.
pub const LIST: &str = "index.html";

/// Every `.cotter` file at or below `folder` of the workspace at `root`, sorted. Hidden files, what `.gitignore` names,
/// folders that are workspaces of their own, and the one that sheets were made in are left out: that may be many times
/// larger than all the rest. `show` names a path in a trouble.
pub fn below(
    root: &Path,
    folder: &Path,
    reach: Reach,
    show: impl Fn(&Path) -> String,
) -> (Vec<PathBuf>, Vec<Trouble>) {
    let mut found = Vec::new();
    let mut troubles = Vec::new();
    let depth = (reach == Reach::Folder).then_some(1);
    let mut walk = WalkBuilder::new(folder);
    let sheets = root.join(SHEETS);
    let sheets = Some(sheets).filter(|sheets| sheets.join(LIST).is_file());
    // By the last name first: to compare whole paths takes long, and there may be many.
    let is_of_sheets = move |entry: &DirEntry| {
        entry.depth() > 0 && entry.file_name() == SHEETS && sheets.as_deref() == Some(entry.path())
    };
    let belongs = move |entry: &DirEntry| belongs(entry) && !is_of_sheets(entry);
    walk.require_git(false).max_depth(depth).filter_entry(belongs).sort_by_file_name(std::ffi::OsStr::cmp);
    for entry in walk.build() {
        match entry {
            // What is no ordinary file is taken too: it is told of when it is read, and a link that leads nowhere
            // must not look like a procedure less.
            Ok(entry) if is_source(entry.path()) && !is_folder(&entry) => {
                match unnameable(entry.path(), &show) {
                    Some(trouble) => troubles.push(trouble),
                    None => found.push(entry.into_path()),
                }
            }
            Ok(_) => {}
            Err(error) => troubles.push(unwalkable(folder, error, &show)),
        }
    }
    (found, troubles)
}

/// Whether it is a folder or leads to one.
fn is_folder(entry: &DirEntry) -> bool {
    match entry.file_type() {
        Some(kind) if kind.is_symlink() => entry.path().is_dir(),
        Some(kind) => kind.is_dir(),
        None => entry.path().is_dir(),
    }
}

/// Whether a path is named as source files are.
pub fn is_source(path: &Path) -> bool {
    path.extension().is_some_and(|extension| extension == EXTENSION)
}

/// Why a source file cannot be called by its name.
pub fn unnameable(path: &Path, show: &impl Fn(&Path) -> String) -> Option<Trouble> {
    let unwritable = path.to_str().is_none();
    unwritable
        .then(|| Trouble::new(show(path), "has a name that is not UTF-8 text").help("give it another name"))
}

fn belongs(entry: &DirEntry) -> bool {
    let folder = entry.file_type().is_some_and(|kind| kind.is_dir());
    entry.depth() == 0 || !folder || !entry.path().join(FILE_NAME).is_file()
}

fn unwalkable(folder: &Path, error: ignore::Error, show: &impl Fn(&Path) -> String) -> Trouble {
    let path = match &error {
        ignore::Error::WithPath { path, .. } => path.clone(),
        ignore::Error::WithDepth { err, .. } => match err.as_ref() {
            ignore::Error::WithPath { path, .. } => path.clone(),
            _ => folder.to_path_buf(),
        },
        _ => folder.to_path_buf(),
    };
    let message = error.to_string();
    match error.into_io_error() {
        Some(io) => files::unreadable(&show(&path), &io),
        None => Trouble::new(show(&path), message),
    }
}
