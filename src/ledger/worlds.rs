//! Later steps that hang on an earlier outcome are followed down every way it can come out.
use super::state::State;
use crate::model::Procedure;
use crate::model::action::Condition;
use std::collections::BTreeMap;

/// Ways that are followed side by side; past that a step that hangs on an outcome is taken to be done.
const MOST: usize = 8;

/// How things stand if earlier findings came out so.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct World {
    pub state: State,
    /// Number of the step that found it out, its label, and how it came out; an empty word: none of those asked for.
    assumed: Vec<(u32, String, String)>,
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
        if worlds.len() < 2 {
            return worlds;
        }
        let mut kept: Vec<World> = Vec::with_capacity(worlds.len());
        for mut world in worlds {
            world
                .assumed
                .retain(|(at, ..)| self.by_step.get(at).is_some_and(|question| question.last > step));
            if kept.len() < MOST && !kept.contains(&world) {
                kept.push(world);
            }
        }
        kept
    }
}

impl Question {
    /// The world once for each way it can come out, with the finding where it is not as it should be.
    pub(super) fn split(&self, world: World) -> Vec<(World, Option<String>)> {
        let whole = ["ok", "failed"].iter().all(|way| self.answers.iter().any(|answer| answer == way));
        let rest = if whole { None } else { Some(String::new()) };
        let ways = self.answers.iter().cloned().chain(rest);
        ways.map(|way| {
            let mut split = world.clone();
            // The other way than `ok` is a failure.
            let failed = way.is_empty() && self.answers.iter().all(|answer| answer == "ok");
            let found = if failed { Some("failed".to_owned()) } else { Some(way.clone()) };
            split.assumed.push((self.step, self.label.clone(), way));
            (split, found.filter(|found| !matches!(found.as_str(), "" | "ok")))
        })
        .collect()
    }
}

impl World {
    pub(super) fn at_start(state: State) -> World {
        World { state, assumed: Vec::new() }
    }

    /// Whether a step with these conditions is done.
    pub(super) fn meets(&self, conditions: &[Condition]) -> bool {
        conditions.iter().all(|condition| {
            let mut mine = self.assumed.iter().filter(|(at, ..)| condition.step == Some(*at));
            mine.next().is_none_or(|(_, _, way)| *way == condition.state)
        })
    }

    /// In words: `bearing-check failed`.
    pub(super) fn told(&self) -> Option<String> {
        let (_, label, way) = self.assumed.iter().find(|(_, _, way)| !way.is_empty())?;
        Some(format!("{label} {way}"))
    }
}
