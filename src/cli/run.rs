//! Puts the stages together for each file, side by side, and hands the results on in order.
use super::trouble::Trouble;
use super::workspace::{Asked, Selection};
use super::{paths, progress, workspace};
use crate::source::{FileId, SourceFile};
use crate::{Compiled, compile};
use rayon::prelude::*;
use std::path::PathBuf;

pub use crate::workspace::{source, surroundings};

/// The current folder, and what was asked for sorted by workspace.
pub fn asked(paths: &[PathBuf]) -> Result<(PathBuf, Vec<Asked>), Trouble> {
    let here = here()?;
    let groups = workspace::group(&here, paths);
    Ok((here, groups))
}

/// The current folder.
pub fn here() -> Result<PathBuf, Trouble> {
    let here = std::env::current_dir().map_err(|error| Trouble::new(".", error.to_string()))?;
    Ok(paths::tidy(&here, &here))
}

/// Runs `work` on threads of its own, `jobs` of them (0: one a processor).
pub fn with_jobs<T: Send>(jobs: usize, work: impl FnOnce() -> T + Send) -> T {
    match rayon::ThreadPoolBuilder::new().num_threads(jobs).build() {
        Ok(pool) => pool.install(work),
        Err(_) => work(),
    }
}

/// Compiles every selected file and gives what `each` makes of it, in the order of the selection.
pub fn each<T: Send>(
    selection: &Selection,
    watched: bool,
    each: impl Fn(&SourceFile, Compiled) -> T + Sync,
) -> Vec<Result<T, Trouble>> {
    each_file(selection, watched, |id| {
        let source = source(&selection.workspace, id)?;
        let compiled = compile(&source, &surroundings(&selection.workspace));
        Ok(each(&source, compiled))
    })
}

/// What `each` makes of every selected file, side by side, in the order of the selection.
pub fn each_file<T: Send>(selection: &Selection, watched: bool, each: impl Fn(FileId) -> T + Sync) -> Vec<T> {
    let bar = progress::bar(selection.files.len(), watched);
    let results = selection
        .files
        .par_iter()
        .map(|&id| {
            let result = each(id);
            bar.inc(1);
            result
        })
        .collect();
    bar.finish_and_clear();
    results
}
