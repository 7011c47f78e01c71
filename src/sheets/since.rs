//! Marks in the margin of what changed since an earlier revision, each with its words for readers by ear.
use super::{Edition, Sheet, html};
use crate::compare::{Change, Class, Comparison, How, Kind};
use crate::model::action::{TorqueSource, Work};
use crate::model::{Action, Document, Name, Procedure};
use std::collections::{BTreeMap, BTreeSet};

/// Bars for marked steps and messages; only pages with marks have it.
pub const STYLE: &str = include_str!("since.css");

/// What changed of one procedure.
#[derive(Debug, Clone, Default)]
pub struct Since {
    /// What the earlier revision is called.
    revision: String,
    /// Whether the step is new; all others here changed.
    steps: BTreeMap<u32, bool>,
    /// Step and index of messages.
    messages: BTreeSet<(u32, usize)>,
    /// What went away, in its author's words.
    gone: Vec<String>,
    /// The revision that the procedure still bears, though it means something else.
    pub kept_revision: Option<String>,
}

impl Since {
    /// Of the changes of meaning; `name` stands for the earlier revision where it does not say what it is.
    pub fn of(found: &Comparison, document: &Document, name: &str) -> Since {
        let revision = if found.old.revision.is_empty() { name } else { &found.old.revision };
        let kept_revision = found.kept_revision().map(str::to_owned);
        let mut since = Since { revision: revision.to_owned(), kept_revision, ..Since::default() };
        for change in found.changes.iter().filter(|change| change.class() == Class::Meaning) {
            since.take(change);
            if let (Kind::Torque | Kind::SingleUse, Some(thing)) = (change.kind, &change.thing) {
                since.take_users(document, thing, change.kind);
            }
        }
        since
    }

    /// A torque, and what is fitted new, stand with the thing and are read at the steps that tighten or fit it.
    fn take_users(&mut self, document: &Document, thing: &str, kind: Kind) {
        let called = |work: &Work| match work.torque_source {
            TorqueSource::Named(list) => Some(Name::Torque(list)),
            _ => None,
        };
        let uses = |work: &Work| {
            let object = work.objects.iter().any(|it| it.word.value == thing);
            let list = called(work).and_then(|list| document.declarations.thing(list));
            let concerned = if kind == Kind::Torque { work.torque.is_some() } else { work.fits() };
            (object && concerned) || list.is_some_and(|it| it.name.value == thing)
        };
        let steps = document.procedure().into_iter().flat_map(Procedure::steps);
        for step in steps.filter(|step| step.actions.iter().filter_map(Action::work).any(uses)) {
            self.steps.entry(step.number).or_insert(false);
        }
    }

    fn take(&mut self, change: &Change) {
        match (change.step_after, change.message) {
            (Some(step), Some(message)) => {
                self.messages.insert((step, message));
            }
            (Some(step), None) => {
                let whole = matches!(change.kind, Kind::Step | Kind::Hold) && change.aspect.is_empty();
                let new = whole && change.how == How::Added;
                self.steps.entry(step).and_modify(|it| *it |= new).or_insert(new);
            }
            (None, _) => {}
        }
        self.messages.extend(change.also.iter().copied());
        let told = matches!(
            change.kind,
            Kind::Caution | Kind::Hold | Kind::Step | Kind::Outcome | Kind::Part | Kind::Tool | Kind::Supply
        );
        if told && change.how == How::Gone {
            let words = if change.before.is_empty() { &change.subject } else { &change.before };
            self.gone.push(words.clone());
        }
    }
}

/// Whether the step has a mark.
pub fn is_marked(sheet: &Sheet<'_>, step: u32) -> bool {
    sheet.context.since.is_some_and(|since| since.steps.contains_key(&step))
}

/// The words at a marked step.
pub fn at_step(out: &mut String, sheet: &Sheet<'_>, step: u32) {
    if let Some((since, new)) = sheet.context.since.and_then(|since| Some((since, since.steps.get(&step)?))) {
        html::element(out, "p", "since", &words(sheet, since, *new));
    }
}

/// The words at a marked message.
pub fn at_message(out: &mut String, sheet: &Sheet<'_>, step: u32, index: usize) {
    if let Some(since) = sheet.context.since.filter(|since| since.messages.contains(&(step, index))) {
        html::element(out, "p", "since", &words(sheet, since, false));
    }
}

/// The words where one of several steps is marked; empty where none is.
pub fn among(sheet: &Sheet<'_>, steps: impl IntoIterator<Item = u32>) -> Option<String> {
    let since = sheet.context.since?;
    steps.into_iter().any(|step| since.steps.contains_key(&step)).then(|| words(sheet, since, false))
}

fn words(sheet: &Sheet<'_>, since: &Since, new: bool) -> String {
    let revision = [("revision", since.revision.as_str().into())];
    if new { sheet.say("new-since", &revision) } else { sheet.say("changed-since", &revision) }
}

/// What went away, as a section; empty where nothing did. Handouts leave it out: it may say what they withhold.
pub fn gone(sheet: &Sheet<'_>) -> String {
    let mut out = String::new();
    let Some(since) = sheet.context.since.filter(|since| !since.gone.is_empty()) else { return out };
    if matches!(sheet.edition, Edition::Handout | Edition::Answers) {
        return out;
    }
    let mut body = String::new();
    html::open(&mut body, "ul", "gone");
    for words in &since.gone {
        html::open(&mut body, "li", "");
        html::author(&mut body, sheet.context.own(), words);
        html::close(&mut body, "li");
    }
    html::close(&mut body, "ul");
    let title = sheet.say("gone-since", &[("revision", since.revision.as_str().into())]);
    html::section(&mut out, "gone", &title, &body);
    out
}
