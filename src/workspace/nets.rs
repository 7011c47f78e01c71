//! What procedures leave behind that others of the workspace follow, require or go on with: worked out before any
//! procedure is checked.
use super::outline::Outline;
use super::{Workspace, surroundings};
use crate::ledger;
use crate::model::Net;
use crate::model::resolve::{self, Resolved};
use crate::source::{FileId, SourceFile};
use rayon::prelude::*;
use std::collections::{HashMap, HashSet};

/// Enters it in the register for each number that is called.
pub fn take_in(workspace: &mut Workspace, outlines: &[(FileId, &Outline)]) {
    let is_number = |word: &&String| !workspace.register.find(word).is_empty();
    let numbers = |outline: &Outline| outline.follows.iter().filter(is_number).cloned().collect();
    let follows: HashMap<String, Vec<String>> = outlines
        .iter()
        .filter(|(_, outline)| outline.procedure.is_some())
        .map(|(id, outline)| (workspace.name(*id).to_owned(), numbers(outline)))
        .collect();
    let around = outlines.iter().flat_map(|(_, outline)| &outline.around);
    let mut wanted: Vec<&String> = follows.values().flatten().chain(around).collect();
    wanted.sort_unstable();
    wanted.dedup();
    // Most follow nothing themselves: their turn may come side by side.
    let here = &*workspace;
    let plain: Vec<(&str, Net)> =
        wanted.par_iter().filter_map(|number| plain(here, &follows, number)).collect();
    for (number, net) in plain {
        workspace.register.bring(number, net);
    }
    let mut turns = Turns::default();
    for number in wanted {
        // One that is refused is known of by nobody.
        let _ = turns.bring(workspace, &follows, number);
    }
}

/// Of a procedure that follows no other.
fn plain<'n>(
    workspace: &Workspace,
    follows: &HashMap<String, Vec<String>>,
    number: &'n str,
) -> Option<(&'n str, Net)> {
    let [entry] = workspace.register.find(number) else { return None };
    let follows_any = follows.get(&entry.file).is_some_and(|numbers| !numbers.is_empty());
    if follows_any { None } else { Some((number, net(workspace, &entry.file)?)) }
}

/// Whose turn it is, and whose it was.
#[derive(Default)]
struct Turns {
    /// Those that wait for what they follow.
    open: Vec<String>,
    had: HashSet<String>,
}

/// It follows itself over others, or the chain is too long.
struct Refused;

impl Turns {
    /// What it follows itself comes first. Procedures that follow each other in a circle bring nothing, and neither
    /// do those that follow one of them.
    fn bring(
        &mut self,
        workspace: &mut Workspace,
        follows: &HashMap<String, Vec<String>>,
        number: &str,
    ) -> Result<(), Refused> {
        if workspace.register.net(number).is_some() || self.had.contains(number) {
            return Ok(());
        }
        if self.open.iter().any(|it| it == number) || self.open.len() >= DEEPEST {
            return Err(Refused);
        }
        let [entry] = workspace.register.find(number) else { return Ok(()) };
        let file = entry.file.clone();
        self.open.push(number.to_owned());
        let mut deeper = follows.get(&file).into_iter().flatten();
        let brought = deeper.try_for_each(|deeper| self.bring(workspace, follows, deeper));
        self.open.pop();
        brought?;
        self.had.insert(number.to_owned());
        if let Some(net) = net(workspace, &file) {
            workspace.register.bring(number, net);
        }
        Ok(())
    }
}

/// Of the procedure in this file, as far as the register knows what it follows.
fn net(workspace: &Workspace, file: &str) -> Option<Net> {
    let id = workspace.id(file)?;
    let text = workspace.read(file, file).ok()?;
    let source = SourceFile::new(id, file, text);
    let Resolved { document, unread } = resolve::resolve(&source, &surroundings(workspace));
    // A line that could not be made sense of may open or close anything.
    let whole = unread.is_empty() && document.slips.is_empty();
    whole.then(|| ledger::net(&document, &workspace.register))?
}

/// How deep procedures may follow others; a chain this long is a slip, and walking it must not use up the stack.
const DEEPEST: usize = 32;
