//! `cotter new`: starts a procedure from a few answers, given as flags or asked for on a terminal.
mod ask;
mod desk;

use super::plain;
use super::tally::count;
use super::terminal::Terminal;
use super::trouble::Trouble;
use ask::QUESTIONS;
use clap::Args;
use desk::Desk;
use std::io::{self, IsTerminal};
use std::path::PathBuf;

// What `cotter new` was asked. What is not given is asked for on a terminal.
#[derive(Debug, Args)]
#[command(after_help = "On a terminal, what is not given is asked for; elsewhere every flag is needed.")]
pub(super) struct NewArguments {
    /// The file, which must not be there yet [default: the number in small letters, in the current folder]
    file: Option<PathBuf>,
    /// What other procedures call it by
    #[arg(long)]
    number: Option<String>,
    /// What is done
    #[arg(long)]
    title: Option<String>,
    /// The machine
    #[arg(long, value_name = "MACHINE")]
    equipment: Option<String>,
    /// Every model it holds for, with commas between them, or `none`
    #[arg(long)]
    models: Option<String>,
    /// How long it takes, as `90 min`
    #[arg(long)]
    time: Option<String>,
    /// How many people it takes
    #[arg(long, value_name = "N")]
    people: Option<String>,
    /// Numbers of procedures that must be done first, or `none`
    #[arg(long, value_name = "NUMBERS")]
    requires: Option<String>,
    /// Numbers of procedures to do next, or `none`
    #[arg(long, value_name = "NUMBERS")]
    afterwards: Option<String>,
    /// What makes the machine dangerous: `live`, `pressurised`, `hot`, `raised`, with commas, or `nothing`
    #[arg(long, value_name = "WHAT")]
    dangers: Option<String>,
}

impl NewArguments {
    /// In the order of the questions.
    fn given(&self) -> [Option<&str>; QUESTIONS.len()] {
        [
            &self.number,
            &self.title,
            &self.equipment,
            &self.models,
            &self.time,
            &self.people,
            &self.requires,
            &self.afterwards,
            &self.dangers,
        ]
        .map(Option::as_deref)
    }
}

/// Writes the file and says which; 2 where nothing was written.
pub(super) fn run(arguments: &NewArguments, terminal: &mut Terminal) -> u8 {
    match start(arguments, terminal) {
        Ok(told) => {
            terminal.print(&plain::harmless(&told));
            0
        }
        Err(troubles) => {
            troubles.iter().for_each(|trouble| terminal.trouble(trouble));
            2
        }
    }
}

fn start(arguments: &NewArguments, terminal: &mut Terminal) -> Result<String, Vec<Trouble>> {
    let given = arguments.given();
    let asked_of_somebody = io::stdin().is_terminal();
    if !asked_of_somebody {
        all_given(&given).map_err(|it| vec![it])?;
    }
    let mut desk = Desk::open(arguments.file.as_deref()).map_err(|it| vec![it])?;
    take_given(&given, &mut desk)?;
    if asked_of_somebody {
        let missing = QUESTIONS.iter().zip(given).filter(|(_, given)| given.is_none()).map(|(it, _)| it);
        ask::all(missing, &mut desk, &mut io::stdin().lock(), &mut |text| terminal.note(text))
            .map_err(|it| vec![it])?;
    }
    let made = desk.write().map_err(|it| vec![it])?;
    let left = match made.left {
        0 => String::new(),
        left => format!("{} for you to mend: cotter check {}\n", count(left, "finding"), made.shown),
    };
    let settings = made.settings.map(|it| format!("{it}: written, the house settings\n")).unwrap_or_default();
    Ok(format!(
        "{}: written, with an example in it; put the work of your machine in its place\n{settings}{left}",
        made.shown
    ))
}

fn all_given(given: &[Option<&str>]) -> Result<(), Trouble> {
    let missing = QUESTIONS.iter().zip(given).filter(|(_, given)| given.is_none());
    let flags: Vec<String> = missing.map(|(it, _)| format!("`--{}`", it.flag)).collect();
    if flags.is_empty() {
        return Ok(());
    }
    let message = format!("is no terminal to ask on, and these are not given: {}", flags.join(", "));
    Err(Trouble::new("standard input", message).help("give them, or call `cotter new` on a terminal"))
}

/// All that is wrong with the flags is told at once.
fn take_given(given: &[Option<&str>], desk: &mut Desk) -> Result<(), Vec<Trouble>> {
    let mut troubles = Vec::new();
    for (question, given) in QUESTIONS.iter().zip(given) {
        if let Some(Err(why)) = given.map(|answer| desk.take(question.about, answer)) {
            troubles.push(Trouble::new(format!("--{}", question.flag), why));
        }
    }
    if troubles.is_empty() { Ok(()) } else { Err(troubles) }
}
