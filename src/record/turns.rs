//! The order of the work with the rounds of its repeats: "repeat … for rear-left" sends people through steps again.
use super::plan::Turn;
use crate::model::{Action, Procedure};

/// Every step once, and before a step with a repeat its rounds.
pub fn of(procedure: &Procedure) -> Vec<Turn> {
    let mut turns: Vec<Turn> = Vec::new();
    for step in procedure.steps() {
        for action in &step.actions {
            let Action::Repeat(repeat) = action else { continue };
            let Some(first) = repeat.from.step else { continue };
            let last = repeat.to.as_ref().and_then(|jump| jump.step).unwrap_or(first);
            for place in &repeat.for_each {
                let named = place.value.replace('-', " ");
                let gone = turns.iter().filter(|turn| turn.step == first && turn.named(&named)).count();
                let round = if gone == 0 { named } else { format!("{named} ({})", gone + 1) };
                let again = procedure.steps().map(|it| it.number).filter(|it| (first..=last).contains(it));
                turns.extend(again.map(|number| Turn {
                    step: number,
                    round: round.clone(),
                    at: step.number,
                }));
            }
        }
        turns.push(Turn { step: step.number, round: String::new(), at: step.number });
    }
    turns
}

/// Whether no step comes a second time.
pub fn none_again(turns: &[Turn]) -> bool {
    turns.iter().all(|turn| turn.at == turn.step)
}

impl Turn {
    /// Whether it is a round for that place, be it the first or a later one.
    fn named(&self, place: &str) -> bool {
        self.round.strip_prefix(place).is_some_and(|rest| rest.is_empty() || rest.starts_with(" ("))
    }
}
