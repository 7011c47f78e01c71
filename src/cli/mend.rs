//! `cotter check --fix` and `--diff`: the safe mends, applied to the files or only shown.
use super::trouble::Trouble;
use super::workspace::{Asked, Selection};
use super::{difference, run};
use crate::report::{Edit, Finding, Severity};
use crate::source::SourceFile;
use crate::{compile, report};
use std::path::{Path, PathBuf};

/// Mends every file asked for, or shows how. What is to be printed, and what went wrong.
pub fn run(paths: &[PathBuf], only_show: bool) -> (String, Vec<Trouble>) {
    let (mut told, mut troubles) = (String::new(), Vec::new());
    // What cannot be found is said by the check that follows.
    if let Ok((here, groups)) = run::asked(paths) {
        for asked in &groups {
            workspace(&here, asked, only_show, &mut told, &mut troubles);
        }
    }
    (told, troubles)
}

fn workspace(here: &Path, asked: &Asked, only_show: bool, told: &mut String, troubles: &mut Vec<Trouble>) {
    let (selection, _) = Selection::open(here, asked);
    let Some(selection) = selection else { return };
    let around = run::surroundings(&selection.workspace);
    for &id in &selection.files {
        let Ok(source) = run::source(&selection.workspace, id) else { continue };
        let before = compile(&source, &around).findings;
        let (text, applied) = mended(&source, &before);
        if applied.is_empty() {
            continue;
        }
        let shown = selection.workspace.shown(&source.name);
        let after = compile(&SourceFile::new(id, &*source.name, text.as_str()), &around).findings;
        if errors(&after) > errors(&before) {
            troubles.push(
                Trouble::new(shown, "is left as it is: mending it would make other faults")
                    .help("mend the first finding by hand and try again"),
            );
            continue;
        }
        if only_show {
            told.push_str(&difference::unified(&shown, "mended", &source.text, &text));
            continue;
        }
        match selection.workspace.save(&source.name, &source.text, &text) {
            Ok(()) => applied.iter().for_each(|finding| told.push_str(&line(&shown, &source, finding))),
            Err(error) => troubles.push(Trouble::new(shown, format!("cannot be mended: {error}"))),
        }
    }
}

fn errors(findings: &[Finding]) -> usize {
    findings.iter().filter(|finding| finding.severity == Severity::Error).count()
}

fn line(shown: &str, source: &SourceFile, finding: &Finding) -> String {
    let (line, column) = source.line_column(finding.span.start);
    let help = finding.help.as_deref().unwrap_or(&finding.message);
    format!("{shown}:{line}:{column}: mended[{}]: {help}\n", finding.rule)
}

/// The text with the safe mends in it, and the findings they were of. Of two that overlap the first is applied.
fn mended<'f>(source: &SourceFile, findings: &'f [Finding]) -> (String, Vec<&'f Finding>) {
    let (mut edits, mut applied): (Vec<&Edit>, Vec<&Finding>) = (Vec::new(), Vec::new());
    for finding in findings.iter().filter(|finding| !finding.guessed && !finding.edits.is_empty()) {
        let mine =
            |edit: &report::Edit| edit.span.file == source.id && edit.span.end as usize <= source.text.len();
        let free = |edit: &report::Edit| edits.iter().all(|other| apart(edit, other));
        if finding.edits.iter().all(|edit| mine(edit) && free(edit)) {
            edits.extend(&finding.edits);
            applied.push(finding);
        }
    }
    edits.sort_by_key(|edit| edit.span.start);
    let (mut text, mut at) = (String::with_capacity(source.text.len() + 64), 0);
    for edit in edits {
        text.push_str(source.text.get(at..edit.span.start as usize).unwrap_or(""));
        text.push_str(&edit.text);
        at = edit.span.end as usize;
    }
    text.push_str(source.text.get(at..).unwrap_or(""));
    (text, applied)
}

/// Two that insert at one place would come out in an order that nobody chose.
fn apart(a: &Edit, b: &Edit) -> bool {
    a.span.end < b.span.start || b.span.end < a.span.start
}
