//! Later steps that hang on an earlier outcome are followed down every way it can come out.
use super::breach::Way;
use super::state::State;
use crate::model::Procedure;
use crate::model::action::Condition;
use crate::model::step::Outcome;
use std::collections::BTreeMap;

/// Ways that are followed side by side; past that a step that hangs on an outcome is taken to be done.
const MOST: usize = 8;

/// How things stand if earlier findings came out so.
#[derive(Debug, Clone)]
pub(super) struct World {
    pub state: State,
    /// How they came out; an empty word: none of those asked for. Only what later steps still ask for.
    assumed: Vec<Way>,
    /// All of them: what led here.
    trail: Vec<Way>,
}

/// The findings that later steps ask for, by the step that makes them.
#[derive(Debug, Default)]
pub(super) struct Questions {
    by_step: BTreeMap<u32, Question>,
}

/// One such finding.
#[derive(Debug)]
pub(super) struct Question {
    step: u32,
    label: String,
    answers: Vec<String>,
    /// The last step that asks.
    last: u32,
}

impl Questions {
    pub(super) fn of(procedure: &Procedure) -> Questions {
        let mut questions = Questions::default();
        for step in procedure.steps() {
            for condition in &step.conditions {
                let Some(at) = condition.step else { continue };
                let question = questions.by_step.entry(at).or_insert_with(|| Question {
                    step: at,
                    label: condition.label.value.to_string(),
                    answers: Vec::new(),
                    last: step.number,
                });
                question.last = step.number;
                if !question.answers.contains(&condition.state) {
                    question.answers.push(condition.state.clone());
                }
            }
        }
        questions
    }

    /// No step hangs on an earlier outcome.
    pub(super) fn is_empty(&self) -> bool {
        self.by_step.is_empty()
    }

    pub(super) fn asked_at(&self, step: u32) -> Option<&Question> {
        self.by_step.get(&step)
    }

    /// After a step: what nobody asks for any more is forgotten, and what has become alike is one.
    pub(super) fn merged(&self, worlds: Vec<World>, step: u32) -> Vec<World> {
        let mut kept: Vec<World> = Vec::with_capacity(worlds.len());
        for mut world in worlds {
            world
                .assumed
                .retain(|way| self.by_step.get(&way.step).is_some_and(|question| question.last > step));
            let alike = |it: &&mut World| it.assumed == world.assumed && it.state == world.state;
            if let Some(like) = kept.iter_mut().find(alike) {
                // What made no difference led nowhere.
                like.trail.retain(|way| world.trail.contains(way));
            } else if kept.len() < MOST {
                kept.push(world);
            }
        }
        // Where every other way has ended, it goes without saying.
        let everywhere = |way: &Way| kept.iter().all(|world| world.trail.contains(way));
        let common: Vec<Way> = kept
            .first()
            .iter()
            .flat_map(|world| &world.trail)
            .filter(|way| everywhere(way))
            .cloned()
            .collect();
        for world in &mut kept {
            world.trail.retain(|way| !common.contains(way));
        }
        kept
    }
}

impl Question {
    /// Whether the outcome is one of those that are asked for.
    pub(super) fn asks_for(&self, outcome: &Outcome) -> bool {
        let asked = |answer: &String| outcome.when.iter().any(|when| when.value.is(answer));
        // As it should be, or not: every outcome is one of the two.
        self.answers.iter().any(|answer| matches!(answer.as_str(), "ok" | "failed") || asked(answer))
    }

    /// The world once for each way it can come out, with the finding where it is not as it should be.
    pub(super) fn split(&self, world: World) -> Vec<(World, Option<String>)> {
        let whole = ["ok", "failed"].iter().all(|way| self.answers.iter().any(|answer| answer == way));
        let rest = if whole { None } else { Some(String::new()) };
        let ways = self.answers.iter().cloned().chain(rest);
        ways.map(|way| {
            let mut split = world.clone();
            // The other way than `ok` is a failure, and the other way round.
            let asked = |word: &str| self.answers.iter().all(|answer| answer == word);
            let state = match way.as_str() {
                "" if asked("ok") => "failed".to_owned(),
                "" if asked("failed") => "ok".to_owned(),
                _ => way,
            };
            let found = Some(state.clone()).filter(|found| !matches!(found.as_str(), "" | "ok"));
            let way = Way { step: self.step, label: self.label.clone(), state };
            split.assumed.push(way.clone());
            split.trail.push(way);
            (split, found)
        })
        .collect()
    }
}

impl World {
    pub(super) fn at_start(state: State) -> World {
        World { state, assumed: Vec::new(), trail: Vec::new() }
    }

    /// Whether a step with these conditions is done.
    pub(super) fn meets(&self, conditions: &[Condition]) -> bool {
        conditions.iter().all(|condition| {
            let mut mine = self.assumed.iter().filter(|way| condition.step == Some(way.step));
            mine.next().is_none_or(|way| way.state == condition.state)
        })
    }

    /// How earlier findings came out on the way here.
    pub(super) fn ways(&self) -> Vec<Way> {
        self.trail.iter().filter(|way| !way.state.is_empty()).cloned().collect()
    }
}
