//! `cotter record`: whether a record is what its procedure asks for, and the values of many records as a table.
use super::terminal::Terminal;
use super::trouble::Trouble;
use super::{Format, files, one, plain, run, tally};
use crate::record::{self, Opened, Plan, Problem};
use crate::report::Severity;
use crate::{Compiled, compile};
use clap::{Args, Subcommand};
use serde::Serialize;
use std::path::{Path, PathBuf};

#[derive(Debug, Args)]
pub(super) struct RecordArguments {
    #[command(subcommand)]
    command: Command,
}

#[derive(Debug, Subcommand)]
enum Command {
    /// Say whether a record was made by this procedure, is complete, within limits and signed in order
    Check(CheckArguments),
    /// Print all measured and tightened values of records as CSV
    Table {
        /// Files that bench pages saved
        #[arg(required = true, value_name = "RECORD")]
        records: Vec<PathBuf>,
    },
}

#[derive(Debug, Args)]
struct CheckArguments {
    /// A file that a bench page saved
    record: PathBuf,
    /// The procedure that it should be of
    #[arg(long, value_name = "FILE")]
    against: PathBuf,
    /// How the answer is printed
    #[arg(long, value_enum, default_value_t = Format::Text)]
    format: Format,
}

/// The answer for programs.
#[derive(Debug, Serialize)]
struct Answer<'a> {
    version: u32,
    record: String,
    procedure: &'a str,
    revision: &'a str,
    job: &'a record::Job,
    good: bool,
    problems: &'a [Problem],
}

/// Prints the answer; 0 where all is well, 1 where a record is not, 2 where a file could not be had.
pub fn run(arguments: &RecordArguments, terminal: &mut Terminal) -> u8 {
    let answer = match &arguments.command {
        Command::Check(arguments) => check(arguments),
        Command::Table { records } => table(records).map(|text| (text, 0)),
    };
    match answer {
        Ok((text, code)) => {
            terminal.print(&text);
            code
        }
        Err(trouble) => {
            terminal.trouble(&trouble);
            2
        }
    }
}

fn open(path: &Path) -> Result<Opened, Trouble> {
    let shown = path.display().to_string();
    let bytes =
        files::read_bytes(path, &shown, record::LARGEST, "save the record from the bench page again")?;
    record::read(&bytes).map_err(|error| {
        let trouble = Trouble::new(shown, error.message).help(error.help);
        error.place.into_iter().fold(trouble, Trouble::at)
    })
}

fn check(arguments: &CheckArguments) -> Result<(String, u8), Trouble> {
    let opened = open(&arguments.record)?;
    let plan = plan(&arguments.against)?;
    let problems = record::judge(&opened, &plan);
    let shown = plain::harmless(&arguments.record.display().to_string());
    let text = match arguments.format {
        Format::Text => told(&shown, &opened, &problems),
        Format::Json => json(shown, &opened, &problems),
    };
    Ok((text, u8::from(!problems.is_empty())))
}

/// What the procedure in that file asks for. One with an error makes no page, so that no record can be of it.
fn plan(path: &Path) -> Result<Plan, Trouble> {
    let shown = path.display().to_string();
    let one::One { selection, id } = one::open(path)?;
    let source = run::source(&selection.workspace, id)?;
    let Compiled { document, findings } = compile(&source, &run::surroundings(&selection.workspace));
    if findings.iter().any(|finding| finding.severity == Severity::Error) {
        return Err(
            Trouble::new(shown, "has errors, and no page is made of it").help("`cotter check` says which")
        );
    }
    Plan::of(&document, &selection.workspace.settings.units)
        .ok_or_else(|| Trouble::new(shown, "this is no procedure: only a procedure has records"))
}

fn told(shown: &str, opened: &Opened, problems: &[Problem]) -> String {
    let record = &opened.record;
    let (made, job) = (&record.procedure, &record.job);
    let mut out =
        format!("{shown}: {} {}, job {}, serial {}", made.number, made.revision, job.number, job.serial);
    if !job.model.is_empty() {
        out.push_str(&format!(", {}", job.model));
    }
    out.push('\n');
    for problem in problems {
        let place = match (problem.step, problem.round.as_str()) {
            (Some(step), "") => format!("step {step}: "),
            (Some(step), round) => format!("step {step}, {round}: "),
            (None, _) => String::new(),
        };
        out.push_str(&format!(
            "  {place}{} [{}]\n    help: {}\n",
            problem.message, problem.kind, problem.help
        ));
    }
    let count = match problems.len() {
        0 => "the record is whole and within limits".to_owned(),
        some => tally::count(some, "problem"),
    };
    plain::harmless(&format!("{out}{count}\n"))
}

fn json(shown: String, opened: &Opened, problems: &[Problem]) -> String {
    let record = &opened.record;
    let answer = Answer {
        version: 1,
        record: shown,
        procedure: &record.procedure.number,
        revision: &record.procedure.revision,
        job: &record.job,
        good: problems.is_empty(),
        problems,
    };
    serde_json::to_string_pretty(&answer).unwrap_or_default() + "\n"
}

const COLUMNS: [&str; 14] = [
    "record",
    "procedure",
    "job",
    "serial",
    "model",
    "date",
    "step",
    "round",
    "attempt",
    "what",
    "value",
    "unit",
    "low",
    "high",
];

/// Every record is read before a line is printed: a table that lacks one would look whole.
fn table(paths: &[PathBuf]) -> Result<String, Trouble> {
    let records = paths.iter().map(|path| Ok((path, open(path)?))).collect::<Result<Vec<_>, Trouble>>()?;
    let broken = |error: csv::Error| Trouble::new("standard output", error.to_string());
    let mut table = csv::Writer::from_writer(Vec::new());
    table.write_record(COLUMNS.into_iter().chain(["ok"])).map_err(broken)?;
    for (path, opened) in &records {
        let name = path.display().to_string();
        if !opened.sealed {
            return Err(Trouble::new(name, "its seal does not fit: it was changed after it was saved")
                .help("leave it out, or save it from the bench page again"));
        }
        let job = &opened.record.job;
        for it in record::readings(&opened.record) {
            let (step, attempt) = (it.step.to_string(), it.attempt.to_string());
            let number = &opened.record.procedure.number;
            let ok = it.ok.map_or("", |ok| if ok { "yes" } else { "no" });
            let texts = [&job.number, &job.serial, &job.model].map(|text| inert(text));
            let [job, serial, model] = &texts;
            let what = inert(&it.what);
            let line: [&str; 15] = [
                &name, number, job, serial, model, &it.at, &step, &it.round, &attempt, &what, &it.value,
                &it.unit, &it.low, &it.high, ok,
            ];
            table.write_record(line).map_err(broken)?;
        }
    }
    let bytes = table.into_inner().map_err(|error| Trouble::new("standard output", error.to_string()))?;
    String::from_utf8(bytes).map_err(|error| Trouble::new("standard output", error.to_string()))
}

/// A text that a spreadsheet would take for a formula gets an apostrophe before it.
fn inert(text: &str) -> String {
    let formula = text.starts_with(['=', '+', '-', '@', '\t', '\r']);
    if formula { format!("'{text}") } else { text.to_owned() }
}
