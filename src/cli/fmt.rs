//! `cotter fmt`: files in the one layout of the house, written, shown, or only told of.
use super::terminal::Terminal;
use super::trouble::Trouble;
use super::workspace::files;
use super::{difference, paths, run, workspace};
use crate::source::{FileId, SourceFile};
use crate::syntax;
use clap::Args;
use rayon::prelude::*;
use std::path::{Path, PathBuf};

// What `cotter fmt` was asked.
#[derive(Debug, Args)]
pub struct FmtArguments {
    /// Files and folders; `-` means standard input, none the workspace that holds the current folder
    paths: Vec<PathBuf>,
    /// Change nothing; name the files that would change, and end with 1 where there are any
    #[arg(long)]
    check: bool,
    /// Change nothing; show what would change
    #[arg(long)]
    diff: bool,
}

/// What became of one file.
enum Outcome {
    Same,
    /// What is to be said of it.
    Differs(String),
}

/// Formats what was asked for and gives the exit code.
pub fn run(arguments: &FmtArguments, jobs: usize, terminal: &mut Terminal) -> u8 {
    let done = if arguments.paths.iter().any(|path| path.as_os_str() == "-") {
        standard_input(arguments, terminal)
    } else {
        all(arguments, jobs, terminal)
    };
    match done {
        Ok(code) => code,
        Err(trouble) => {
            terminal.trouble(&trouble);
            2
        }
    }
}

fn standard_input(arguments: &FmtArguments, terminal: &mut Terminal) -> Result<u8, Trouble> {
    const SHOWN: &str = "standard input";
    if arguments.paths.len() > 1 {
        return Err(Trouble::new("-", "stands for standard input, which is formatted alone")
            .help("leave the other files out"));
    }
    let text = files::read_standard_input()?;
    let formatted = syntax::format(&SourceFile::new(FileId(0), SHOWN, text.as_str()));
    let differs = formatted != text;
    match (arguments.check, arguments.diff) {
        (false, false) => terminal.hand_on(&formatted),
        _ if differs => terminal.print(&told(arguments, SHOWN, &text, &formatted)),
        _ => {}
    }
    Ok(u8::from(arguments.check && differs))
}

fn all(arguments: &FmtArguments, jobs: usize, terminal: &mut Terminal) -> Result<u8, Trouble> {
    let (here, groups) = run::asked(&arguments.paths)?;
    let shown = |path: &Path| paths::printable(&paths::shown(&here, path));
    let (mut wanted, mut troubles) = (Vec::new(), Vec::new());
    for asked in &groups {
        let (found, failed) = workspace::wanted(asked, shown);
        wanted.extend(found.into_iter().map(|path| (path, asked.root.as_path())));
        troubles.extend(failed);
    }
    wanted.sort();
    wanted.dedup_by(|(one, _), (other, _)| one == other);
    let results: Vec<_> = run::with_jobs(jobs, || {
        wanted.par_iter().map(|(path, root)| one(arguments, root, path, &shown(path))).collect()
    });
    let (files, mut differ) = (results.len(), 0_usize);
    for result in results {
        match result {
            Ok(Outcome::Same) => {}
            Ok(Outcome::Differs(told)) => {
                differ += 1;
                terminal.print(&told);
            }
            Err(trouble) => troubles.push(trouble),
        }
    }
    troubles.iter().for_each(|trouble| terminal.trouble(trouble));
    terminal.print(&sum(arguments, files, differ));
    Ok(if troubles.is_empty() { u8::from(arguments.check && differ > 0) } else { 2 })
}

fn one(arguments: &FmtArguments, root: &Path, path: &Path, shown: &str) -> Result<Outcome, Trouble> {
    let text = files::read_inside(root, path, shown)?;
    let formatted = syntax::format(&SourceFile::new(FileId(0), shown, text.as_str()));
    if formatted == text {
        return Ok(Outcome::Same);
    }
    if !arguments.check && !arguments.diff {
        files::save(root, path, &text, &formatted)
            .map_err(|error| Trouble::new(shown, format!("cannot be formatted: {error}")))?;
    }
    Ok(Outcome::Differs(told(arguments, shown, &text, &formatted)))
}

fn told(arguments: &FmtArguments, shown: &str, before: &str, after: &str) -> String {
    match (arguments.diff, arguments.check) {
        (true, _) => difference::unified(shown, "formatted", before, after),
        (false, true) => format!("{shown}: not formatted\n"),
        (false, false) => format!("{shown}: formatted\n"),
    }
}

fn sum(arguments: &FmtArguments, files: usize, differ: usize) -> String {
    let files = if files == 1 { "1 file".to_owned() } else { format!("{files} files") };
    match differ {
        0 => format!("{files}: nothing to format\n"),
        _ if arguments.check || arguments.diff => format!("{files}: {differ} not formatted\n"),
        _ => format!("{files}: {differ} formatted\n"),
    }
}
