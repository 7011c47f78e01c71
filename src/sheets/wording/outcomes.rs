//! Which machines and outcomes a step is for, and what follows from what was found.
use super::sentence::{Line, Sentence};
use super::{Cx, action, control, free_text, objects};
use crate::model::action::{Action, Condition};
use crate::model::declarations::Applies;
use crate::model::step::{ChoiceOption, Exception, Outcome, When};

/// "F40S only.", "Serial 300000 and up only."; `None` where it is for all.
pub fn applies(applies: &Applies, cx: &Cx<'_>) -> Option<Sentence> {
    if applies.to_all() {
        return None;
    }
    let mut line = Line::new(cx);
    let words = &line.tongue.outcomes;
    let [before, after] = words.only;
    if !applies.models.is_empty() || applies.serials.is_some() {
        line.text(before);
    }
    for (index, model) in applies.models.iter().enumerate() {
        objects::separate(&mut line, index, applies.models.len(), cx.tongue.and);
        line.text(model.as_str());
    }
    if let Some(serials) = &applies.serials {
        line.text(if applies.models.is_empty() { "" } else { ", " });
        line.text(words.serial);
        line.own(serials.as_str());
    }
    if !line.is_empty() {
        line.text(after);
    }
    if applies.if_fitted.is_some() {
        line.next_sentence();
        line.text(words.only_if);
        line.text(words.fitted);
    }
    Some(line.finish())
}

/// "Only if step 12 failed."
pub fn condition(condition: &Condition, cx: &Cx<'_>) -> Sentence {
    let mut line = Line::new(cx);
    let (before, after) = line.tongue.state(&condition.state);
    line.text(line.tongue.outcomes.only_if);
    line.text(before);
    match condition.step.or_else(|| cx.step_of(condition.label.as_str())) {
        Some(step) => line.step(step),
        None => line.text(line.tongue.control.earlier_step),
    }
    line.text(&after);
    line.finish()
}

/// "If below the limit: stop. Send the shaft for repair."
pub fn outcome(outcome: &Outcome, cx: &Cx<'_>) -> Sentence {
    let mut line = Line::new(cx);
    if outcome.when.iter().all(|when| when.value == When::Otherwise) {
        line.text(line.tongue.outcomes.otherwise);
    } else {
        line.text(line.tongue.outcomes.if_so);
        for (index, it) in outcome.when.iter().enumerate() {
            objects::separate(&mut line, index, outcome.when.len(), cx.tongue.or);
            when(&mut line, &it.value, cx);
        }
        line.text(line.tongue.colon);
    }
    then(&mut line, &outcome.then, cx);
    line.finish()
}

fn when(line: &mut Line, when: &When, cx: &Cx<'_>) {
    let words = &line.tongue.outcomes;
    line.text(match when {
        When::Below => words.below,
        When::Above => words.above,
        When::Outside => words.outside,
        When::NotOk => words.not_ok,
        When::Impossible => words.impossible,
        When::Otherwise => words.anything_else,
        When::Found(found) => return free_text::write(line, found, cx),
    });
}

/// One method of a choice: "Bearing packer: pack the outer cone with hub grease."
pub fn option(option: &ChoiceOption, cx: &Cx<'_>) -> Sentence {
    let mut line = Line::new(cx);
    free_text::write(&mut line, option.name.as_str(), cx);
    line.text(line.tongue.colon);
    then(&mut line, &option.actions, cx);
    line.finish()
}

/// What differs in one round of a repeat: "In place of step 3: …", "For rear left: …".
pub fn exception(exception: &Exception, cx: &Cx<'_>) -> Sentence {
    let mut line = Line::new(cx);
    let places = exception.places.len();
    for (index, place) in exception.places.iter().enumerate() {
        let step = cx.step_of(place.as_str());
        if index == 0 {
            let words = &line.tongue.outcomes;
            line.text(if step.is_some() { words.in_place_of } else { words.in_round });
        }
        objects::separate(&mut line, index, places, cx.tongue.and);
        match step {
            Some(step) => line.step(step),
            None => control::instance(&mut line, place, cx),
        }
    }
    line.text(line.tongue.colon);
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
