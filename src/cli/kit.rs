//! `cotter kit`: what to order and lay out for several procedures at several benches.
use super::terminal::Terminal;
use super::trouble::Trouble;
use super::workspace::{Asked, Selection, Workspace};
use super::{MOST_BENCHES, listing, plain, run};
use crate::Compiled;
use crate::report::Severity;
use crate::sheets::kit::{self, List};
use clap::{Args, ValueEnum};
use std::path::PathBuf;

#[derive(Debug, Args)]
pub(super) struct KitArguments {
    /// Procedures, or folders with them; none means the workspace that holds the current folder
    paths: Vec<PathBuf>,
    /// How many benches do the work at the same time [default: `benches` of the house settings, or 1]
    #[arg(long, value_name = "N", value_parser = clap::value_parser!(u32).range(1..=MOST_BENCHES))]
    benches: Option<u32>,
    /// How the list is printed
    #[arg(long, value_enum, default_value_t = KitFormat::Text)]
    format: KitFormat,
}

#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
enum KitFormat {
    /// For people
    Text,
    /// For a spreadsheet or an order form
    Csv,
    /// One JSON object for programs
    Json,
    /// A page to print and to tick
    Html,
}

/// Prints one list for all that was asked for: 1 where a procedure with errors is left out of it, 2 where the
/// program was called wrongly or a file could not be had.
pub fn run(arguments: &KitArguments, jobs: usize, terminal: &mut Terminal) -> u8 {
    let mut troubles = Vec::new();
    let text = run::with_jobs(jobs, || answer(arguments, terminal, &mut troubles));
    // A list that lacks a procedure would be ordered from as if it were whole.
    let Ok((text, held)) = text.map_err(|trouble| troubles.push(trouble)) else {
        troubles.iter().for_each(|trouble| terminal.trouble(trouble));
        return 2;
    };
    troubles.iter().chain(&held).for_each(|trouble| terminal.trouble(trouble));
    terminal.print(&text);
    match (troubles.is_empty(), held.is_empty()) {
        (false, _) => 2,
        (true, false) => 1,
        (true, true) => 0,
    }
}

/// The list as text, and each procedure that is not on it.
fn answer(
    arguments: &KitArguments,
    terminal: &Terminal,
    troubles: &mut Vec<Trouble>,
) -> Result<(String, Vec<Trouble>), Trouble> {
    let (here, groups) = run::asked(&arguments.paths)?;
    let asked = one(&groups)?;
    let (selection, more) = Selection::open(&here, asked);
    troubles.extend(more);
    let none = || Trouble::new(plain::harmless(&asked.root.to_string_lossy()), "no kit can be made of it");
    let selection = selection.ok_or_else(none)?;
    let workspace = &selection.workspace;
    let context = listing::context(workspace);
    let mut list = List::new(arguments.benches.unwrap_or(workspace.settings.benches));
    let mut held = Vec::new();
    for result in
        run::each(&selection, terminal.watched(), |source, compiled| (source.name.to_string(), compiled))
    {
        match result {
            Ok((name, compiled)) => match faults(&compiled) {
                0 => add(&mut list, &compiled, &context),
                errors => held.extend(left_out(workspace, &name, &compiled, errors)),
            },
            Err(trouble) => troubles.push(trouble),
        }
    }
    let text = match arguments.format {
        KitFormat::Text => harmless(&kit::text(&list, context.words)),
        KitFormat::Csv => kit::csv(&list),
        KitFormat::Json => kit::json(&list),
        KitFormat::Html => {
            kit::render(&list, &context).map_err(|error| Trouble::new("kit", error.to_string()))?
        }
    };
    Ok((text, held))
}

/// What an author wrote cannot steer the terminal.
fn harmless(text: &str) -> String {
    text.lines().map(|line| plain::harmless(line) + "\n").collect()
}

fn one(groups: &[Asked]) -> Result<&Asked, Trouble> {
    match groups {
        [one] => Ok(one),
        [_, second, ..] => Err(Trouble::new(
            plain::harmless(&second.root.to_string_lossy()),
            "is another workspace, and one list follows the settings of one house",
        )
        .help("ask for one workspace at a time")),
        [] => Err(Trouble::new(".", "nothing was asked for")),
    }
}

fn faults(compiled: &Compiled) -> usize {
    compiled.findings.iter().filter(|finding| finding.severity == Severity::Error).count()
}

/// Catalogues have no kit.
fn add(list: &mut List, compiled: &Compiled, context: &crate::sheets::Context<'_>) {
    if compiled.document.procedure().is_some() {
        list.add_document(&compiled.document, context).expect("the document is a procedure");
    }
}

fn left_out(workspace: &Workspace, name: &str, compiled: &Compiled, errors: usize) -> Option<Trouble> {
    let procedure = compiled.document.procedure()?;
    let errors = super::tally::count(errors, "error");
    let message = format!("{} is not on the list: it has {errors}", plain::harmless(&procedure.number.value));
    Some(
        Trouble::new(workspace.shown(name), message).help("mend it first; `cotter check` says what is wrong"),
    )
}
