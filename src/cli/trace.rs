//! `cotter trace`: what becomes of one part, step by step, for each group of models.
use super::terminal::Terminal;
use super::trouble::Trouble;
use super::{Format, one, run};
use crate::ledger::{self, Life, Models};
use crate::model::{Document, Name, Procedure};
use crate::source::SourceFile;
use crate::{Compiled, compile};
use clap::Args;
use serde::Serialize;
use std::path::PathBuf;

#[derive(Debug, Args)]
pub(super) struct TraceArguments {
    /// The procedure
    file: PathBuf,
    /// A part, by the name that it is declared by
    part: String,
    /// How the answer is printed
    #[arg(long, value_enum, default_value_t = Format::Text)]
    format: Format,
}

/// The answer for programs.
#[derive(Debug, Serialize)]
struct Answer<'a> {
    version: u32,
    part: &'a str,
    text: &'a str,
    lives: Vec<JsonLife<'a>>,
}

#[derive(Debug, Serialize)]
struct JsonLife<'a> {
    /// Empty: all of them.
    models: Vec<&'a str>,
    events: Vec<JsonEvent>,
}

/// `line` from 1; `statement` is the step's own line as written.
#[derive(Debug, Serialize)]
struct JsonEvent {
    step: u32,
    line: usize,
    statement: String,
    state: Vec<&'static str>,
    open: Vec<&'static str>,
    only_if: Option<String>,
}

/// Prints the life of the part; 2 where there is no such part or file.
pub fn run(arguments: &TraceArguments, terminal: &mut Terminal) -> u8 {
    match answer(arguments) {
        Ok(text) => {
            terminal.print(&text);
            0
        }
        Err(trouble) => {
            terminal.trouble(&trouble);
            2
        }
    }
}

fn answer(arguments: &TraceArguments) -> Result<String, Trouble> {
    let shown = arguments.file.display().to_string();
    let one::One { selection, id } = one::open(&arguments.file)?;
    let source = run::source(&selection.workspace, id)?;
    let Compiled { document, .. } = compile(&source, &run::surroundings(&selection.workspace));
    let Some(procedure) = document.procedure() else {
        return Err(Trouble::new(shown, "this is no procedure: only its steps give a part a life"));
    };
    let Some(Name::Part(part)) = document.declarations.find(&arguments.part) else {
        let message = format!("no part is declared by the name `{}`", arguments.part);
        return Err(Trouble::new(shown, message).help(suggestion(&document, &arguments.part)));
    };
    let lives = ledger::trace(&document, &selection.workspace.register, part);
    let declared = document.declarations.thing(Name::Part(part));
    let (name, text) = declared.map_or(("", ""), |thing| (thing.name.as_str(), thing.text.as_str()));
    let lives = lives.iter().map(|life| of(life, procedure, &source)).collect();
    let answer = Answer { version: 1, part: name, text, lives };
    Ok(match arguments.format {
        Format::Json => serde_json::to_string(&answer).unwrap_or_default() + "\n",
        Format::Text => drawn(&answer),
    })
}

fn suggestion(document: &Document, word: &str) -> String {
    let names = document.declarations.parts.iter().map(|part| part.thing.name.as_str());
    let near = names.min_by_key(|name| strsim::osa_distance(name, word));
    near.map_or("the procedure declares no part".to_owned(), |near| format!("did you mean `{near}`?"))
}

fn of<'a>(life: &Life, procedure: &'a Procedure, source: &SourceFile) -> JsonLife<'a> {
    let all = procedure.header.models.as_deref().unwrap_or(&[]);
    let models = match &life.models {
        Models::All => Vec::new(),
        Models::Some(some) => {
            some.iter().filter_map(|at| all.get(*at as usize)).map(|it| it.as_str()).collect()
        }
    };
    let steps = procedure.steps().map(|step| (step.number, step.span));
    let mut steps = steps.peekable();
    let events = life.events.iter().filter_map(|event| {
        while steps.peek().is_some_and(|(number, _)| *number < event.step) {
            steps.next();
        }
        let (_, span) = *steps.peek()?;
        let words = source.slice(span).split_whitespace().collect::<Vec<_>>();
        Some(JsonEvent {
            step: event.step,
            line: source.line_column(span.start).0,
            statement: words.join(" "),
            state: event.state.clone(),
            open: event.open.clone(),
            only_if: event.only_if.clone(),
        })
    });
    JsonLife { models, events: events.collect() }
}

fn drawn(answer: &Answer<'_>) -> String {
    let mut out = String::new();
    for life in &answer.lives {
        let models =
            if life.models.is_empty() { String::new() } else { format!(", on {}", life.models.join(", ")) };
        out.push_str(&format!("{} \"{}\"{models}\n", answer.part, answer.text));
        if life.events.is_empty() {
            out.push_str("  no step touches it\n");
        }
        for event in &life.events {
            let only = event.only_if.as_ref().map_or(String::new(), |told| format!(" (if {told})"));
            out.push_str(&format!("  {:>3}  line {}: {}{only}\n", event.step, event.line, event.statement));
            let open =
                if event.open.is_empty() { String::new() } else { format!("; {}", event.open.join(", ")) };
            out.push_str(&format!("       {}{open}\n", event.state.join(", ")));
        }
    }
    out
}
