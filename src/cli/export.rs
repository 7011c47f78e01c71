//! `cotter export`: a procedure in an open standard, for shops whose manuals live there.
use super::terminal::Terminal;
use super::trouble::Trouble;
use super::{listing, one, run};
use crate::report::Severity;
use crate::sheets::exchange::{self, Standard};
use crate::{Compiled, compile};
use clap::{Args, ValueEnum};
use std::path::PathBuf;

#[derive(Debug, Args)]
pub(super) struct ExportArguments {
    /// The procedure
    file: PathBuf,
    /// Which standard
    #[arg(long, value_enum, value_name = "STANDARD")]
    format: Form,
}

#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
enum Form {
    /// OASIS DITA 1.3, machinery task
    Dita,
    /// S1000D issue 4.2, procedural data module
    S1000d,
}

/// Prints the procedure: 1 where it has errors and nothing is made of it, 2 where it could not be had.
pub fn run(arguments: &ExportArguments, terminal: &mut Terminal) -> u8 {
    match answer(arguments) {
        Ok(Some(text)) => {
            terminal.print(&text);
            0
        }
        Ok(None) => {
            let shown = arguments.file.display().to_string();
            let trouble = Trouble::new(&shown, "it has errors, and nothing is made of it");
            terminal.trouble(&trouble.help(format!("`cotter check {shown}` says which")));
            1
        }
        Err(trouble) => {
            terminal.trouble(&trouble);
            2
        }
    }
}

fn answer(arguments: &ExportArguments) -> Result<Option<String>, Trouble> {
    let one::One { selection, id } = one::open(&arguments.file)?;
    let workspace = &selection.workspace;
    let source = run::source(workspace, id)?;
    let Compiled { document, findings } = compile(&source, &run::surroundings(workspace));
    if findings.iter().any(|finding| finding.severity == Severity::Error) {
        return Ok(None);
    }
    let standard = match arguments.format {
        Form::Dita => Standard::Dita,
        Form::S1000d => Standard::S1000d,
    };
    let made = exchange::render(&document, standard, &listing::context(workspace));
    let shown = arguments.file.display().to_string();
    made.map(Some).map_err(|error| Trouble::new(shown, error.to_string()))
}
