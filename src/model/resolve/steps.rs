//! A step: its actions, then the details and prose under it.
use super::header::list;
use super::{Resolver, make_room};
use crate::model::action::{Action, Actions};
use crate::model::hazard::Hazard;
use crate::model::message::Signal;
use crate::model::rare::Rare;
use crate::model::slip::Slip;
use crate::model::step::{ChoiceOption, Exception, LateMessage, Outcome, Question, Step, When};
use crate::source::{Span, Spanned, Text};
use crate::syntax::ast::{self, Detail, DetailValue, Stage, Statement};
use crate::syntax::words::{self, Place};
use compact_str::CompactString;
use smallvec::smallvec;
use std::cell::OnceCell;
use std::collections::HashSet;

/// "caution", "warning"; a longer word is none.
const LONGEST_SIGNAL: usize = 7;

impl Resolver<'_> {
    /// Reads the statement into a [`blank`] step.
    pub(super) fn fill_step(&mut self, step: &mut Step, statement: &mut Statement) {
        let stages = self.stages(statement);
        let ast::Head::Step(actions) = &mut statement.head else { return };
        step.actions = Actions::with_capacity(actions.len());
        for action in actions {
            if action.verb.as_str() == "due" {
                step.details.make().dues.extend(self.due(action));
            } else if let Some(action) = self.action(action, &stages) {
                step.actions.push(action);
            }
        }
        if let Some(prose) = &statement.prose {
            self.late_in_prose(prose, step);
        }
        let places = OnceCell::new();
        for detail in &mut statement.details {
            self.step_detail(step, detail, statement.extent, &places);
        }
        step.prose = statement.prose.take().map(|prose| self.prose(prose));
    }

    /// The `stage:` lines, if something in the step can be tightened by them.
    fn stages(&mut self, statement: &Statement) -> Vec<Stage> {
        let stage = |detail: &Detail| match &detail.value {
            DetailValue::Stage(stage) => Some((**stage).clone()),
            _ => None,
        };
        let stages: Vec<Stage> = statement.details.iter().filter_map(stage).collect();
        let tightens = |action| self.verb_of(action).is_none_or(|found| found.verb.tightens());
        let actions =
            || if let ast::Head::Step(actions) = &statement.head { actions.as_slice() } else { &[] };
        if !stages.is_empty() && !actions().iter().any(tightens) {
            let first = statement.details.iter().find(|detail| matches!(detail.value, DetailValue::Stage(_)));
            if let Some(detail) = first {
                let belongs = "under a tightening list or a step that tightens";
                self.slip(Slip::MisplacedDetail { key: detail.key.clone(), belongs });
            }
        }
        stages
    }

    fn step_detail(&mut self, step: &mut Step, detail: &mut Detail, extent: Span, places: &OnceCell<Places>) {
        if is_late(detail, step) {
            return;
        }
        match detail.key.as_str() {
            "only" => {
                let details = step.details.make();
                self.only(detail, &mut details.applies, &mut details.conditions);
            }
            "people" => {
                let people = self.prose_value(detail);
                self.once(&mut step.details.make().people, people, detail);
            }
            "role" => self.once(&mut step.details.make().role, Resolver::free_value(detail), detail),
            "record" => self.once(&mut step.details.make().record, Resolver::free_value(detail), detail),
            "from" => self.once(&mut step.details.make().from, Resolver::free_value(detail), detail),
            "figure" => {
                step.details.make().figures.extend(list(detail).iter().filter_map(|word| self.figure(word)));
            }
            "because" => {
                let because = self.prose_value(detail);
                self.once(&mut step.details.make().because, because, detail);
            }
            "teach" => step.details.make().teach.extend(self.prose_value(detail)),
            "time" => {
                let time = self.time_value(detail);
                self.once(&mut step.details.make().time, time, detail);
            }
            "ask" | "answer" => self.question(step, detail),
            "if" | "otherwise" => self.outcome(step, detail),
            "option" => self.option(step, detail),
            "except" => {
                let places = places.get_or_init(|| Places::of(step));
                self.exception(step, detail, places);
            }
            "stage" => {}
            _ => self.detail_of(detail, extent, Place::Step),
        }
    }

    /// Lines of prose such as "WARNING: hot oil" or `warning ejection`.
    fn late_in_prose(&self, prose: &ast::Prose, step: &mut Step) {
        let ends = prose.line_starts().skip(1).map(|(next, _)| (next as usize).saturating_sub(1));
        let ends = ends.chain([prose.source.len()]);
        for ((at, _), end) in prose.line_starts().zip(ends) {
            let line = prose.source.get(at as usize..end).unwrap_or("").trim_start();
            if let Some(word) = self.late_word(line) {
                let start = end - line.len();
                let text = line.trim_end();
                let word = Text::new(word, prose.span_of(start, start + word.len()));
                let extent = prose.span_of(start, start + text.len());
                step.details.make().late_messages.push(LateMessage { word, extent, step: step.span });
            }
        }
    }

    /// The signal word, where the line reads as a message and not as a sentence.
    fn late_word<'t>(&self, line: &'t str) -> Option<&'t str> {
        // Most lines begin with the first letter of no signal word.
        let first = line.as_bytes().first()?.to_ascii_lowercase();
        Signal::ALL.iter().find(|signal| signal.word().as_bytes().first() == Some(&first))?;
        let end = line.bytes().position(|byte| !byte.is_ascii_alphabetic())?;
        let (word, rest) = line.split_at_checked(end.min(LONGEST_SIGNAL))?;
        let signal = Signal::ALL.into_iter().find(|signal| signal.word().eq_ignore_ascii_case(word))?;
        if signal == Signal::Note {
            // "Note the colour" and "Note: it is thin" are ordinary prose; only the statement's own form is one.
            let as_written = rest.starts_with(':') || rest.trim_start().starts_with(['"', '“']);
            return (word == signal.word() && as_written).then_some(word);
        }
        let mut names = rest.split_whitespace();
        let hazard = names.next().unwrap_or("");
        let bare =
            word == signal.word() && names.next().is_none_or(|next| matches!(next, "for" | "until" | "as"));
        let calls = || Hazard::find(hazard).is_some() || self.knows(hazard);
        (rest.starts_with(':') || (bare && calls())).then_some(word)
    }

    fn question(&mut self, step: &mut Step, detail: &mut Detail) {
        let Some(words) = self.prose_value(detail) else { return };
        if detail.key.as_str() == "ask" {
            step.details.make().questions.push(Question { ask: words, answer: None });
        } else if let Some(open) =
            step.details.make().questions.last_mut().filter(|question| question.answer.is_none())
        {
            open.answer = Some(words);
        } else {
            self.slip(Slip::MisplacedDetail { key: detail.key.clone(), belongs: "under its `ask:`" });
        }
    }

    fn consequences(&mut self, detail: &mut Detail) -> Actions {
        let DetailValue::Actions(actions) = &mut detail.value else { return Actions::new() };
        let mut then = Actions::with_capacity(actions.len());
        then.extend(actions.iter_mut().filter_map(|action| self.action(action, &[])));
        then
    }

    fn outcome(&mut self, step: &mut Step, detail: &mut Detail) {
        let otherwise = detail.key.as_str() == "otherwise";
        if !otherwise && detail.arguments.is_empty() && !matches!(detail.value, DetailValue::Unread) {
            let wanted = "how it came out: `if cracked:`, `if not ok:`";
            self.slip(Slip::MissingRole { verb: detail.key.clone(), span: detail.span, wanted });
        }
        let when = if otherwise {
            smallvec![Spanned::new(When::Otherwise, detail.key.span)]
        } else {
            detail.arguments.iter().map(|words| Spanned::new(when(words.as_str()), words.span)).collect()
        };
        let then = self.consequences(detail);
        make_room(&mut step.outcomes, 1);
        step.outcomes.push(Outcome { when, then, span: detail.span });
    }

    fn option(&mut self, step: &mut Step, detail: &mut Detail) {
        // A step whose own verb is unknown has its slip.
        let chooses = |action: &Action| matches!(action, Action::Choose(_));
        if !step.actions.is_empty() && !step.actions.iter().any(chooses) {
            self.slip(Slip::MisplacedDetail { key: detail.key.clone(), belongs: "under a `choose`" });
        }
        let name = detail.arguments.first().map_or_else(
            || Text::new("", detail.key.span),
            |name| Text::new(name.value.trim_matches(['"', '“', '”']).to_owned(), name.span),
        );
        if name.value.is_empty() {
            let wanted = "a name in quotes: `option \"By hand\":`";
            self.slip(Slip::MissingRole { verb: detail.key.clone(), span: detail.span, wanted });
        }
        let actions = self.consequences(detail);
        step.details.make().options.push(ChoiceOption { name, actions, span: detail.span });
    }

    fn exception(&mut self, step: &mut Step, detail: &mut Detail, places: &Places) {
        if places.repeats {
            for place in &detail.arguments {
                self.place_of_repeat(place, places);
            }
        } else if !step.actions.is_empty() {
            self.slip(Slip::MisplacedDetail { key: detail.key.clone(), belongs: "under a `repeat`" });
        }
        let actions = self.consequences(detail);
        step.details.make().exceptions.push(Exception {
            places: detail.arguments.clone(),
            actions,
            span: detail.span,
        });
    }

    fn place_of_repeat(&mut self, place: &Text, places: &Places) {
        if !places.names.contains(place.as_str()) && self.labels.step(place.as_str()).is_none() {
            let near = self.near.among(place.as_str(), places.names.iter().map(|name| name.as_str()));
            let expected = "a place that the `repeat` names";
            self.slip(Slip::DanglingReference { label: place.clone(), expected, near });
        }
    }
}

