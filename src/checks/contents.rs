//! What the rules of the craft look at, gathered in one walk: the work, and every piece of free text that is read
//! at the bench.
use super::passages::{Kind, Passage};
use crate::model::action::{Action, Follow, Work};
use crate::model::message::{Message, Signal};
use crate::model::{Body, Document, Procedure, Step};
use crate::source::Text;

/// Of one document, in order.
#[derive(Debug, Default)]
pub struct Contents<'a> {
    /// Every action that is work of a verb.
    pub works: Vec<&'a Work>,
    /// Text of the file itself; words called from a catalogue are left to that file.
    pub passages: Vec<Passage<'a>>,
    /// Steps whose own line finds something out or works it out.
    pub finders: Vec<&'a Step>,
    /// Where the work goes back or on, and where it is signed for, with the step.
    pub steering: Vec<(&'a Step, &'a Action)>,
    /// Steps that have any of what few have: messages, questions, reasons and the like.
    pub detailed: Vec<&'a Step>,
    /// Calls of other procedures.
    pub follows: Vec<&'a Follow>,
}

impl<'a> Contents<'a> {
    pub fn of(document: &'a Document) -> Contents<'a> {
        let mut contents = Contents::default();
        match &document.body {
            Body::Procedure(procedure) => {
                // Room for nearly every file's: growing would need half as much again for a while.
                let steps = procedure.steps().count();
                contents.works.reserve_exact(steps * 3 / 2);
                contents.passages.reserve_exact(steps * 3 / 2);
                contents.procedure(procedure);
            }
            Body::Catalogue { .. } => {
                let own = document.declarations.messages.iter().filter(|m| m.span.file == document.file);
                own.for_each(|message| contents.message(message));
            }
            Body::Unknown => {}
        }
        contents
    }

    fn procedure(&mut self, procedure: &'a Procedure) {
        for section in &procedure.sections {
            for step in &section.steps {
                step.messages.iter().for_each(|message| self.message(message));
                self.step(step);
            }
            section.stranded.iter().for_each(|message| self.message(message));
        }
    }

    /// None where it only calls a standing one.
    fn message(&mut self, message: &'a Message) {
        if message.standing.is_some() {
            return;
        }
        let kind = if message.signal.value == Signal::Note { Kind::Note } else { Kind::Message };
        let texts = [&message.hazard_text, &message.harm, &message.avoid, &message.first_aid, &message.text];
        for prose in texts.into_iter().flatten() {
            self.passages.push(Passage::Prose(kind, prose));
        }
    }

    fn step(&mut self, step: &'a Step) {
        if step.details.has_any() {
            self.detailed.push(step);
        }
        step.actions.iter().for_each(|action| self.of_step(step, action));
        if step.has_branches() {
            step.actions_behind().for_each(|action| self.of_step(step, action));
        }
        if step.actions.iter().any(finds) {
            self.finders.push(step);
        }
        // Under a line that could not be made sense of, the prose may be anything.
        if let Some(prose) = step.prose.as_ref().filter(|_| !step.actions.is_empty()) {
            self.passages.push(Passage::Prose(Kind::Instruction, prose));
        }
    }

    fn of_step(&mut self, step: &'a Step, action: &'a Action) {
        if let Action::Repeat(_) | Action::Skip(_) | Action::Hold(_) = action {
            self.steering.push((step, action));
        }
        self.action(action);
    }

    fn action(&mut self, action: &'a Action) {
        let particular = match action {
            Action::Work(work) => return self.work(work),
            Action::Hold(hold) => hold.statement.as_ref(),
            Action::Wait(wait) => wait.until.as_ref(),
            Action::Repeat(repeat) => repeat.until.as_ref(),
            Action::Choose(choose) => Some(&choose.question),
            Action::Stop(stop) => stop.why.as_ref(),
            Action::Report(report) => report.what.as_ref(),
            Action::Follow(follow) => return self.follows.push(follow),
            Action::Calculate(_) | Action::Skip(_) => None,
        };
        self.quoted(Kind::Particular, particular);
    }

    fn work(&mut self, work: &'a Work) {
        self.works.push(work);
        for particular in
            [work.what.as_deref(), work.facing.as_ref(), work.until.as_ref(), work.during.as_ref()]
        {
            self.quoted(Kind::Particular, particular);
        }
        self.quoted(Kind::Instruction, work.sentence.as_ref());
    }

    fn quoted(&mut self, kind: Kind, text: Option<&'a Text>) {
        if let Some(text) = text {
            self.passages.push(Passage::Quoted(kind, text));
        }
    }
}

fn finds(action: &Action) -> bool {
    match action {
        Action::Work(work) => work.verb.finds,
        Action::Calculate(_) => true,
        _ => false,
    }
}
