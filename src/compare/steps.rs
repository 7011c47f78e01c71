//! The steps: which is which, what each does otherwise, and which went, came or moved.
use super::actions::{Key, Reader};
use super::align::{self, Marks, Pairs};
use super::change::{Change, How, Kind};
use super::fact::{Aliases, Fact, differences, one_line};
use super::outcomes::{self, Branch};
use super::{Sides, messages, values, written};
use crate::model::document::Section;
use crate::model::{Action, Document, Procedure, Step};
use crate::source::Text;

/// One step as its side reads it.
pub struct Item<'a> {
    pub step: &'a Step,
    /// The step's own line, on one line.
    pub statement: String,
    /// The number of its section's last step.
    pub section_end: u32,
    keys: Vec<Key>,
    branches: Vec<Branch>,
    facts: Vec<Fact>,
}

/// Longer statements are cut where they stand for a step.
const LONGEST: usize = 90;

/// Adds what differs in sections, steps and the messages before them.
pub fn compare(sides: &Sides<'_>, aliases: &mut Aliases, changes: &mut Vec<Change>) {
    let (before, after) = (items(sides.old, sides.before, aliases), none(sides));
    let pairs = align::pair(&marks(&before), &marks(&after));
    take_labels(&before, &after, &pairs, aliases);
    let before = items(sides.old, sides.before, aliases);
    sections(sides.before, sides.after, changes);
    let moved = pairs.moved();
    for (at, old) in before.iter().enumerate() {
        let Some((to, new)) =
            pairs.of_old.get(at).copied().flatten().and_then(|to| Some((to, after.get(to)?)))
        else {
            changes.push(gone(old));
            continue;
        };
        if moved.contains(&at) {
            changes.push(moved_to(old, new, to.checked_sub(1).and_then(|to| after.get(to))));
        }
        pair(sides, aliases, old, new, changes);
    }
    changes
        .extend(after.iter().zip(&pairs.of_new).filter(|(_, pair)| pair.is_none()).map(|(it, _)| added(it)));
    messages::compare(sides, &before, &after, &pairs, changes);
    changes.extend(renumbered(&before, &after, &pairs));
    by_place(changes);
}

fn none<'a>(sides: &Sides<'a>) -> Vec<Item<'a>> {
    items(sides.new, sides.after, &Aliases::default())
}

fn items<'a>(document: &'a Document, procedure: &'a Procedure, aliases: &Aliases) -> Vec<Item<'a>> {
    let reader = Reader { declarations: &document.declarations, aliases };
    let of_section = |section: &'a Section| {
        let end = section.steps.last().map_or(0, |step| step.number);
        section.steps.iter().map(move |step| (step, end))
    };
    let steps = procedure.sections.iter().flat_map(of_section);
    steps
        .map(|(step, section_end)| Item {
            step,
            statement: written(document, step.span),
            section_end,
            keys: step.actions.iter().map(|action| reader.key(action)).collect(),
            branches: outcomes::of(&reader, document, step),
            facts: facts(step, aliases),
        })
        .collect()
}

fn marks(items: &[Item<'_>]) -> Vec<Marks> {
    let mark = |item: &Item<'_>| {
        let branches = item.branches.iter().map(|it| it.meaning.as_str());
        let facts = item.facts.iter().map(|it| it.meaning.as_str());
        let statement = one_line(&item.statement);
        Marks {
            print: std::iter::once(statement.as_str())
                .chain(branches)
                .chain(facts)
                .collect::<Vec<_>>()
                .join("\n"),
            labels: item.step.labels().map(|it| it.value.to_string()).collect(),
            keys: item.keys.clone(),
        }
    };
    items.iter().map(mark).collect()
}

/// A step that kept its place and has another label: jumps to it are the same jumps.
fn take_labels(before: &[Item<'_>], after: &[Item<'_>], pairs: &Pairs, aliases: &mut Aliases) {
    for (old, new) in before.iter().zip(&pairs.of_old) {
        let Some(new) = new.and_then(|new| after.get(new)) else { continue };
        let (from, to): (Vec<&Text>, Vec<&Text>) = (old.step.labels().collect(), new.step.labels().collect());
        if from.len() == to.len() {
            let other = from.iter().zip(to).filter(|(from, to)| from.value != to.value);
            aliases.labels.extend(other.map(|(from, to)| (from.value.to_string(), to.value.to_string())));
        }
    }
}

