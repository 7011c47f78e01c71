//! The one place where pages ask for sentences.
use super::{Sheet, html};
use crate::model::step::{Outcome, When};
use crate::model::{Action, Step};

/// Each sentence of a step, as markup.
pub fn step(_sheet: &Sheet<'_>, step: &Step) -> Vec<String> {
    step.actions.iter().map(|a| action(_sheet, a)).collect()
}

/// One action's sentence, as markup.
pub fn action(sheet: &Sheet<'_>, action: &Action) -> String {
    let Action::Work(work) = action else {
        return html::escaped(&format!("{action:?}").chars().take(30).collect::<String>());
    };
    let mut out = String::new();
    if let Some(own) = &work.sentence {
        html::escape(&mut out, &own.value);
        return out;
    }
    let verb = &work.verb.name;
    out.push_str(&verb.chars().take(1).flat_map(char::to_uppercase).collect::<String>());
    out.push_str(verb.get(1..).unwrap_or(""));
    for object in &work.objects {
        out.push_str(" the ");
        let noun = object.name.and_then(|n| sheet.declarations.noun(n));
        html::escape(&mut out, noun.map_or(object.word.value.as_str(), |n| n.plural.as_str()));
    }
    if let Some(quantity) = &work.quantity {
        html::element(&mut out, "b", "value", &sheet.quantity(quantity));
    }
    out.push('.');
    out
}

/// "If cracked or holes elongated", the condition of an outcome.
pub fn when(outcome: &Outcome) -> String {
    let words: Vec<&str> = outcome
        .when
        .iter()
        .map(|when| match &when.value {
            When::Below => "below the limit",
            When::Above => "above the limit",
            When::Outside => "outside the limits",
            When::NotOk => "not so",
            When::Impossible => "it cannot be done",
            When::Otherwise => "",
            When::Found(text) => text.as_str(),
        })
        .collect();
    if words == [""] { "Otherwise".to_owned() } else { format!("If {}", words.join(" or ")) }
}

/// "Only if step 12 failed."
pub fn condition(condition: &crate::model::action::Condition) -> String {
    match condition.step {
        Some(step) => format!("Only if step {step}: {}", html::escaped(&condition.state)),
        None => html::escaped(&condition.state),
    }
}
