//! The command line: arguments in, exit code out. What it works in is read by `workspace`.
#![allow(clippy::disallowed_methods, clippy::disallowed_types)]
mod amounts;
mod build;
mod check;
mod compare;
mod earlier;
mod explain;
mod export;
mod findings;
mod git;
mod difference;
mod draft_rebuild;
mod fmt;
mod graphic;
mod import_text;
mod kit;
mod mend;
mod linked;
mod listing;
mod made;
mod new;
mod one;
mod opened;
mod pages;
mod plain;
#[cfg(feature = "editor")]
mod preview;
mod progress;
mod publish;
mod record;
mod revision;
mod run;
mod schema;
mod tally;
mod terminal;
mod torque;
mod touched;
mod trace;
mod turns;
mod version;

use crate::model::Language;
use crate::report::Severity;
use crate::workspace::{self, files, paths, trouble};
use clap::builder::{PossibleValuesParser, TypedValueParser};
use clap::{Args, CommandFactory, Parser, Subcommand, ValueEnum};
use opened::CacheArguments;
use std::path::PathBuf;
use std::process::ExitCode;
use terminal::Terminal;

/// What `cotter` was asked to do.
#[derive(Debug, Parser)]
#[command(
    name = "cotter",
    version,
    long_version = version::long(),
    about = "Checks repair procedures and makes the sheets people work from",
    after_help = "Exit code: 0 nothing wrong, 1 findings of error level, 2 the program was called wrongly or a \
                  file could not be had.\nNO_COLOR is honoured."
)]
struct Arguments {
    #[command(subcommand)]
    command: Command,
    /// When to colour what is printed
    #[arg(long, global = true, value_enum, default_value_t = Colour::Auto)]
    color: Colour,
    /// How many files are worked on side by side (0: as many as there are processors)
    #[arg(long, global = true, value_name = "N", default_value_t = 0)]
    jobs: usize,
}

// A doc comment on the arguments of a command would stand in its help in place of what is said here.
/// The arguments of each are put together when it is asked for: those of all took a third of what starting takes longer
/// than starting an empty program.
#[derive(Debug, Subcommand)]
#[command(defer = true)]
enum Command {
    /// Say what is wrong with procedures and catalogues
    Check(CheckArguments),
    /// Check, then make the sheets of each procedure without errors
    Build(BuildArguments),
    /// Start a procedure: its head from a few answers, and an example to replace
    New(new::NewArguments),
    /// Draft the section that puts together what a procedure takes down, with blanks to fill in
    DraftRebuild(draft_rebuild::DraftArguments),
    /// Put files in the one layout of the house; what they mean stays the same
    Fmt(fmt::FmtArguments),
    /// Convert a torque, set a wrench with an adapter, and hold it against a fastener
    Torque(torque::TorqueArguments),
    /// List what to order and lay out for several procedures and benches
    Kit(kit::KitArguments),
    /// Follow one part through the steps, for each group of models
    Trace(trace::TraceArguments),
    /// Check a record that a bench page saved, or gather the values of many
    Record(record::RecordArguments),
    /// Serve an editor that speaks the Language Server Protocol, over standard input and output
    #[cfg(feature = "editor")]
    LanguageServer {
        /// Said by some clients; there is no other way
        #[arg(long, hide = true)]
        stdio: bool,
    },
    /// Show the sheets in a browser on this machine, made anew at each save, with a box to write in
    #[cfg(feature = "editor")]
    Preview(preview::PreviewArguments),
    /// Say what changed in meaning between two revisions
    Compare(compare::CompareArguments),
    /// Write a procedure in an open standard, for shops whose manuals live there
    Export(export::ExportArguments),
    /// Print the JSON Schema of what other programs read
    Schema {
        /// Of which form
        #[arg(value_enum)]
        form: schema::Schema,
    },
    /// Make a first rough source from a plain list of steps
    ImportText(import_text::ImportArguments),
    /// Print a script that makes a shell complete what is typed behind `cotter`
    Completions(pages::CompletionArguments),
    /// Print the manual page, or write all of them
    Man(pages::ManArguments),
    /// List the rules, or explain one
    Explain {
        /// The rule's name, as it stands in square brackets behind a finding
        rule: Option<String>,
    },
}

#[derive(Debug, Args)]
struct CheckArguments {
    /// Files and folders; none means the workspace that holds the current folder
    paths: Vec<PathBuf>,
    /// How findings are printed
    #[arg(long, value_enum, default_value_t = CheckFormat::Text)]
    format: CheckFormat,
    /// Set aside the findings that this file knows, and let only new ones fail
    #[arg(long, value_name = "FILE")]
    baseline: Option<PathBuf>,
    /// Write the file of known findings anew: what is found now is known, what is mended is taken out
    #[arg(long, requires = "baseline")]
    update_baseline: bool,
    /// Check only files that differ from this git revision, and those that use, follow or require them
    #[arg(long, value_name = "REVISION")]
    since: Option<String>,
    /// Count findings of this weight and above as errors
    #[arg(long, value_enum, value_name = "LEVEL")]
    deny: Option<Deny>,
    /// Apply the mends that are safe, and say which
    #[arg(long)]
    fix: bool,
    /// Show what `--fix` would change, and change nothing
    #[arg(long)]
    diff: bool,
    #[command(flatten)]
    cache: CacheArguments,
}

