//! `cotter import-text`: a first rough source from a plain list of steps.
use super::tally::count;
use super::terminal::Terminal;
use super::trouble::Trouble;
use super::{files, plain};
use crate::import::{self, ImportError, Imported};
use clap::Args;
use std::io::Read;
use std::path::{Path, PathBuf};

#[derive(Debug, Args)]
pub(super) struct ImportArguments {
    /// A text with numbered lines, or a Markdown list; `-` reads standard input
    file: PathBuf,
    /// The number of the procedure
    #[arg(long, value_name = "NUMBER", default_value = "DRAFT-1", value_parser = number)]
    number: String,
    /// Where to write the source, which must not be there yet [default: standard output]
    #[arg(short, long, value_name = "FILE")]
    output: Option<PathBuf>,
}

/// A list of steps is never longer.
const LARGEST: u64 = 1024 * 1024;

fn number(text: &str) -> Result<String, String> {
    let fits = text.starts_with(|c: char| c.is_ascii_alphanumeric())
        && text.chars().all(|c| c.is_ascii_alphanumeric() || matches!(c, '-' | '_' | '.'));
    if fits {
        Ok(text.to_owned())
    } else {
        Err("letters, digits, `-`, `_` and `.` can stand in it".to_owned())
    }
}

/// Writes the source, and tells on standard error what it did not understand; 2 where there is no list.
pub fn run(arguments: &ImportArguments, terminal: &mut Terminal) -> u8 {
    let made = read(&arguments.file).and_then(|text| {
        let imported =
            import::import(&text, &arguments.number).map_err(|error| refused(&arguments.file, error))?;
        if let Some(path) = &arguments.output {
            files::create(path, &path.to_string_lossy(), &imported.source)?;
        }
        Ok(imported)
    });
    match made {
        Ok(imported) => {
            if arguments.output.is_none() {
                terminal.print(&imported.source);
            }
            terminal.note(&told(&imported));
            0
        }
        Err(trouble) => {
            terminal.trouble(&trouble);
            2
        }
    }
}

fn read(path: &Path) -> Result<String, Trouble> {
    let (shown, mend) = (path.to_string_lossy().into_owned(), "give one procedure's list at a time");
    let bytes = if path == Path::new("-") {
        let mut bytes = Vec::new();
        let read = std::io::stdin().take(LARGEST + 1).read_to_end(&mut bytes);
        read.map_err(|error| Trouble::new("standard input", format!("cannot be read: {error}")))?;
        if bytes.len() as u64 > LARGEST {
            return Err(Trouble::new("standard input", "is larger than 1 MiB").help(mend));
        }
        bytes
    } else {
        files::read_bytes(path, &shown, LARGEST, mend)?
    };
    let shown = if shown == "-" { "standard input".to_owned() } else { shown };
    let no_text = || Trouble::new(shown, "is no text in UTF-8").help("save the list as plain text, in UTF-8");
    if bytes.contains(&0) {
        return Err(no_text());
    }
    String::from_utf8(bytes).map_err(|_| no_text())
}

fn refused(path: &Path, error: ImportError) -> Trouble {
    let message = match error {
        ImportError::Empty => "is empty",
        ImportError::NoSteps => "holds no list: no line begins with a number or a dash",
    };
    Trouble::new(path.to_string_lossy(), message)
        .help("write each step on a line of its own: `1. Remove the cover.`")
}

/// `12 of 30 lines became typed steps; 3 values were left in words: …`.
fn told(imported: &Imported) -> String {
    let Imported {
        lines,
        typed,
        left_in_words,
        without_class,
        notes,
        signals_in_words,
        steps_in_messages,
        ..
    } = imported;
    let mut out = format!("{typed} of {} became typed steps", count(*lines, "line"));
    if !left_in_words.is_empty() {
        let values = count(left_in_words.len(), "value");
        let were = if left_in_words.len() == 1 { "was" } else { "were" };
        out.push_str(&format!("; {values} {were} left in words: {}", left_in_words.join(", ")));
    }
    if *without_class > 0 {
        out.push_str(&format!("; {} without a hazard class", count(*without_class, "warning")));
    }
    if *notes > 0 {
        let became = if *notes == 1 { "became a note" } else { "became notes" };
        out.push_str(&format!("; {} {became}: see whether they are steps", count(*notes, "paragraph")));
    }
    if *steps_in_messages > 0 {
        let steps = count(*steps_in_messages, "sentence");
        out.push_str(&format!("; {steps} of safety messages may be steps: each is marked"));
    }
    if *signals_in_words > 0 {
        let signals = count(*signals_in_words, "signal");
        out.push_str(&format!("; {signals} left in words: make messages of them"));
    }
    out.push_str("\nIt is a draft: read every line against its source before anybody works from it.\n");
    plain::harmless(&out)
}
