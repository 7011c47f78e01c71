//! What hangs on a step: outcomes, options and exceptions, each with what is then done.
use super::actions::Reader;
use super::change::{Change, How, Kind};
use super::fact::{Fact, plainly};
use super::written;
use crate::model::step::When;
use crate::model::{Action, Document, Step};
use crate::source::{Span, Text};

/// One of them.
#[derive(Debug, Clone, PartialEq)]
pub struct Branch {
    /// `if below`, `option oil bath`, `except rear-left`.
    key: String,
    pub meaning: String,
    /// Free words in it, which change no work.
    free: String,
    words: String,
    /// Somebody signs in it.
    held: bool,
    /// Torques and limits in it.
    limits: String,
    span: Span,
}

/// All of a step.
pub fn of(reader: &Reader<'_>, document: &Document, step: &Step) -> Vec<Branch> {
    let branch = |key: String, actions: &[Action], span: Span| {
        let facts: Vec<Fact> = actions.iter().flat_map(|action| reader.facts(action)).collect();
        let free = facts.iter().filter(|fact| fact.free).map(|fact| fact.words.as_str());
        let limit = |fact: &&Fact| matches!(fact.kind, Kind::Torque | Kind::Limit);
        Branch {
            meaning: actions.iter().map(|it| reader.meaning(it)).collect::<Vec<_>>().join(" / "),
            free: free.collect::<Vec<_>>().join("; "),
            words: written(document, span),
            held: actions.iter().any(|action| matches!(action, Action::Hold(_))),
            limits: facts.iter().filter(limit).map(|it| it.meaning.as_str()).collect::<Vec<_>>().join("; "),
            key,
            span,
        }
    };
    let outcomes = step.outcomes.iter().map(|it| {
        let mut when: Vec<String> = it.when.iter().map(|when| word(&when.value)).collect();
        when.sort_unstable();
        branch(format!("if {}", when.join(", ")), &it.then, it.span)
    });
    let option = |it: &crate::model::step::ChoiceOption| {
        branch(format!("option {}", plainly(it.name.as_str())), &it.actions, it.span)
    };
    let except = |it: &crate::model::step::Exception| {
        let places = it.places.iter().map(Text::as_str).collect::<Vec<_>>().join(", ");
        branch(format!("except {places}"), &it.actions, it.span)
    };
    outcomes.chain(step.options.iter().map(option)).chain(step.exceptions.iter().map(except)).collect()
}

fn word(when: &When) -> String {
    match when {
        When::Found(words) => plainly(words),
        other => other.word().to_owned(),
    }
}

/// What differs between those of one step.
pub fn compare(old: &[Branch], new: &[Branch], mut change: impl FnMut(Change)) {
    for (at, branch) in old.iter().enumerate() {
        if let Some(other) = like(at, old, new) {
            pair(branch, other, &mut change);
        }
    }
    let mut gone = lone(old, new);
    let mut came = lone(new, old);
    // The same work on other words first; then what stands in the other's place.
    gone.retain(|branch| {
        let Some(at) = came.iter().position(|other| other.meaning == branch.meaning) else { return true };
        told(branch, came.remove(at), &mut change);
        false
    });
    let both = gone.len().min(came.len());
    for (branch, other) in gone.drain(..both).zip(came.drain(..both)) {
        told(branch, other, &mut change);
    }
    for branch in gone {
        let found = Change::new(Kind::Outcome, How::Gone, "").texts(&branch.words, "");
        let sign_off = branch.held || !branch.limits.is_empty();
        change(Change { sign_off, ..found.places(Some(branch.span), None) });
    }
    for branch in came {
        let found = Change::new(Kind::Outcome, How::Added, "").texts("", &branch.words);
        change(found.places(None, Some(branch.span)));
    }
}

/// The one of the same key; of several it goes by their order.
fn like<'b>(at: usize, of: &[Branch], among: &'b [Branch]) -> Option<&'b Branch> {
    let key = &of.get(at)?.key;
    let before = of.iter().take(at).filter(|it| it.key == *key).count();
    among.iter().filter(|it| it.key == *key).nth(before)
}

/// Those that have none like them among the others.
fn lone<'b>(of: &'b [Branch], others: &[Branch]) -> Vec<&'b Branch> {
    of.iter().enumerate().filter(|(at, _)| like(*at, of, others).is_none()).map(|(_, it)| it).collect()
}

fn pair(old: &Branch, new: &Branch, change: &mut impl FnMut(Change)) {
    if old.meaning != new.meaning {
        told(old, new, change);
    } else if old.free != new.free {
        let found = Change::new(Kind::Wording, How::Changed, "").aspect(&new.key).texts(&old.free, &new.free);
        change(found.places(Some(old.span), Some(new.span)));
    }
}

fn told(old: &Branch, new: &Branch, change: &mut impl FnMut(Change)) {
    let found = Change::new(Kind::Outcome, How::Changed, "").texts(&old.words, &new.words);
    let sign_off = (old.held && !new.held) || old.limits != new.limits;
    change(Change { sign_off, ..found.places(Some(old.span), Some(new.span)) });
}