/// What is true of the step beside its actions and outcomes.
fn facts(step: &Step, aliases: &Aliases) -> Vec<Fact> {
    let mut facts = Vec::new();
    facts.extend(values::applies("only", &step.applies));
    let condition = |it: &crate::model::action::Condition| {
        format!("{} {}", aliases.of_label(it.label.as_str()), it.state)
    };
    let conditions = step.conditions.iter().map(condition).collect::<Vec<_>>().join(", ");
    facts.extend((!conditions.is_empty()).then(|| Fact::said(Kind::Models, "only if", &conditions)));
    facts.extend(
        step.people.as_ref().map(|it| Fact::said(Kind::Effort, "people", &aliases.prose(&it.source))),
    );
    facts.extend(step.role.as_ref().map(|it| Fact::said(Kind::Effort, "who", it.as_str())));
    facts.extend(step.time.as_ref().map(|it| values::fact(Kind::Effort, "time", it)));
    facts.extend(step.record.as_ref().map(|it| Fact::said(Kind::Record, "record", it.as_str())));
    facts.extend(step.from.as_ref().map(|it| Fact::said(Kind::Source, "from", it.as_str())));
    let prose = [("text", &step.prose), ("reason", &step.because)];
    facts.extend(
        prose
            .into_iter()
            .filter_map(|(it, text)| Some(Fact::free(it, &aliases.prose(&text.as_ref()?.source)))),
    );
    let teach = step.teach.iter().map(|it| &*it.source).collect::<Vec<_>>().join(" / ");
    facts.extend((!teach.is_empty()).then(|| Fact::free("teaching point", &aliases.prose(&teach))));
    let ask = step.questions.iter().map(|it| {
        let answer = it.answer.as_ref().map(|it| &*it.source).unwrap_or_default();
        format!("{} {answer}", &*it.ask.source)
    });
    let ask = ask.collect::<Vec<_>>().join(" / ");
    facts.extend((!ask.is_empty()).then(|| Fact::free("question", &aliases.prose(&ask))));
    facts
}

/// What one step says otherwise.
fn pair(sides: &Sides<'_>, aliases: &Aliases, old: &Item<'_>, new: &Item<'_>, changes: &mut Vec<Change>) {
    let mut add = |mut change: Change| {
        change.subject = cut(&new.statement);
        let at = (change.place_before, change.place_after);
        let places = (at.0.or(Some(old.step.span)), at.1.or(Some(new.step.span)));
        changes.push(change.places(places.0, places.1).steps(Some(old.step.number), Some(new.step.number)));
    };
    let none = Aliases::default();
    let before = Reader { declarations: &sides.old.declarations, aliases };
    let after = Reader { declarations: &sides.new.declarations, aliases: &none };
    let figures = |reader: &Reader<'_>, step: &Step| {
        let names = step.figures.iter().filter_map(|it| reader.declarations.thing(it.value));
        let names: Vec<&str> = names.map(|it| reader.aliases.name(it.name.as_str())).collect();
        (!names.is_empty()).then(|| Fact::said(Kind::Figure, "figure", &names.join(", ")))
    };
    let whole = |reader: &Reader<'_>, item: &Item<'_>| {
        item.facts.iter().cloned().chain(figures(reader, item.step)).collect::<Vec<_>>()
    };
    actions((&before, old), (&after, new), &mut add);
    outcomes::compare(&old.branches, &new.branches, &mut add);
    differences(&whole(&before, old), &whole(&after, new), &mut add);
}

type Read<'r, 'a> = (&'r Reader<'r>, &'r Item<'a>);

