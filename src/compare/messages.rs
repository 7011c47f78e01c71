//! Safety messages: lost, weakened, moved, and what they guard now.
use super::align::Pairs;
use super::change::{Change, How, Kind};
use super::fact::{Fact, one_line, plainly};
use super::steps::{Item, cut};
use super::{Sides, written};
use crate::model::in_force::last_step;
use crate::model::message::Scope;
use crate::model::{Document, Message, Prose};
use std::collections::{BTreeSet, HashMap, HashSet, VecDeque};
use std::ops::RangeInclusive;

/// One message where it stands.
struct Entry<'a> {
    message: &'a Message,
    /// The step it stands before, as its place in the list of steps; none where it guards nothing.
    at: Option<usize>,
    /// Its index among that step's messages.
    index: usize,
    /// Places of the steps it holds for.
    guards: Option<RangeInclusive<usize>>,
}

/// Adds what differs in the messages of a procedure.
pub fn compare(
    sides: &Sides<'_>,
    before: &[Item<'_>],
    after: &[Item<'_>],
    pairs: &Pairs,
    changes: &mut Vec<Change>,
) {
    let (old, new) = (entries(sides.before, before), entries(sides.after, after));
    let matched = matched(&old, &new, pairs);
    let of = Of { sides, before, after, pairs };
    for (entry, found) in old.iter().zip(&matched) {
        match found.and_then(|place| new.get(place)) {
            Some(other) => of.pair(entry, other, changes),
            None => changes.extend(of.lost(entry)),
        }
    }
    let known: HashSet<usize> = matched.into_iter().flatten().collect();
    let came = new.iter().enumerate().filter(|(place, _)| !known.contains(place));
    changes.extend(came.filter_map(|(_, entry)| of.came(entry)));
}

/// Adds what differs in the messages that a catalogue declares, by name.
pub fn of_catalogue(old: &Document, new: &Document, changes: &mut Vec<Change>) {
    let (old, new) = (&old.declarations.messages, &new.declarations.messages);
    let name = |message: &Message| message.name.as_ref().map(|it| it.value.to_string()).unwrap_or_default();
    let subject = |message: &Message| format!("safety message `{}`", name(message));
    // What is said twice under one name goes by its order.
    let mut by_name: HashMap<String, VecDeque<usize>> = HashMap::new();
    for (at, message) in new.iter().enumerate() {
        by_name.entry(name(message)).or_default().push_back(at);
    }
    let mut known = HashSet::new();
    for message in old {
        let at = by_name.get_mut(&name(message)).and_then(VecDeque::pop_front);
        known.extend(at);
        let Some(other) = at.and_then(|at| new.get(at)) else {
            let change = Change::new(Kind::Caution, How::Gone, subject(message));
            changes.push(change.texts(told(message), "").places(Some(message.span), None));
            continue;
        };
        for change in content(message, other) {
            let change = Change { subject: subject(other), ..change };
            changes.push(change.places(Some(message.span), Some(other.span)));
        }
    }
    for (_, message) in new.iter().enumerate().filter(|(at, _)| !known.contains(at)) {
        let change = Change::new(Kind::Caution, How::Added, subject(message));
        changes.push(change.texts("", told(message)).places(None, Some(message.span)));
    }
}

fn entries<'a>(procedure: &'a crate::model::Procedure, items: &[Item<'a>]) -> Vec<Entry<'a>> {
    let end = items.last().map_or(0, |item| item.step.number);
    let of_step = |(at, item): (usize, &Item<'a>)| {
        let (step, section_end) = (item.step, item.section_end);
        let entry = move |(index, message): (usize, &'a Message)| {
            let last = last_step(message, step.number, section_end, end);
            let more = last.saturating_sub(step.number) as usize;
            Entry { message, at: Some(at), index, guards: Some(at..=at + more) }
        };
        step.messages.iter().enumerate().map(entry).collect::<Vec<_>>()
    };
    let guarding = items.iter().enumerate().flat_map(of_step);
    let stranded = procedure.sections.iter().flat_map(|section| &section.stranded);
    let idle = stranded.map(|message| Entry { message, at: None, index: 0, guards: None });
    guarding.chain(idle).collect()
}

/// For each old message the new one that it is: of those at the same step first, then wherever the same words stand.
fn matched(old: &[Entry<'_>], new: &[Entry<'_>], pairs: &Pairs) -> Vec<Option<usize>> {
    let mut found = vec![None; old.len()];
    let mut taken = vec![false; new.len()];
    let mut at_step: HashMap<Option<usize>, Vec<usize>> = HashMap::new();
    let mut by_words: HashMap<String, VecDeque<usize>> = HashMap::new();
    for (place, entry) in new.iter().enumerate() {
        at_step.entry(entry.at).or_default().push(place);
        by_words.entry(all(entry.message)).or_default().push_back(place);
    }
    let class = |it: &Message| it.hazard.as_ref().map(|it| it.value.name.clone());
    let fits: [fn(&Message, &Message) -> bool; 3] = [
        |one, other| all(one) == all(other),
        |one, other| called(one).is_some() && called(one) == called(other),
        shares_words,
    ];
    let like = |one: &Message, other: &Message| class(one).is_some() && class(one) == class(other);
    let mut look = |found: &mut Vec<Option<usize>>, fits: &dyn Fn(&Message, &Message) -> bool| {
        for (entry, found) in old.iter().zip(found.iter_mut()).filter(|(_, found)| found.is_none()) {
            let step = match entry.at.map(|at| pairs.of_old.get(at).copied().flatten()) {
                Some(None) => continue,
                other => other.flatten(),
            };
            let fitting = at_step.get(&step).into_iter().flatten().copied().find(|&place| {
                let free = taken.get(place) == Some(&false);
                free && new.get(place).is_some_and(|other| fits(entry.message, other.message))
            });
            if let Some(taken) = fitting.and_then(|place| taken.get_mut(place)) {
                *taken = true;
                *found = fitting;
            }
        }
    };
    for fits in fits {
        look(&mut found, &fits);
    }
    look(&mut found, &like);
    for (entry, found) in old.iter().zip(found.iter_mut()).filter(|(_, found)| found.is_none()) {
        let waiting = by_words.get_mut(&all(entry.message));
        let free = |place: &usize| taken.get(*place) == Some(&false);
        *found = waiting.and_then(|places| std::iter::from_fn(|| places.pop_front()).find(free));
        if let Some(taken) = found.and_then(|place| taken.get_mut(place)) {
            *taken = true;
        }
    }
    found
}

/// Signal word, class and words of a message: equal where it says the same.
fn all(message: &Message) -> String {
    let class = message.hazard.as_ref().map(|it| it.value.name.as_str()).unwrap_or_default();
    format!("{:?} {class} {:?}", message.signal.value, texts(message))
}

/// Written alike: a label may have another name by now, and the step is looked at anyway.
fn same_reach(one: &Scope, other: &Scope) -> bool {
    match (one, other) {
        (Scope::NextSteps(one), Scope::NextSteps(other)) => one == other,
        (Scope::Until { .. }, Scope::Until { .. }) => false,
        (one, other) => std::mem::discriminant(one) == std::mem::discriminant(other),
    }
}

fn called(message: &Message) -> Option<&str> {
    message.standing.as_ref().or(message.name.as_ref()).map(|it| it.as_str())
}

fn fields(message: &Message) -> [(&'static str, &Option<Box<Prose>>); 5] {
    [
        ("hazard", &message.hazard_text),
        ("harm", &message.harm),
        ("avoid", &message.avoid),
        ("first aid", &message.first_aid),
        ("words", &message.text),
    ]
}

fn texts(message: &Message) -> [Option<String>; 5] {
    fields(message).map(|(_, prose)| prose.as_ref().map(|it| one_line(&it.source)))
}

fn shares_words(one: &Message, other: &Message) -> bool {
    texts(one).iter().zip(&texts(other)).any(|(one, other)| one.is_some() && one == other)
}

/// What the message itself says otherwise: signal word, class, equipment, words.
fn content(old: &Message, new: &Message) -> Vec<Change> {
    let mut changes = Vec::new();
    let caution = |how| Change::new(Kind::Caution, how, "");
    let (from, to) = (old.signal.value, new.signal.value);
    if from != to {
        let how = if to < from { How::Weakened } else { How::Changed };
        let change = caution(how).aspect("signal word").texts(from.word(), to.word());
        changes.push(Change { sign_off: how == How::Weakened, ..change });
    }
    let class = |it: &Message| it.hazard.as_ref().map(|it| it.value.name.clone()).unwrap_or_default();
    if class(old) != class(new) {
        changes.push(caution(How::Changed).aspect("hazard class").texts(class(old), class(new)));
    }
    changes.extend(equipment(old, new));
    for ((aspect, one), (_, other)) in fields(old).into_iter().zip(fields(new)) {
        changes.extend(words(aspect, one.as_deref(), other.as_deref()));
    }
    if let Some(name) = called(new) {
        changes.iter_mut().for_each(|change| change.standing = Some(name.to_owned()));
    }
    changes
}

fn equipment(old: &Message, new: &Message) -> Option<Change> {
    let names = |it: &Message| it.wear.iter().map(|it| it.value.name.as_str()).collect::<BTreeSet<_>>();
    let (from, to) = (names(old), names(new));
    if from == to {
        return None;
    }
    let how = if from.is_subset(&to) { How::Changed } else { How::Weakened };
    let list = |names: &BTreeSet<&str>| names.iter().copied().collect::<Vec<_>>().join(", ");
    let change = Change::new(Kind::Caution, how, "").aspect("protective equipment");
    Some(Change { sign_off: how == How::Weakened, ..change.texts(list(&from), list(&to)) })
}

/// A line of the message that went, or whose numbers or noes changed, weakens it; other words are a rewording.
fn words(aspect: &str, old: Option<&Prose>, new: Option<&Prose>) -> Option<Change> {
    let fact = |it: Option<&Prose>| it.map(|it| Fact::free(aspect, &it.source));
    let (from, to) = (fact(old), fact(new));
    let said = |it: &Option<Fact>| it.as_ref().map(|it| it.words.clone()).unwrap_or_default();
    let meant = |it: &Option<Fact>| it.as_ref().map(|it| it.meaning.clone()).unwrap_or_default();
    let (kind, how) = match (&from, &to) {
        (Some(_), None) => (Kind::Caution, How::Weakened),
        (None, Some(_)) => (Kind::Caution, How::Changed),
        _ if said(&from) == said(&to) => return None,
        _ if meant(&from) != meant(&to) => (Kind::Caution, How::Weakened),
        _ => (Kind::Wording, How::Changed),
    };
    let change = Change::new(kind, how, "").aspect(aspect).texts(said(&from), said(&to));
    Some(Change { sign_off: kind == Kind::Caution && from.is_some(), ..change })
}

/// The message in a line: "warning ejection, Eye injury."
fn told(message: &Message) -> String {
    let class = message.hazard.as_ref().map(|it| format!(" {}", it.value.name)).unwrap_or_default();
    let words = texts(message).into_iter().flatten().next().map(|it| format!(": {it}")).unwrap_or_default();
    cut(&format!("{}{class}{words}", message.signal.value.word()))
}

/// What naming a message and its steps needs.
struct Of<'r, 'a> {
    sides: &'r Sides<'a>,
    before: &'r [Item<'a>],
    after: &'r [Item<'a>],
    pairs: &'r Pairs,
}

impl Of<'_, '_> {
    fn pair(&self, old: &Entry<'_>, new: &Entry<'_>, changes: &mut Vec<Change>) {
        let place = |mut change: Change| {
            change.subject = self.subject(new);
            change.message = new.at.map(|_| new.index);
            change
                .places(Some(old.message.span), Some(new.message.span))
                .steps(self.number(self.before, old.at), self.number(self.after, new.at))
        };
        changes.extend(content(old.message, new.message).into_iter().map(place));
        changes.extend(self.guards(old, new).map(place));
    }

    /// Whether it guards less, more, or other steps. Steps that are new or gone do not count.
    fn guards(&self, old: &Entry<'_>, new: &Entry<'_>) -> Option<Change> {
        let kept: BTreeSet<usize> = self.kept(old);
        let range = new.guards.clone();
        let lost = kept.iter().copied().find(|at| range.as_ref().is_none_or(|range| !range.contains(at)));
        let more = range
            .clone()
            .into_iter()
            .flatten()
            .find(|at| self.pairs.of_new.get(*at).is_some_and(Option::is_some) && !kept.contains(at));
        let stands = |at: Option<usize>| self.statement(self.after, at);
        let same_step = old.at.and_then(|at| self.pairs.of_old.get(at).copied().flatten()) == new.at;
        match (lost, more) {
            (Some(_), _) if !same_step => {
                let change = Change::new(Kind::Caution, How::Moved, "").aspect("what it guards");
                Some(change.texts(self.statement(self.before, old.at), stands(new.at)))
            }
            (Some(lost), _) => {
                let change = Change::new(Kind::Caution, How::Weakened, "").aspect("what it guards");
                Some(change.texts(format!("also `{}`", stands(Some(lost))), self.scope(new)))
            }
            // The same reach over other steps follows from those, which are told themselves.
            (None, Some(_)) if same_step && same_reach(&old.message.scope, &new.message.scope) => None,
            (None, Some(more)) => {
                let change = Change::new(Kind::Caution, How::Changed, "").aspect("what it guards");
                let change = change.texts("", format!("also `{}`", stands(Some(more))));
                Some(Change { sign_off: false, ..change })
            }
            (None, None) => None,
        }
    }

    /// New places of the steps that the message held for and that are still there.
    fn kept(&self, entry: &Entry<'_>) -> BTreeSet<usize> {
        let range = entry.guards.clone().into_iter().flatten();
        range.filter_map(|at| self.pairs.of_old.get(at).copied().flatten()).collect()
    }

    /// A message that went with all it guarded is told with the step.
    fn lost(&self, entry: &Entry<'_>) -> Option<Change> {
        if entry.at.is_some() && self.kept(entry).is_empty() {
            return None;
        }
        let change = Change::new(Kind::Caution, How::Gone, self.of_step(self.before, entry.at));
        let change = change.texts(told(entry.message), "").places(Some(entry.message.span), None);
        // Where it is missing now.
        let first = self.kept(entry).first().copied();
        Some(change.steps(self.number(self.before, entry.at), self.number(self.after, first)))
    }

    fn came(&self, entry: &Entry<'_>) -> Option<Change> {
        let guarded = entry.guards.clone().into_iter().flatten();
        let known = |at: usize| self.pairs.of_new.get(at).is_some_and(Option::is_some);
        if entry.at.is_some() && !guarded.into_iter().any(known) {
            return None;
        }
        let mut change = Change::new(Kind::Caution, How::Added, self.of_step(self.after, entry.at));
        change.message = entry.at.map(|_| entry.index);
        let change = change.texts("", told(entry.message)).places(None, Some(entry.message.span));
        Some(change.steps(None, self.number(self.after, entry.at)))
    }

    fn subject(&self, entry: &Entry<'_>) -> String {
        let message = match called(entry.message) {
            Some(name) => format!("{} `{name}`", entry.message.signal.value.word()),
            None => told(entry.message),
        };
        let step = self.statement(self.after, entry.at);
        if step.is_empty() { message } else { format!("{message}, before `{step}`") }
    }

    fn of_step(&self, items: &[Item<'_>], at: Option<usize>) -> String {
        let step = self.statement(items, at);
        if step.is_empty() { "the procedure".to_owned() } else { format!("before `{step}`") }
    }

    fn statement(&self, items: &[Item<'_>], at: Option<usize>) -> String {
        at.and_then(|at| items.get(at)).map(|it| cut(&it.statement)).unwrap_or_default()
    }

    fn number(&self, items: &[Item<'_>], at: Option<usize>) -> Option<u32> {
        Some(items.get(at?)?.step.number)
    }

    /// How far it reaches, in the author's words.
    fn scope(&self, entry: &Entry<'_>) -> String {
        plainly(&written(self.sides.new, entry.message.span))
    }
}
