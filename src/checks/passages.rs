//! Every piece of free text that is read at the bench, with the way back to its place in the file.
use super::every_action;
use crate::model::action::{Action, Work};
use crate::model::message::{Message, Signal};
use crate::model::{Body, Document, Prose, Step};
use crate::source::{SourceFile, Span, Text};

/// One piece of text.
#[derive(Debug, Clone, Copy)]
pub struct Passage<'a> {
    pub kind: Kind,
    pub text: &'a str,
    place: Place<'a>,
}

/// What a piece of text is for.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Kind {
    /// Prose under a step, or a step's own sentence: says what to do.
    Instruction,
    /// What is looked at, until when, while what; what a signer states; why to stop.
    Particular,
    /// Words of a safety message.
    Message,
    /// Words of a note.
    Note,
}

#[derive(Debug, Clone, Copy)]
enum Place<'a> {
    Prose(&'a Prose),
    Quoted(&'a Text),
}

impl Passage<'_> {
    /// The place in the file of the bytes `start..end` of the text; all of it where an escape stands between.
    pub fn span(&self, source: &SourceFile, start: usize, end: usize) -> Span {
        match self.place {
            Place::Prose(prose) => prose.span_of(start, end),
            Place::Quoted(text) => match source.slice(text.span).find(text.as_str()) {
                Some(at) => {
                    let from = text.span.start as usize + at;
                    Span::new(text.span.file, from + start, from + end)
                }
                None => text.span,
            },
        }
    }
}

/// Shows `visit` every passage of the file itself, in order; words called from a catalogue are left to that file.
pub fn each<'a>(document: &'a Document, visit: &mut impl FnMut(Passage<'a>)) {
    match &document.body {
        Body::Procedure(procedure) => {
            for section in &procedure.sections {
                for step in &section.steps {
                    step.messages.iter().for_each(|message| of_message(message, visit));
                    of_step(step, visit);
                }
                section.stranded.iter().for_each(|message| of_message(message, visit));
            }
        }
        Body::Catalogue { .. } => {
            let own = document.declarations.messages.iter().filter(|m| m.span.file == document.file);
            own.for_each(|message| of_message(message, visit));
        }
        Body::Unknown => {}
    }
}

/// The passages of one message; none where it only calls a standing one.
pub fn of_message<'a>(message: &'a Message, visit: &mut impl FnMut(Passage<'a>)) {
    if message.standing.is_some() {
        return;
    }
    let kind = if message.signal.value == Signal::Note { Kind::Note } else { Kind::Message };
    let texts = [&message.hazard_text, &message.harm, &message.avoid, &message.first_aid, &message.text];
    texts.into_iter().flatten().for_each(|prose| visit(written(kind, prose)));
}

fn of_step<'a>(step: &'a Step, visit: &mut impl FnMut(Passage<'a>)) {
    every_action::of_step(step).for_each(|action| of_action(action, visit));
    // Under a line that could not be made sense of, the prose may be anything.
    if let Some(prose) = step.prose.as_ref().filter(|_| !step.actions.is_empty()) {
        visit(written(Kind::Instruction, prose));
    }
}

fn of_action<'a>(action: &'a Action, visit: &mut impl FnMut(Passage<'a>)) {
    let particular = match action {
        Action::Work(work) => return of_work(work, visit),
        Action::Hold { statement, .. } => statement.as_ref(),
        Action::Wait { until, .. } => until.as_ref(),
        Action::Repeat(repeat) => repeat.until.as_ref(),
        Action::Choose { question, .. } => Some(question),
        Action::Stop { why, .. } => why.as_ref(),
        Action::Report { what, .. } => what.as_ref(),
        Action::Follow { .. } | Action::Calculate(_) | Action::Skip { .. } => None,
    };
    particular.into_iter().for_each(|text| visit(quoted(Kind::Particular, text)));
}

fn of_work<'a>(work: &'a Work, visit: &mut impl FnMut(Passage<'a>)) {
    let particulars = [&work.what, &work.facing, &work.until, &work.during];
    particulars.into_iter().flatten().for_each(|text| visit(quoted(Kind::Particular, text)));
    if let Some(sentence) = &work.sentence {
        visit(quoted(Kind::Instruction, sentence));
    }
}

fn written(kind: Kind, prose: &Prose) -> Passage<'_> {
    Passage { kind, text: &prose.source, place: Place::Prose(prose) }
}

fn quoted(kind: Kind, text: &Text) -> Passage<'_> {
    Passage { kind, text: text.as_str(), place: Place::Quoted(text) }
}