/// Actions of one step: paired by verb and objects, then by place.
fn actions(old: Read<'_, '_>, new: Read<'_, '_>, add: &mut impl FnMut(Change)) {
    let list = |side: Read<'_, '_>| (0..side.1.keys.len()).collect::<Vec<_>>();
    let (mut before, mut after) = (list(old), list(new));
    let mut paired = Vec::new();
    before.retain(|&at| {
        let same = |&other: &usize| old.1.keys.get(at) == new.1.keys.get(other);
        let Some(found) = after.iter().position(same) else { return true };
        paired.push((at, after.remove(found)));
        false
    });
    // One left on each side is one that changed.
    let both = if before.len() == after.len() { before.len() } else { 0 };
    paired.extend(before.drain(..both).zip(after.drain(..both)));
    if paired.windows(2).any(|it| matches!(it, [one, other] if one.0 < other.0 && one.1 > other.1)) {
        let order = |side: Read<'_, '_>| side.1.statement.clone();
        add(Change::new(Kind::Step, How::Changed, "")
            .aspect("order of its actions")
            .texts(order(old), order(new)));
    }
    for (from, to) in paired {
        let Some((from, to)) = old.1.step.actions.get(from).zip(new.1.step.actions.get(to)) else { continue };
        action((old.0, from), (new.0, to), add);
    }
    let whole = |how, key: &Key, is_hold: bool| {
        let words = one_line(&format!("{} {}", key.verb, key.objects.join(", ")));
        let change = Change::new(if is_hold { Kind::Hold } else { Kind::Step }, how, "").aspect("action");
        if how == How::Gone { change.texts(words, "") } else { change.texts("", words) }
    };
    let is_hold =
        |side: Read<'_, '_>, at: usize| matches!(side.1.step.actions.get(at), Some(Action::Hold(_)));
    for at in before {
        old.1.keys.get(at).into_iter().for_each(|key| add(whole(How::Gone, key, is_hold(old, at))));
    }
    for at in after {
        new.1.keys.get(at).into_iter().for_each(|key| add(whole(How::Added, key, is_hold(new, at))));
    }
}

/// What one action says otherwise. Another verb or other objects make it another action, told in one line.
fn action(old: (&Reader<'_>, &Action), new: (&Reader<'_>, &Action), add: &mut impl FnMut(Change)) {
    let (before, after) = (old.0.facts(old.1), new.0.facts(new.1));
    let (from, to) = (old.0.key(old.1), new.0.key(new.1));
    if from.verb != to.verb {
        let kind = if matches!(old.1, Action::Hold(_)) { Kind::Hold } else { Kind::Step };
        let words = |key: &Key| one_line(&format!("{} {}", key.verb, key.objects.join(", ")));
        return add(Change::new(kind, How::Changed, "")
            .aspect("what is done")
            .texts(words(&from), words(&to)));
    }
    // That an object is fitted new is told where it is an object on both sides.
    let there = |key: &Key, fact: &Fact| {
        let name = fact.aspect.strip_suffix(" fitted new");
        name.is_none_or(|name| key.objects.iter().any(|it| it == name))
    };
    let both = |facts: Vec<Fact>| {
        facts.into_iter().filter(|it| there(&from, it) && there(&to, it)).collect::<Vec<_>>()
    };
    differences(&both(before), &both(after), add);
}

fn gone(item: &Item<'_>) -> Change {
    let change = Change::new(whole_kind(item), How::Gone, cut(&item.statement));
    change.places(Some(item.step.span), None).steps(Some(item.step.number), None)
}

fn added(item: &Item<'_>) -> Change {
    let change = Change::new(whole_kind(item), How::Added, cut(&item.statement));
    change.places(None, Some(item.step.span)).steps(None, Some(item.step.number))
}

fn moved_to(old: &Item<'_>, new: &Item<'_>, follows: Option<&Item<'_>>) -> Change {
    let change = Change::new(whole_kind(new), How::Moved, cut(&new.statement));
    let after =
        follows.map_or_else(|| "the first".to_owned(), |it| format!("behind `{}`", cut(&it.statement)));
    let (from, to) = (old.step.number, new.step.number);
    change
        .texts(format!("step {from}"), format!("step {to}, {after}"))
        .places(Some(old.step.span), Some(new.step.span))
        .steps(Some(from), Some(to))
}

