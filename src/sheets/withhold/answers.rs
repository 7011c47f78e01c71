//! What the blanks stand for: every withheld value of a step has its line.
use super::values::actions;
use super::{Withhold, has_figures};
use crate::model::Step;
use crate::model::action::{Action, Work};
use crate::sheets::wording::{self, Sentence};
use crate::sheets::{Sheet, blanks, html, torques};

/// One withheld value: of what, and its lines.
pub struct Answer {
    pub what: String,
    pub values: Vec<String>,
}

/// What is withheld of a step.
pub fn answers(sheet: &Sheet<'_>, step: &Step, withhold: Withhold) -> Vec<Answer> {
    let blanks = blanks::of(sheet, step).into_iter();
    let withheld = blanks.filter(|it| withhold.hides_blank(it.kind) && !it.limits.is_empty());
    let mut answers: Vec<Answer> =
        withheld.map(|it| Answer { what: it.subject, values: it.limits }).collect();
    if withhold.torque {
        let works = step.actions.iter().filter_map(Action::work);
        answers.extend(works.flat_map(|work| unwritten(sheet, work)));
    }
    for action in actions(step) {
        let sentence = wording::action(action, &sheet.words);
        let mut values = Vec::new();
        hidden(&mut values, &sentence, withhold);
        values.retain(|value| !answers.iter().flat_map(|it| &it.values).any(|known| known.contains(value)));
        if !values.is_empty() {
            answers.push(Answer { what: what(sheet, action), values });
        }
    }
    answers
}

/// Tightenings that nobody writes down what the wrench was set to: by angle or feel, or only tried.
fn unwritten(sheet: &Sheet<'_>, work: &Work) -> Vec<Answer> {
    let all = sheet.tightenings_of(work).filter(|it| !(it.torque.has_value() && work.verb.tightens()));
    let answer = |it| {
        let set = torques::set_to(sheet, it).into_iter();
        let set = set.map(|set| sheet.say("wrench-at", &[("torque", set.into())]));
        let values = torques::values(sheet, &it.torque).into_iter().chain(set);
        Answer { what: torques::fastener(sheet, it), values: values.filter(|it| has_figures(it)).collect() }
    };
    all.map(answer).filter(|answer| !answer.values.is_empty()).collect()
}

/// The withheld stretches of a sentence and of the list below it, each once.
fn hidden(found: &mut Vec<String>, sentence: &Sentence, withhold: Withhold) {
    for (_, text) in sentence.runs().filter(|(run, _)| withhold.hides(*run)) {
        if !found.iter().any(|it| it == text) {
            found.push(text.to_owned());
        }
    }
    sentence.list.iter().for_each(|item| hidden(found, item, withhold));
}

fn what(sheet: &Sheet<'_>, action: &Action) -> String {
    match action {
        Action::Work(work) => {
            let things = work.objects.iter().filter_map(|object| sheet.declarations.thing(object.name?));
            let things = things.map(|thing| thing.text.as_str()).collect::<Vec<_>>().join("; ");
            let said = work.what.as_ref().filter(|_| !work.verb.tightens());
            match said {
                Some(said) => html::sentence_case(said.as_str()),
                None if things.is_empty() => html::sentence_case(&work.verb.name),
                None => things,
            }
        }
        Action::Calculate(calculate) => html::sentence_case(&calculate.name.value.replace('-', " ")),
        _ => String::new(),
    }
}
