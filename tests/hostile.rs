//! Folders that nobody makes on purpose, or somebody does: whatever lies in them, each sheet is whole, nothing is written
//! outside the output folder, and what went wrong is said in words.
#[cfg(unix)]
mod killed;
#[cfg(unix)]
mod links;
mod many;
mod names;
#[cfg(unix)]
mod output;
#[cfg(unix)]
mod racing;
#[cfg(unix)]
mod rights;
#[cfg(unix)]
mod room;

use crate::support::workspace::{Run, Workspace};
use cotter::checks;
use std::collections::BTreeMap;

/// A procedure without findings, with this number.
fn clean(number: &str) -> String {
    let rule = checks::find("undeclared-name").unwrap();
    checks::example(rule.good).replace("EX-001", number)
}

/// It ended by itself and with words of its own.
#[track_caller]
fn calm(run: &Run) {
    assert!((0..=2).contains(&run.code), "{}\n{}", run.code, run.stderr);
    assert!(!run.stderr.contains("panicked"), "{}", run.stderr);
    assert_eq!(run.code == 2, !run.stderr.is_empty(), "{}\n{}", run.code, run.stderr);
}

/// Files below a folder by name.
fn files(workspace: &Workspace, folder: &str) -> BTreeMap<String, Vec<u8>> {
    workspace.files(folder).into_iter().collect()
}

/// What is still written, or was when a run was stopped.
fn is_unfinished(name: &str) -> bool {
    name.rsplit('/').next().is_some_and(|name| name.starts_with(".cotter-"))
}
