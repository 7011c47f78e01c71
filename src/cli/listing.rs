//! The list of procedures: what was made now, and what has sheets from before.
use super::made::{self, KnownSheets};
use super::publish::{self, INDEX, Output, Written, folder_name};
use super::tally::Tally;
use super::trouble::Trouble;
use super::workspace::Workspace;
use super::workspace::store::{Digest, Seen};
use super::{plain, run};
use crate::compile;
use crate::report::Severity;
use crate::sheets::language::Words;
use crate::sheets::{Context, index};
use crate::source::FileId;
use rayon::prelude::*;
use std::collections::BTreeMap;

/// What every sheet of a workspace is made with. No date: the same sources give the same bytes.
pub fn context(workspace: &Workspace) -> Context<'_> {
    let words = Words::of(workspace.settings.language);
    Context::new(&workspace.settings, &workspace.register, words)
}

/// The list as later builds will see it: what it was made from, and what it is.
type Listed = Option<(Digest, Seen)>;

/// What earlier builds know.
pub struct Known<'a> {
    pub sheets: Option<&'a KnownSheets>,
    /// Lines of procedures that need not be looked at, by their numbers.
    pub entries: BTreeMap<String, index::Entry>,
}

/// The numbers of the workspace that have sheets, whoever made them, with the file that each is listed by.
pub fn beside<'w>(workspace: &'w Workspace, output: &Output) -> Vec<(&'w str, FileId)> {
    let numbers: Vec<&str> = workspace.register.numbers().collect();
    let has_sheets = |number: &&str| folder_name(number).is_ok() && output.has(number);
    let file = |number: &str| workspace.id(&workspace.register.find(number).first()?.file);
    numbers.into_par_iter().filter(has_sheets).filter_map(|number| Some((number, file(number)?))).collect()
}

/// Writes the list, and says how many pages that changed. A build of one file must not drop the others.
pub fn write(
    output: &Output,
    workspace: &Workspace,
    threshold: Severity,
    mut made: BTreeMap<String, index::Entry>,
    mut known: Known<'_>,
) -> Result<(usize, Listed), Trouble> {
    for number in workspace.register.numbers() {
        if made.contains_key(number) {
            continue;
        }
        let entry = match known.entries.remove(number) {
            Some(entry) => Some(entry),
            None if folder_name(number).is_err() || !output.has(number) => None,
            None => looked_up(workspace, number, threshold),
        };
        if let Some(mut entry) = entry {
            let there = |file: &&'static str| output.folder.join(number).join(file).is_file();
            entry.others = publish::ALWAYS.into_iter().filter(there).map(str::to_owned).collect();
            made.insert(number.to_owned(), entry);
        }
    }
    if made.is_empty() && !output.folder.join(INDEX).is_file() {
        return Ok((0, None));
    }
    let entries: Vec<index::Entry> = made.into_values().collect();
    let from = Digest::of(format!("{entries:?} {:?}", workspace.settings).as_bytes());
    if known.sheets.is_some_and(|sheets| sheets.list_stands(from, output)) {
        return Ok((0, None));
    }
    let page = index::render(&entries, &context(workspace))
        .map_err(|error| Trouble::new(format!("{}/{INDEX}", output.shown), error.to_string()))?;
    let written = output.write("", INDEX, page.as_bytes())?;
    Ok((usize::from(written == Written::Changed), Some((from, made::seen(written, page.as_bytes())))))
}

/// The line of a procedure that was not made now.
fn looked_up(workspace: &Workspace, number: &str, threshold: Severity) -> Option<index::Entry> {
    let file = &workspace.register.find(number).first()?.file;
    let source = run::source(workspace, workspace.id(file)?).ok()?;
    let compiled = compile(&source, &run::surroundings(workspace));
    let mut entry = index::Entry::of(&compiled.document)?;
    if Tally::of(&compiled.findings).reaches(threshold) {
        // Stands for the revision where the sheet is older than the source.
        entry.revision = context(workspace).words.label("last-good-sheet").to_owned();
    }
    Some(entry)
}

/// Names folders with sheets of procedures that are no longer there. Removing them is the user's business.
pub fn strangers(output: &Output, workspace: &Workspace) -> String {
    let line = |name: String| {
        let (shown, name) = (&output.shown, plain::harmless(&name));
        format!("note: {shown}/{name} belongs to no procedure here; remove it when nobody needs it\n")
    };
    output.strangers(|number| !workspace.register.find(number).is_empty()).into_iter().map(line).collect()
}
