//! `cotter check`: findings, and nothing is written.
use super::json::{self, JsonFinding};
use super::mend;
use super::plain::{self, Places};
use super::tally::Tally;
use super::terminal::Terminal;
use super::trouble::Trouble;
use super::workspace::{Asked, Selection};
use super::{CheckArguments, Format, run, threshold};
use std::path::Path;

/// What one file gave.
struct Checked {
    tally: Tally,
    text: String,
    json: Vec<JsonFinding>,
}

/// What the run gave.
#[derive(Default)]
struct Sum {
    tally: Tally,
    text: String,
    json: Vec<JsonFinding>,
    troubles: Vec<Trouble>,
}

/// Checks what was asked for and gives the exit code.
pub fn run(arguments: &CheckArguments, jobs: usize, terminal: &mut Terminal) -> u8 {
    let mut sum = Sum::default();
    let (mut told, mut mending) = (String::new(), Vec::new());
    if arguments.fix || arguments.diff {
        (told, mending) = mend::run(&arguments.paths, arguments.diff);
    }
    sum.troubles.extend(mending);
    match run::asked(&arguments.paths) {
        Ok((here, groups)) => run::with_jobs(jobs, || {
            for asked in &groups {
                workspace(&here, asked, arguments.format, terminal, &mut sum);
            }
        }),
        Err(trouble) => sum.troubles.push(trouble),
    }
    for trouble in &sum.troubles {
        terminal.trouble(trouble);
    }
    let code = match (sum.troubles.is_empty(), sum.tally.reaches(threshold(arguments.deny))) {
        (false, _) => 2,
        (true, true) => 1,
        (true, false) => 0,
    };
    match arguments.format {
        Format::Json => terminal.print(&json::answer(sum.json, sum.troubles, sum.tally)),
        Format::Text => terminal.print(&format!("{told}{}{}", sum.text, sum.tally.line())),
    }
    code
}

fn workspace(here: &Path, asked: &Asked, format: Format, terminal: &Terminal, sum: &mut Sum) {
    let (selection, troubles) = Selection::open(here, asked);
    sum.troubles.extend(troubles);
    let Some(selection) = selection else { return };
    let look = terminal.look();
    let results = run::each(&selection, terminal.watched(), |source, compiled| {
        let places = Places { workspace: &selection.workspace, source };
        let found = &compiled.findings;
        let tally = Tally::of(found);
        match format {
            Format::Text => Checked { tally, text: plain::findings(found, places, look), json: Vec::new() },
            Format::Json => Checked { tally, text: String::new(), json: json::findings(found, places) },
        }
    });
    for result in results {
        match result {
            Ok(checked) => {
                sum.tally.add(checked.tally);
                sum.text.push_str(&checked.text);
                sum.json.extend(checked.json);
            }
            Err(trouble) => sum.troubles.push(trouble),
        }
    }
}
