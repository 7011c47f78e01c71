//! Which machines and outcomes a step is for, and what follows from what was found.
use super::sentence::{Line, Sentence};
use super::{Cx, action, control, english, free_text};
use crate::model::action::{Action, Condition};
use crate::model::declarations::Applies;
use crate::model::step::{ChoiceOption, Exception, Outcome, When};

/// "F40S only.", "Serial 300000 and up only."; `None` where it is for all.
pub fn applies(applies: &Applies) -> Option<Sentence> {
    if applies.to_all() {
        return None;
    }
    let mut line = Line::new();
    let models: Vec<&str> = applies.models.iter().map(|model| model.as_str()).collect();
    line.text(&control::joined(&models, english::AND));
    if let Some(serials) = &applies.serials {
        line.text(if line.is_empty() { "" } else { english::COMMA });
        line.text(&english::serials(serials.as_str()));
    }
    if !line.is_empty() {
        line.text(english::ONLY);
    }
    if applies.if_fitted.is_some() {
        line.next_sentence();
        line.text(english::ONLY_IF);
        line.text(english::FITTED);
    }
    Some(line.finish())
}

/// "Only if step 12 failed."
pub fn condition(condition: &Condition, cx: &Cx<'_>) -> Sentence {
    let (before, after) = english::state(&condition.state);
    let mut line = Line::new();
    line.text(english::ONLY_IF);
    line.text(before);
    match condition.step.or_else(|| cx.step_of(condition.label.as_str())) {
        Some(step) => line.step(step),
        None => line.text(english::EARLIER_STEP),
    }
    line.text(&after);
    line.finish()
}

/// "If below the limit: stop. Send the shaft for repair."
pub fn outcome(outcome: &Outcome, cx: &Cx<'_>) -> Sentence {
    let mut line = Line::new();
    if outcome.when.iter().all(|when| when.value == When::Otherwise) {
        line.text(english::OTHERWISE);
    } else {
        let when: Vec<&str> = outcome.when.iter().map(|when| when_words(&when.value)).collect();
        line.text(english::IF);
        free_text::write(&mut line, &control::joined(&when, english::OR), cx);
        line.text(english::COLON);
    }
    then(&mut line, &outcome.then, cx);
    line.finish()
}

fn when_words(when: &When) -> &str {
    match when {
        When::Below => english::BELOW,
        When::Above => english::ABOVE,
        When::Outside => english::OUTSIDE,
        When::NotOk => english::NOT_OK,
        When::Impossible => english::IMPOSSIBLE,
        When::Otherwise => english::OTHERWISE_FOUND,
        When::Found(words) => words,
    }
}

/// One method of a choice: "Bearing packer: pack the outer cone with hub grease."
pub fn option(option: &ChoiceOption, cx: &Cx<'_>) -> Sentence {
    let mut line = Line::new();
    free_text::write(&mut line, option.name.as_str(), cx);
    line.text(english::COLON);
    then(&mut line, &option.actions, cx);
    line.finish()
}

/// What differs in one round of a repeat: "In place of step 3: …", "For rear left: …".
pub fn exception(exception: &Exception, cx: &Cx<'_>) -> Sentence {
    let mut line = Line::new();
    let places = exception.places.len();
    for (index, place) in exception.places.iter().enumerate() {
        let step = cx.step_of(place.as_str());
        if index == 0 {
            line.text(if step.is_some() { english::IN_PLACE_OF } else { english::FOR_EACH });
        }
        super::objects::separate(&mut line, index, places, english::AND);
        match step {
            Some(step) => line.step(step),
            None => control::instance(&mut line, place, cx),
        }
    }
    line.text(english::COLON);
    then(&mut line, &exception.actions, cx);
    line.finish()
}

/// The first action goes on after the colon, the others follow as sentences.
fn then(line: &mut Line, actions: &[Action], cx: &Cx<'_>) {
    for (index, it) in actions.iter().enumerate() {
        if index > 0 {
            line.next_sentence();
        }
        let sentence = action(it, cx);
        line.append(if index == 0 && !has_own_sentence(it) { sentence.lowered() } else { sentence });
    }
}

fn has_own_sentence(action: &Action) -> bool {
    action.work().is_some_and(|work| work.sentence.is_some())
}
