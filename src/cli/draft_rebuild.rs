//! `cotter draft-rebuild`: a section that puts together what a procedure takes down, for its author to fill in.
use super::terminal::Terminal;
use super::trouble::Trouble;
use super::{one, run};
use crate::compile;
use crate::draft::{self, BLANK, Draft};
use crate::model::Surroundings;
use crate::report::Finding;
use crate::source::{FileId, SourceFile};
use crate::syntax;
use clap::Args;
use std::path::PathBuf;

// What `cotter draft-rebuild` was asked.
#[derive(Debug, Args)]
pub(super) struct DraftArguments {
    /// The procedure
    file: PathBuf,
    /// Put the section into the file, behind the last one that takes down or measures
    #[arg(long)]
    write: bool,
}

/// Drafts, and gives the exit code: 1 where there is nothing to draft.
pub(super) fn run(arguments: &DraftArguments, terminal: &mut Terminal) -> u8 {
    match drafted(arguments) {
        Ok(Some(told)) => {
            terminal.print(&told);
            0
        }
        Ok(None) => {
            terminal
                .print("nothing to draft: the steps leave nothing off, loose, open, drained or cut off\n");
            1
        }
        Err(trouble) => {
            terminal.trouble(&trouble);
            2
        }
    }
}

fn drafted(arguments: &DraftArguments) -> Result<Option<String>, Trouble> {
    let one = one::open(&arguments.file)?;
    let workspace = &one.selection.workspace;
    let source = run::source(workspace, one.id)?;
    let around = run::surroundings(workspace);
    let compiled = compile(&source, &around);
    let shown = workspace.shown(&source.name);
    if let Some(finding) = compiled.findings.iter().find(|it| is_hole(it)) {
        return Err(Trouble::new(shown, format!("cannot be followed: {}", finding.message))
            .at(source.line_column(finding.span.start))
            .help("mend it, then draft again"));
    }
    let own = &compiled.document.declarations;
    let Some(draft) = draft::rebuild(&compiled.document, own, &workspace.register) else { return Ok(None) };
    // Once more with what the shop has for steps like those.
    let text = together(&source.text, draft.place, &draft.text);
    let whole = compile(&SourceFile::new(source.id, &*source.name, text), &around).document;
    let draft = draft::rebuild(&compiled.document, &whole.declarations, &workspace.register).unwrap_or(draft);
    let section = with_cautions(&source, &draft, &around);
    if !arguments.write {
        return Ok(Some(section));
    }
    let text = together(&source.text, draft.place, &section);
    workspace
        .save(&source.name, &source.text, &text)
        .map_err(|error| Trouble::new(&*shown, format!("cannot be written: {error}")))?;
    let blanks =
        section.lines().filter(|line| !line.starts_with('#')).map(|line| line.matches(BLANK).count());
    Ok(Some(format!("{shown}: a draft was added; it has {} blanks to fill in\n", blanks.sum::<usize>())))
}

/// A line that is not understood may take down what the draft would then leave out.
fn is_hole(finding: &Finding) -> bool {
    [syntax::UNREADABLE_LINE, "undeclared-name", "unknown-verb"].contains(&finding.rule)
}

/// The section with the safety messages that its steps need, in the house's layout.
fn with_cautions(source: &SourceFile, draft: &Draft, around: &Surroundings<'_>) -> String {
    let text = together(&source.text, draft.place, &draft.text);
    let whole = SourceFile::new(source.id, &*source.name, text.as_str());
    let missing = draft::cautions(&compile(&whole, around).document, around.settings, draft.place);
    // Behind the line end and the blank line.
    let start = draft.place + 2;
    let (mut section, mut at) = (String::new(), start);
    for (place, message) in missing {
        section.push_str(text.get(at..place).unwrap_or(""));
        section.push_str(&message);
        at = place;
    }
    section.push_str(text.get(at..start + draft.text.len()).unwrap_or(""));
    syntax::format(&SourceFile::new(FileId(0), "draft", section))
}

/// The file with the section put in, a blank line before it.
fn together(text: &str, place: usize, section: &str) -> String {
    let (before, after) = text.split_at_checked(place).unwrap_or((text, ""));
    let after = after.trim_start_matches(['\r', '\n']);
    let gap = if after.is_empty() { "" } else { "\n" };
    format!("{before}\n\n{section}{gap}{after}")
}
