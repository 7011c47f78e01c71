//! The questions, and asking them until the answer can be used.
use super::super::plain;
use super::super::trouble::Trouble;
use super::desk::{About, Desk};
use std::io::BufRead;

/// One thing that the author says.
pub(super) struct Question {
    pub about: About,
    pub flag: &'static str,
    pub words: &'static str,
    /// What an empty line means; without it there is no such answer.
    pub usual: Option<&'static str>,
}

const fn question(about: About, flag: &'static str, words: &'static str) -> Question {
    Question { about, flag, words, usual: None }
}

const fn usually(about: About, flag: &'static str, words: &'static str, usual: &'static str) -> Question {
    Question { about, flag, words, usual: Some(usual) }
}

/// In the order in which they are asked.
pub(super) const QUESTIONS: [Question; 9] = [
    question(About::Number, "number", "Number, by which other procedures call this one"),
    question(About::Title, "title", "Title: what is done"),
    question(About::Equipment, "equipment", "Machine"),
    usually(About::Models, "models", "Models it holds for, with commas", "none"),
    question(About::Time, "time", "How long it takes, as 90 min"),
    usually(About::People, "people", "How many people", "1"),
    usually(About::Requires, "requires", "Numbers of procedures that must be done first", "none"),
    usually(About::Afterwards, "afterwards", "Numbers of procedures to do next", "none"),
    question(
        About::Dangers,
        "dangers",
        "What makes the machine dangerous: live, pressurised, hot, raised, or nothing",
    ),
];

/// Asks each question until its answer can be used.
///
/// # Errors
/// Where there is no more input.
pub(super) fn all<'q>(
    questions: impl Iterator<Item = &'q Question>,
    desk: &mut Desk,
    input: &mut dyn BufRead,
    say: &mut dyn FnMut(&str),
) -> Result<(), Trouble> {
    for question in questions {
        loop {
            let usual = question.usual.map(|it| format!(" [{it}]")).unwrap_or_default();
            say(&format!("{}{usual}: ", question.words));
            let line = line(input)?;
            let answer = if line.is_empty() { question.usual.unwrap_or("") } else { &line };
            match desk.take(question.about, answer) {
                Ok(()) => break,
                Err(why) => say(&plain::harmless(&format!("  {why}\n"))),
            }
        }
    }
    Ok(())
}

fn line(input: &mut dyn BufRead) -> Result<String, Trouble> {
    let mut line = String::new();
    let read = input.read_line(&mut line);
    let read = read.map_err(|error| Trouble::new("standard input", format!("cannot be read: {error}")))?;
    if read == 0 {
        return Err(Trouble::new("standard input", "ended before the last question; nothing was written"));
    }
    Ok(line.trim().to_owned())
}