/// A step that holds the work goes by its hold.
fn whole_kind(item: &Item<'_>) -> Kind {
    let holds = item.step.actions.iter().any(|action| matches!(action, Action::Hold(_)));
    if holds { Kind::Hold } else { Kind::Step }
}

/// The statement as it stands for its step.
pub fn cut(statement: &str) -> String {
    if statement.chars().count() <= LONGEST {
        return statement.to_owned();
    }
    statement.chars().take(LONGEST - 1).collect::<String>() + "…"
}

/// Titles and prose of sections, in order.
fn sections(old: &Procedure, new: &Procedure, changes: &mut Vec<Change>) {
    let titled = |procedure: &Procedure| -> Vec<(Vec<Fact>, crate::source::Span)> {
        let of = |section: &Section| {
            let title = section.title.as_ref().map(|it| it.value.to_string()).unwrap_or_default();
            let mut facts = vec![Fact::new(Kind::Naming, "heading", title.clone(), title)];
            facts.extend(section.prose.as_ref().map(|it| Fact::free("text under the heading", &it.source)));
            facts.extend(
                section.time.as_ref().map(|it| values::fact(Kind::Effort, "time of the section", it)),
            );
            (facts, section.span)
        };
        procedure.sections.iter().filter(|section| section.title.is_some()).map(of).collect()
    };
    let (before, after) = (titled(old), titled(new));
    let title =
        |it: &(Vec<Fact>, crate::source::Span)| it.0.first().map(|it| it.words.clone()).unwrap_or_default();
    let mut from: Vec<_> = before.iter().collect();
    let mut to: Vec<_> = after.iter().collect();
    let mut paired = Vec::new();
    from.retain(|section| {
        let Some(at) = to.iter().position(|other| title(other) == title(section)) else { return true };
        paired.push((*section, to.remove(at)));
        false
    });
    let both = from.len().min(to.len());
    paired.extend(from.drain(..both).zip(to.drain(..both)));
    for (one, other) in paired {
        differences(&one.0, &other.0, |mut change| {
            change.subject = format!("section \"{}\"", title(other));
            changes.push(change.places(Some(one.1), Some(other.1)));
        });
    }
    let whole = |how, it| Change::new(Kind::Naming, how, format!("section \"{}\"", title(it)));
    changes.extend(from.into_iter().map(|it| whole(How::Gone, it).places(Some(it.1), None)));
    changes.extend(to.into_iter().map(|it| whole(How::Added, it).places(None, Some(it.1))));
}

/// One line for all steps that only have another number.
fn renumbered(before: &[Item<'_>], after: &[Item<'_>], pairs: &Pairs) -> Option<Change> {
    let number = |it: Option<&Item<'_>>| it.map_or(0, |it| it.step.number);
    let moved = pairs.moved();
    let other = before.iter().enumerate().filter(|(at, _)| !moved.contains(at)).filter_map(|(at, old)| {
        let new = pairs.of_old.get(at).copied().flatten()?;
        let (from, to) = (old.step.number, number(after.get(new)));
        (from != to).then_some((from, to))
    });
    let other: Vec<(u32, u32)> = other.collect();
    let (first, last) = (other.first()?, other.last()?);
    let words = |from: u32, to: u32| {
        if from == to { format!("step {from}") } else { format!("steps {from} to {to}") }
    };
    let count = if other.len() == 1 { "1 step".to_owned() } else { format!("{} steps", other.len()) };
    let change = Change::new(Kind::Renumbered, How::Changed, count);
    Some(change.texts(words(first.0, last.0), words(first.1, last.1)))
}

/// The head and the declarations stand first; then everything by the step it is at, as far as that is known.
fn by_place(changes: &mut [Change]) {
    let place = |change: &Change| match (change.step_after, change.step_before) {
        (Some(new), _) => (1, new),
        (None, Some(old)) => (1, old),
        _ if change.kind == Kind::Renumbered => (2, 0),
        _ => (0, 0),
    };
    changes.sort_by_key(place);
}
