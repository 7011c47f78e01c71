//! Sections, steps, and the messages before them.
use super::shape::{self, Branch};
use super::things::applies;
use super::{Maker, text};
use crate::model::document::Section;
use crate::model::in_force::last_step;
use crate::model::message::Message;
use crate::model::{Prose, Step};
use crate::sheets::wording;

impl Maker<'_> {
    pub(super) fn sections(&self) -> Vec<shape::Section> {
        let end = self.sheet.procedure.steps().last().map_or(0, |step| step.number);
        let section = |section: &Section| {
            let last = section.steps.last().map_or(end, |step| step.number);
            shape::Section {
                title: section.title.as_ref().map(text),
                prose_html: section.prose.as_ref().map(|it| self.block(it)),
                time: self.perhaps(section.time.as_ref()),
                steps: section.steps.iter().map(|step| self.step(step, last, end)).collect(),
            }
        };
        self.sheet.procedure.sections.iter().map(section).collect()
    }

    fn step(&self, step: &Step, section_end: u32, end: u32) -> shape::Step {
        let message = |message| self.message(message, last_step(message, step.number, section_end, end));
        let line = |prose: &Option<Prose>| prose.as_ref().map(|it| self.line(it));
        let question = |it: &crate::model::step::Question| shape::Question {
            ask_html: self.line(&it.ask),
            answer_html: line(&it.answer),
        };
        let condition = |it: &crate::model::action::Condition| shape::Condition {
            step: it.step,
            label: text(&it.label),
            state: it.state.clone(),
        };
        shape::Step {
            number: step.number,
            labels: step.labels().map(text).collect(),
            applies: applies(&step.applies),
            conditions: step.conditions.iter().map(condition).collect(),
            messages: step.messages.iter().map(message).collect(),
            actions: self.actions(&step.actions),
            options: self.options(step),
            exceptions: self.exceptions(step),
            outcomes: self.outcomes(step),
            prose_html: step.prose.as_ref().map(|it| self.block(it)),
            people_html: line(&step.people),
            role: step.role.as_ref().map(text),
            figures: step.figures.iter().filter_map(|it| self.name(it.value)).collect(),
            because_html: line(&step.because),
            questions: step.questions.iter().map(question).collect(),
            teach_html: step.teach.iter().map(|it| self.line(it)).collect(),
            record: step.record.as_ref().map(text),
            from: step.from.as_ref().map(text),
            time: self.perhaps(step.time.as_ref()),
        }
    }

    fn options(&self, step: &Step) -> Vec<Branch> {
        let option = |it: &crate::model::step::ChoiceOption| Branch {
            when: vec![text(&it.name)],
            sentence: wording::option(it, &self.sheet.words).plain(),
            actions: self.actions(&it.actions),
        };
        step.options.iter().map(option).collect()
    }

    fn exceptions(&self, step: &Step) -> Vec<Branch> {
        let exception = |it: &crate::model::step::Exception| Branch {
            when: it.places.iter().map(text).collect(),
            sentence: wording::exception(it, &self.sheet.words).plain(),
            actions: self.actions(&it.actions),
        };
        step.exceptions.iter().map(exception).collect()
    }

    fn outcomes(&self, step: &Step) -> Vec<Branch> {
        let outcome = |it: &crate::model::step::Outcome| Branch {
            when: it.when.iter().map(|when| when.value.word().to_owned()).collect(),
            sentence: wording::outcome(it, &self.sheet.words).plain(),
            actions: self.actions(&it.then),
        };
        step.outcomes.iter().map(outcome).collect()
    }

    fn message(&self, message: &Message, until_step: u32) -> shape::Message {
        let line = |prose: &Option<Box<Prose>>| prose.as_ref().map(|it| self.line(it));
        shape::Message {
            signal: message.signal.value.word(),
            hazard: message.hazard.as_ref().map(|it| it.value.name.as_str()),
            until_step,
            hazard_html: line(&message.hazard_text),
            harm_html: line(&message.harm),
            avoid_html: line(&message.avoid),
            wear: message.wear.iter().map(|it| it.value.name.as_str()).collect(),
            first_aid_html: line(&message.first_aid),
            text_html: line(&message.text),
        }
    }
}