/// More than any school has.
const MOST_BENCHES: i64 = 10_000;

#[derive(Debug, Args)]
struct BuildArguments {
    /// Files and folders; none means the workspace that holds the current folder
    paths: Vec<PathBuf>,
    /// The folder to write into; nothing outside it is touched [default: `out` of the workspace]
    #[arg(short, long, value_name = "FOLDER")]
    output: Option<PathBuf>,
    /// How many benches the kit is for [default: `benches` of the house settings, or 1]
    #[arg(long, value_name = "N", value_parser = clap::value_parser!(u32).range(1..=MOST_BENCHES))]
    benches: Option<u32>,
    /// Also make handouts with these values left blank for learners to look up, and a page of answers
    #[arg(long, value_enum, value_delimiter = ',', value_name = "WHAT")]
    withhold: Vec<Withheld>,
    /// What the sheets are printed in; the author's own words stay as they are [default: `language` of the house settings, or en]
    #[arg(long, value_name = "LANGUAGE", value_parser = language())]
    language: Option<Language>,
    /// Also make the sheets for printing as PDF
    #[cfg(feature = "pdf")]
    #[arg(long)]
    pdf: bool,
    /// Mark in the margin what changed since a git revision, or since the sources in a folder
    #[arg(long, value_name = "OLD")]
    since: Option<PathBuf>,
    /// Make no sheet of a procedure with findings of this weight and above
    #[arg(long, value_enum, value_name = "LEVEL")]
    deny: Option<Deny>,
    #[command(flatten)]
    cache: CacheArguments,
}

/// Reads the tag of a language that sheets can be printed in.
fn language() -> impl TypedValueParser<Value = Language> {
    let tags = PossibleValuesParser::new(Language::ALL.map(Language::tag));
    tags.map(|tag| Language::ALL.into_iter().find(|it| it.tag() == tag).unwrap_or_default())
}

#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
enum Colour {
    Auto,
    Always,
    Never,
}

#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
enum Format {
    /// For people: drawn on a terminal, one `file:line:column:` line and the source line elsewhere
    Text,
    /// One JSON object for programs
    Json,
}

#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
enum CheckFormat {
    /// For people: drawn on a terminal, one `file:line:column:` line and the source line elsewhere
    Text,
    /// One JSON object for programs
    Json,
    /// A SARIF 2.1.0 log, for tools that gather findings
    Sarif,
    /// A JUnit report: a suite for each file
    Junit,
    /// Workflow commands, which show findings beside the changed lines
    Github,
    /// One finding a line, and nothing else
    Lines,
}

#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
enum Withheld {
    /// What fasteners are tightened to
    Torque,
    /// What readings are held against
    Limits,
}

#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
enum Deny {
    Warning,
    Advice,
}

/// The least severity that counts as an error.
fn threshold(deny: Option<Deny>) -> Severity {
    match deny {
        None => Severity::Error,
        Some(Deny::Warning) => Severity::Warning,
        Some(Deny::Advice) => Severity::Advice,
    }
}

/// What the program does that is no part of the command line: each serves until it is done, and gives the exit code.
pub struct Servers {
    #[cfg(feature = "editor")]
    pub language_server: fn() -> u8,
}

/// Runs the program on the arguments it was started with.
pub fn main(servers: &Servers) -> ExitCode {
    #[cfg(not(feature = "editor"))]
    let Servers {} = servers;
    let arguments = Arguments::parse();
    let mut terminal = Terminal::new(arguments.color);
    let code = match arguments.command {
        Command::Check(check) => check::run(&check, arguments.jobs, &mut terminal),
        Command::Build(build) => build::run(&build, arguments.jobs, &mut terminal),
        Command::New(new) => new::run(&new, &mut terminal),
        Command::DraftRebuild(draft) => draft_rebuild::run(&draft, &mut terminal),
        Command::Fmt(format) => fmt::run(&format, arguments.jobs, &mut terminal),
        Command::Torque(torque) => torque::run(&torque, &mut terminal),
        Command::Kit(kit) => kit::run(&kit, arguments.jobs, &mut terminal),
        Command::Trace(trace) => trace::run(&trace, &mut terminal),
        Command::Record(record) => record::run(&record, &mut terminal),
        #[cfg(feature = "editor")]
        Command::LanguageServer { .. } => (servers.language_server)(),
        #[cfg(feature = "editor")]
        Command::Preview(preview) => preview::run(&preview, &mut terminal),
        Command::Compare(compare) => compare::run(&compare, &mut terminal),
        Command::Export(export) => export::run(&export, &mut terminal),
        Command::Schema { form } => schema::run(form, &mut terminal),
        Command::ImportText(import) => import_text::run(&import, &mut terminal),
        Command::Completions(it) => pages::completions(&it, Arguments::command(), &mut terminal),
        Command::Man(it) => pages::man(&it, Arguments::command(), &mut terminal),
        Command::Explain { rule } => explain::run(rule.as_deref(), &mut terminal),
    };
    terminal.finish(code)
}