/// What the `repeat` of a step goes round.
#[derive(Default)]
struct Places {
    repeats: bool,
    names: HashSet<CompactString>,
}

impl Places {
    fn of(step: &Step) -> Places {
        let mut places = Places::default();
        for action in &step.actions {
            if let Action::Repeat(repeat) = action {
                places.repeats = true;
                places.names.extend(repeat.for_each.iter().map(|place| place.value.clone()));
            }
        }
        places
    }
}

/// A safety message under a step, or a line that belongs to one.
fn is_late(detail: &Detail, step: &mut Step) -> bool {
    if Signal::from_word(detail.key.as_str()).is_some() {
        let word = detail.key.clone();
        step.details.make().late_messages.push(LateMessage { word, extent: detail.span, step: step.span });
        return true;
    }
    if step.late_messages.is_empty() {
        return false;
    }
    let of_message = words::detail_key(detail.key.as_str()).is_some_and(|row| row.on == [Place::Message]);
    let above = |late: &&mut LateMessage| of_message && late.extent.start < detail.span.start;
    match step.details.make().late_messages.iter_mut().rev().find(above) {
        Some(late) => {
            late.extent = late.extent.to(detail.span);
            true
        }
        None => false,
    }
}

fn when(words: &str) -> When {
    match words {
        "below" => When::Below,
        "above" => When::Above,
        "outside" => When::Outside,
        "not ok" => When::NotOk,
        "impossible" => When::Impossible,
        _ => When::Found(words.into()),
    }
}

/// A step before anything of it is read.
pub(super) fn blank(number: u32, statement: &Statement) -> Step {
    Step {
        number,
        span: statement.span,
        extent: statement.extent,
        actions: Actions::new(),
        outcomes: Vec::new(),
        prose: None,
        details: Rare::default(),
    }
}
