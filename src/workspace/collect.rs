//! Finds the `.cotter` files of a folder, in a stable order.
use super::settings::FILE_NAME;
use super::trouble::Trouble;
use super::{Reach, files};
use ignore::{DirEntry, WalkBuilder};
use std::path::{Path, PathBuf};

/// The extension of a source file.
pub const EXTENSION: &str = "cotter";

/// Every `.cotter` file at or below `folder`, sorted. Hidden files, what `.gitignore` names and folders that are
/// workspaces of their own are left out. `show` names a path in a trouble.
pub fn below(folder: &Path, reach: Reach, show: impl Fn(&Path) -> String) -> (Vec<PathBuf>, Vec<Trouble>) {
    let mut found = Vec::new();
    let mut troubles = Vec::new();
    let depth = (reach == Reach::Folder).then_some(1);
    let walk = WalkBuilder::new(folder).require_git(false).max_depth(depth).filter_entry(belongs).build();
    for entry in walk {
        match entry {
            Ok(entry) if is_source(entry.path()) && entry.path().is_file() => found.push(entry.into_path()),
            Ok(_) => {}
            Err(error) => troubles.push(unwalkable(folder, error, &show)),
        }
    }
    found.sort();
    (found, troubles)
}

/// Whether a path is named as source files are.
pub fn is_source(path: &Path) -> bool {
    path.extension().is_some_and(|extension| extension == EXTENSION)
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
