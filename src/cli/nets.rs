//! What procedures leave behind that others of the workspace follow, require or go on with: worked out before any
//! procedure is checked.
use super::outline::Outline;
use super::workspace::Workspace;
use super::{files, run};
use crate::ledger;
use crate::model::resolve::{self, Resolved};
use crate::source::SourceFile;
use std::collections::HashMap;

/// Enters it in the register for each number that is called.
pub fn take_in(workspace: &mut Workspace, outlines: &[Outline]) {
    let follows: HashMap<String, Vec<String>> = workspace
        .names()
        .iter()
        .zip(outlines)
        .filter(|(_, outline)| outline.procedure.is_some())
        .map(|(name, outline)| (name.clone(), outline.follows.clone()))
        .collect();
    let around = outlines.iter().flat_map(|outline| &outline.around);
    let mut wanted: Vec<&String> = follows.values().flatten().chain(around).collect();
    wanted.sort_unstable();
    wanted.dedup();
    let mut open = Vec::new();
    for number in wanted {
        bring(workspace, &follows, number, &mut open);
    }
}

/// What it follows itself comes first. Procedures that follow each other in a circle bring nothing.
fn bring(
    workspace: &mut Workspace,
    follows: &HashMap<String, Vec<String>>,
    number: &str,
    open: &mut Vec<String>,
) {
    if workspace.register.net(number).is_some() || open.iter().any(|it| it == number) || open.len() >= DEEPEST
    {
        return;
    }
    let [entry] = workspace.register.find(number) else { return };
    let file = entry.file.clone();
    open.push(number.to_owned());
    for deeper in follows.get(&file).into_iter().flatten() {
        bring(workspace, follows, deeper, open);
    }
    open.pop();
    let Some(id) = workspace.id(&file) else { return };
    let Ok(text) = files::read(&workspace.path(&file), &file) else { return };
    let source = SourceFile::new(id, file, text);
    let Resolved { document, unread } = resolve::resolve(&source, &run::surroundings(workspace));
    // A line that could not be made sense of may open or close anything.
    if !unread.is_empty() || !document.slips.is_empty() {
        return;
    }
    if let Some(net) = ledger::net(&document, &workspace.register) {
        workspace.register.bring(number, net);
    }
}

/// How deep procedures may follow others; a chain this long is a slip, and walking it must not use up the stack.
const DEEPEST: usize = 32;
