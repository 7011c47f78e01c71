//! `cotter compare`: what changed in meaning between two revisions of a procedure or a catalogue.
use super::revision::Side;
use super::tally::count;
use super::terminal::{Terminal, style};
use super::trouble::Trouble;
use super::{listing, plain};
use crate::compare::{self, Change, Class, Comparison, Issue};
use crate::sheets::changes;
use crate::source::Span;
use anstyle::AnsiColor;
use clap::{Args, ValueEnum};
use serde::Serialize;
use std::path::PathBuf;

#[derive(Debug, Args)]
#[command(
    after_help = "Exit code: 0 the same meaning, 1 changes of meaning, 2 a file or revision could not be had."
)]
pub(super) struct CompareArguments {
    /// A file, or REVISION:PATH of a git repository
    old: PathBuf,
    /// A file, or REVISION:PATH of a git repository
    new: PathBuf,
    /// How the changes are printed
    #[arg(long, value_enum, default_value_t = CompareFormat::Text)]
    format: CompareFormat,
}

#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
enum CompareFormat {
    /// For people
    Text,
    /// One JSON object for programs
    Json,
    /// A page to read, to print and to sign
    Html,
}

/// Prints the changes: 0 where the meaning is the same, 1 where it is not.
pub fn run(arguments: &CompareArguments, terminal: &mut Terminal) -> u8 {
    match answer(arguments) {
        Ok((text, differs)) => {
            terminal.print(&text);
            u8::from(differs)
        }
        Err(trouble) => {
            terminal.trouble(&trouble);
            2
        }
    }
}

fn answer(arguments: &CompareArguments) -> Result<(String, bool), Trouble> {
    let (old, new) = (Side::open(&arguments.old)?, Side::open(&arguments.new)?);
    let found = compare::compare(&old.document, &new.document);
    let sides = Sides { old: &old, new: &new };
    let text = match arguments.format {
        CompareFormat::Text => sides.text(&found),
        CompareFormat::Json => sides.json(&found),
        CompareFormat::Html => {
            let names = changes::Names { old: &old.asked, new: &new.asked, notes: &sides.notes(&found) };
            changes::render(&found, &names, &listing::context(new.workspace()))
                .map_err(|error| Trouble::new(&new.asked, error.to_string()))?
        }
    };
    Ok((text, found.meant().next().is_some()))
}

struct Sides<'a> {
    old: &'a Side,
    new: &'a Side,
}

#[derive(Serialize)]
struct Answer<'a> {
    version: u32,
    old: JsonIssue<'a>,
    new: JsonIssue<'a>,
    changes: Vec<JsonChange<'a>>,
    notes: Vec<String>,
    summary: Summary,
}

#[derive(Serialize)]
struct JsonIssue<'a> {
    file: &'a str,
    number: &'a str,
    title: &'a str,
    revision: &'a str,
}

#[derive(Serialize)]
struct JsonChange<'a> {
    kind: compare::Kind,
    how: compare::How,
    class: Class,
    sign_off: bool,
    subject: &'a str,
    aspect: &'a str,
    before: &'a str,
    after: &'a str,
    old: Option<JsonPlace>,
    new: Option<JsonPlace>,
    old_step: Option<u32>,
    new_step: Option<u32>,
    /// Further steps where the same changed.
    also_steps: Vec<u32>,
}

/// Line and column from 1.
#[derive(Serialize)]
struct JsonPlace {
    file: String,
    line: usize,
    column: usize,
}

#[derive(Serialize)]
struct Summary {
    meaning: usize,
    sign_off: usize,
    words: usize,
}

