//! Which files a change touches: those that differ from a revision, and those that depend on them.
use super::git::Git;
use super::paths;
use super::trouble::Trouble;
use super::workspace::{Selection, Workspace};
use crate::workspace::collect;
use crate::workspace::outline::{self, Outline};
use crate::workspace::settings::FILE_NAME;
use crate::workspace::store::needs;
use std::collections::{HashMap, HashSet};
use std::path::Path;

/// Leaves only those in the selection.
pub fn keep(selection: &mut Selection, root: &Path, since: &str) -> Result<(), Trouble> {
    let git = Git::around(root)?;
    let changed = git.changed(&git.commit(since)?)?;
    let root = root.canonicalize().unwrap_or_else(|_| root.to_path_buf());
    let inside = changed.iter().filter_map(|path| path.strip_prefix(&root).ok());
    let changed: HashSet<String> = inside.map(paths::slashed).collect();
    // Settings hold for every file.
    if changed.contains(FILE_NAME) {
        return Ok(());
    }
    let workspace = &selection.workspace;
    if workspace.settings.cautions.as_ref().is_some_and(|it| changed.contains(it.as_str())) {
        return Ok(());
    }
    let touched = closure(workspace, changed);
    selection.files.retain(|id| touched.contains(selection.workspace.name(*id)));
    Ok(())
}

/// What is changed, and whatever uses, follows or requires it, in turn. A procedure that is gone, or has another number
/// now, may have been followed under a number that nobody has.
fn closure(workspace: &Workspace, changed: HashSet<String>) -> HashSet<String> {
    let mut users: HashMap<String, Vec<&str>> = HashMap::new();
    let mut touched = changed;
    let any = touched.iter().any(|name| collect::is_source(Path::new(name)));
    for (id, name) in workspace.ids().zip(workspace.names()) {
        let text = workspace.read(name, name).unwrap_or_default();
        let outline = outline::of(&text);
        for needed in needs(workspace, id, &outline).names(workspace) {
            users.entry(needed.to_owned()).or_default().push(name);
        }
        let nobodys = |word: &String| is_number(word) && workspace.register.find(word).is_empty();
        if any && called(&outline).any(nobodys) {
            touched.insert(name.clone());
        }
    }
    let mut open: Vec<String> = touched.iter().cloned().collect();
    while let Some(name) = open.pop() {
        for user in users.get(&name).into_iter().flatten() {
            if touched.insert((*user).to_owned()) {
                open.push((*user).to_owned());
            }
        }
    }
    touched
}

/// Numbers of the procedures that it follows, requires, or names for afterwards.
fn called(outline: &Outline) -> impl Iterator<Item = &String> {
    outline.follows.iter().chain(&outline.around)
}

/// `none`, and words of prose that were taken along, are no numbers.
fn is_number(word: &str) -> bool {
    word.contains(|c: char| c.is_ascii_uppercase() || c.is_ascii_digit())
}