impl Sides<'_> {
    fn json(&self, found: &Comparison) -> String {
        let answer = Answer {
            version: 1,
            old: issue(self.old, &found.old),
            new: issue(self.new, &found.new),
            changes: found.changes.iter().map(|it| self.json_change(it)).collect(),
            notes: self.notes(found),
            summary: Summary {
                meaning: found.meant().count(),
                sign_off: found.to_sign().count(),
                words: found.reworded().count(),
            },
        };
        serde_json::to_string_pretty(&answer).unwrap_or_default() + "\n"
    }

    fn json_change<'c>(&self, change: &'c Change) -> JsonChange<'c> {
        let place = |side: &Side, span: Option<Span>| {
            let (file, line, column) = side.place(span?);
            Some(JsonPlace { file, line, column })
        };
        JsonChange {
            kind: change.kind,
            how: change.how,
            class: change.class(),
            sign_off: change.sign_off,
            subject: &change.subject,
            aspect: &change.aspect,
            before: &change.before,
            after: &change.after,
            old: place(self.old, change.place_before),
            new: place(self.new, change.place_after),
            old_step: change.step_before,
            new_step: change.step_after,
            also_steps: change.also.iter().map(|it| it.0).collect(),
        }
    }

    fn text(&self, found: &Comparison) -> String {
        let mut out = String::new();
        found.meant().chain(found.reworded()).for_each(|change| self.line(&mut out, change));
        for note in self.notes(found) {
            out.push_str(&format!("note: {}\n", plain::harmless(&note)));
        }
        out + &plain::harmless(&summary(found)) + "\n"
    }

    /// Two lines: the place and what changed; what it is of.
    fn line(&self, out: &mut String, change: &Change) {
        let place = match (change.place_after, change.place_before) {
            (Some(span), _) => Some(self.new.place(span)),
            (None, Some(span)) => Some(self.old.place(span)),
            (None, None) => None,
        };
        let place = place.map(|(file, line, _)| format!("{file}:{line}: ")).unwrap_or_default();
        let (red, yellow) = (style(AnsiColor::Red), style(AnsiColor::Yellow));
        let weight = match (change.sign_off, change.class()) {
            (true, _) => format!("{red}to sign{red:#}: "),
            (false, Class::Meaning) => format!("{yellow}changed{yellow:#}: "),
            (false, Class::Words) => "words only: ".to_owned(),
        };
        let told = plain::harmless(&change.told());
        out.push_str(&format!("{}{weight}{told}\n", plain::harmless(&place)));
        let mut of = match change.step_after.map(|it| (it, "")).or(change.step_before.map(|it| (it, "old ")))
        {
            Some((step, old)) => format!("{old}step {step}: {}", change.subject),
            None => change.subject.clone(),
        };
        if !change.also.is_empty() {
            let more = change.also.iter().map(|it| it.0.to_string()).collect::<Vec<_>>().join(", ");
            of.push_str(&format!("; the same at step {more}"));
        }
        out.push_str(&format!("  {}\n", plain::harmless(&of)));
    }

    /// What the reader must know of how far the comparison goes, and of what it cannot weigh.
    fn notes(&self, found: &Comparison) -> Vec<String> {
        let unclear = [self.old, self.new].into_iter().filter(|side| side.unclear);
        let mut notes: Vec<String> = unclear
            .map(|side| {
                format!(
                    "{}: some of it cannot be made sense of, and is not compared; `cotter check` tells what",
                    side.asked
                )
            })
            .collect();
        if let Some(revision) = found.kept_revision() {
            notes.push(format!(
                "both are revision {revision}, and mean different things: give the new one a revision of its own"
            ));
        }
        if found.reworded().any(|change| change.kind == compare::Kind::Wording) {
            notes.push(
                "words alone are not weighed: read whether what is marked words only still says the same"
                    .to_owned(),
            );
        }
        notes
    }
}

fn issue<'a>(side: &'a Side, issue: &'a Issue) -> JsonIssue<'a> {
    let Issue { number, title, revision } = issue;
    JsonIssue { file: &side.asked, number, title, revision }
}

/// `FW-PMP-014, C to D: 3 changes of meaning, 1 to sign; 2 in words only`.
fn summary(found: &Comparison) -> String {
    let (meant, sign, words) = (found.meant().count(), found.to_sign().count(), found.reworded().count());
    let name = if found.new.number.is_empty() { &found.new.title } else { &found.new.number };
    let (from, to) = (&found.old.revision, &found.new.revision);
    let revisions = if from == to { String::new() } else { format!(", {from} to {to}") };
    let meaning = match (meant, sign) {
        (0, _) => "the same meaning".to_owned(),
        (meant, 0) => count(meant, "change of meaning"),
        (meant, sign) => format!("{}, {sign} to sign", count(meant, "change of meaning")),
    };
    let words = if words == 0 { String::new() } else { format!("; {words} in words only") };
    format!("{name}{revisions}: {meaning}{words}")
}
