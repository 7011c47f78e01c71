//! Declared parts, tools, supplies, tightening lists and figures, by name.
use super::change::{Change, How, Kind};
use super::fact::{Aliases, Fact, differences, one_line};
use super::values;
use crate::model::declarations::{Declarations, Figure, Name, NamedTorque, Part, Supply, Thing, Tool};
use crate::model::quantity::Quantity;
use crate::model::{Body, Document, Torque};
use crate::source::{Span, Spanned, Text};
use std::collections::{HashMap, HashSet, VecDeque};

/// One declared thing and what is true of it.
struct Item<'a> {
    kind: Kind,
    thing: &'a Thing,
    facts: Vec<Fact>,
}

/// Names that went and came with the same text and number: the thing is only called otherwise.
pub fn renamed(old: &Document, new: &Document, aliases: &mut Aliases) -> Vec<Change> {
    let none = Aliases::default();
    let (before, after) = (items(&old.declarations, &none), items(&new.declarations, &none));
    let names = |items: &[Item<'_>]| items.iter().map(name).collect::<HashSet<_>>();
    let (known, kept) = (names(&before), names(&after));
    let mut came: HashMap<_, VecDeque<&Item<'_>>> = HashMap::new();
    for item in after.iter().filter(|item| !known.contains(&name(item))) {
        came.entry(likeness(item)).or_default().push_back(item);
    }
    let mut changes = Vec::new();
    for item in before.iter().filter(|item| !kept.contains(&name(item))) {
        let Some(other) = came.get_mut(&likeness(item)).and_then(VecDeque::pop_front) else { continue };
        let (from, to) = (name(item), name(other));
        let change = Change::new(Kind::Naming, How::Changed, subject(other)).aspect("name");
        changes.push(change.texts(&from, &to).places(Some(item.thing.span), Some(other.thing.span)));
        aliases.names.insert(from, to);
    }
    changes
}

fn name(item: &Item<'_>) -> String {
    item.thing.name.value.to_string()
}

/// Two things that are alike in it are one under two names.
fn likeness(item: &Item<'_>) -> (Kind, String, Option<String>) {
    let number = item.thing.number.as_ref().map(|number| number.value.to_string());
    (item.kind, item.thing.text.value.to_string(), number)
}

/// Adds what differs in the declarations.
pub fn compare(old: &Document, new: &Document, aliases: &Aliases, changes: &mut Vec<Change>) {
    let (before, after) = (items(&old.declarations, aliases), items(&new.declarations, &Aliases::default()));
    let now = |item: &Item<'_>| (item.kind, aliases.name(item.thing.name.as_str()).to_owned());
    let as_written = |item: &Item<'_>| (item.kind, name(item));
    let mut known: HashMap<_, VecDeque<&Item<'_>>> = HashMap::new();
    for item in &after {
        known.entry(as_written(item)).or_default().push_back(item);
    }
    // A name that was declared twice by a slip goes by its order.
    let mut same = |item: &Item<'_>| {
        let named = known.get_mut(&now(item))?;
        if named.len() > 1 { named.pop_front() } else { named.front().copied() }
    };
    for item in &before {
        match same(item) {
            Some(other) => differences(&item.facts, &other.facts, |change| {
                let mut change = change.places(Some(item.thing.span), Some(other.thing.span));
                change.subject = subject(other);
                change.thing = Some(name(other));
                changes.push(change);
            }),
            None if told_by_steps(item, old) => {}
            None => changes.push(whole(item, How::Gone)),
        }
    }
    let were: HashSet<_> = before.iter().map(now).collect();
    for item in after.iter().filter(|it| !were.contains(&as_written(it)) && !told_by_steps(it, new)) {
        changes.push(whole(item, How::Added));
    }
}

/// A procedure draws on a catalogue where a step names the thing, and the step tells of that.
fn told_by_steps(item: &Item<'_>, document: &Document) -> bool {
    item.thing.from_catalogue && matches!(document.body, Body::Procedure(_))
}

fn whole(item: &Item<'_>, how: How) -> Change {
    let words = one_line(item.thing.text.as_str());
    let (span, change) = (Some(item.thing.span), Change::new(item.kind, how, subject(item)));
    match how {
        How::Gone => change.texts(words, "").places(span, None),
        _ => change.texts("", words).places(None, span),
    }
}

fn subject(item: &Item<'_>) -> String {
    let kind = if item.kind == Kind::Torque { "tightening list" } else { item.kind.name() };
    format!("{kind} `{}`", item.thing.name.value)
}

fn items<'a>(declarations: &'a Declarations, aliases: &Aliases) -> Vec<Item<'a>> {
    let Declarations { parts, tools, supplies, torques, figures, .. } = declarations;
    let names = Names { declarations, aliases };
    let mut out = Vec::new();
    let mut add = |kind, thing: &'a Thing, more: Vec<Fact>| {
        let mut facts = common(kind, thing);
        facts.extend(more);
        out.push(Item { kind, thing, facts });
    };
    parts.iter().for_each(|it| add(Kind::Part, &it.thing, part(it, &names)));
    tools.iter().for_each(|it| add(Kind::Tool, &it.thing, tool(it)));
    supplies.iter().for_each(|it| add(Kind::Supply, &it.thing, supply(it)));
    for it in torques {
        add(Kind::Torque, &it.thing, vec![values::torque("torque", &it.torque)]);
    }
    figures.iter().for_each(|it| add(Kind::Figure, &it.thing, figure(it)));
    out
}

/// Numbers in the text are sizes: another one is another part.
fn common(kind: Kind, thing: &Thing) -> Vec<Fact> {
    let text = Fact { kind, ..Fact::free("text", thing.text.as_str()) };
    let number = thing.number.as_ref().map(|it| Fact::said(kind, "part number", it.as_str()));
    [Some(text), number].into_iter().flatten().collect()
}

/// What names stand for, with the old ones as they are called now.
struct Names<'a> {
    declarations: &'a Declarations,
    aliases: &'a Aliases,
}

impl Names<'_> {
    fn of(&self, names: &[Spanned<Name>]) -> String {
        let named = names.iter().filter_map(|it| self.declarations.thing(it.value));
        let mut named: Vec<&str> = named.map(|it| self.aliases.name(it.name.as_str())).collect();
        named.sort_unstable();
        named.join(", ")
    }
}

fn part(part: &Part, names: &Names<'_>) -> Vec<Fact> {
    let kind = Kind::Part;
    let mut facts = vec![Fact::new(kind, "count", part.count.to_string(), part.count.to_string())];
    let mut flag = |kind, aspect: &str, set: bool| {
        facts.extend(set.then(|| Fact::new(kind, aspect, "yes", "")));
    };
    flag(Kind::SingleUse, "single-use", part.single_use.is_some());
    flag(kind, "sided", part.sided.is_some());
    flag(kind, "starts off", part.starts_off);
    flag(kind, "stays off", part.stays_off);
    flag(kind, "spring-loaded", part.facts.spring_loaded.is_some());
    flag(kind, "pressed", part.facts.pressed.is_some());
    flag(kind, "sharp", part.facts.sharp.is_some());
    flag(kind, "rotating", part.facts.rotating.is_some());
    let one = |it: &Option<Spanned<Name>>| names.of(it.as_slice());
    let lists = [
        ("matched", names.of(&part.matched)),
        ("set with", names.of(&part.set_with)),
        ("never with", names.of(&part.never)),
        ("in place of", one(&part.in_place_of)),
        ("holds", names.of(&part.holds)),
        ("locks", names.of(&part.locks)),
        ("made from", one(&part.made_from)),
    ];
    let lists = lists.into_iter().filter(|(_, words)| !words.is_empty());
    facts.extend(lists.map(|(aspect, words)| Fact::new(kind, aspect, words.clone(), words)));
    let pieces = part.pieces.iter().map(Text::as_str).collect::<Vec<_>>().join(", ");
    facts.extend((!pieces.is_empty()).then(|| Fact::said(kind, "pieces", &pieces)));
    facts.extend(part.reuse_if.as_ref().map(|it| Fact::said(Kind::SingleUse, "reuse if", it.as_str())));
    for like in &part.looks_like {
        let by = like.by.as_ref().map(|it| format!(", by {}", it.value)).unwrap_or_default();
        let other = names.of(std::slice::from_ref(&like.other));
        facts.push(Fact::said(kind, &format!("looks like {other}"), &(other.clone() + &by)));
    }
    facts.extend(values::applies("models", &part.applies));
    facts.extend(part.thread.as_ref().map(|it| {
        let series = it.series.as_ref().map(|it| format!(" {}", it.value)).unwrap_or_default();
        Fact::said(kind, "thread", &format!("{}{series}", it.designation.value))
    }));
    facts.extend(
        part.strength
            .as_ref()
            .map(|it| Fact::said(kind, "strength", &format!("{:?} {}", it.system, it.value.value))),
    );
    facts.extend(
        part.condition.as_ref().map(|it| Fact::said(kind, "thread condition", &format!("{:?}", it.value))),
    );
    facts.extend(part.torque.iter().flat_map(|it| torques(it, part, names)));
    facts.extend(part.layout.as_ref().map(|it| Fact::said(kind, "layout", &format!("{:?}", it.value))));
    let amounts = [
        ("pressurised", &part.facts.pressurised),
        ("hot", &part.facts.hot),
        ("live", &part.facts.live),
        ("mass", &part.facts.mass),
    ];
    facts.extend(
        amounts.into_iter().filter_map(|(aspect, it)| Some(values::fact(kind, aspect, it.as_ref()?))),
    );
    facts.extend(part.facts.contains.as_ref().map(|it| Fact::said(kind, "contains", it.as_str())));
    for callout in &part.callouts {
        let figure = callout.figure.as_ref().map(|it| names.of(std::slice::from_ref(it))).unwrap_or_default();
        let aspect = format!("callout on {figure}");
        facts.push(Fact::said(Kind::Figure, &aspect, &callout.number.value.to_string()));
    }
    facts
}

/// What the part says itself, and the list it goes by.
fn torques(torque: &Torque, part: &Part, names: &Names<'_>) -> Vec<Fact> {
    let own = values::torque("torque", &values::within(torque, part.thing.span));
    let places = |it: &Torque| -> Vec<Span> {
        it.passes.iter().map(|pass| pass.span).chain(it.value.iter().map(Quantity::span)).collect()
    };
    let mine = places(torque);
    let inside = |list: &&NamedTorque| places(&list.torque).iter().any(|it| mine.contains(it));
    let list = names.declarations.torques.iter().find(inside).map(|list| {
        let name = names.aliases.name(list.thing.name.as_str());
        Fact::new(Kind::Torque, "tightening list", name, name)
    });
    Some(own).filter(|own| !own.meaning.is_empty()).into_iter().chain(list).collect()
}

fn tool(tool: &Tool) -> Vec<Fact> {
    let kind = Kind::Tool;
    let mut facts = vec![Fact::new(kind, "count", tool.count.to_string(), tool.count.to_string())];
    let amounts = [
        ("range", &tool.range),
        ("length", &tool.length),
        ("adapter", &tool.adapter),
        ("capacity", &tool.capacity),
    ];
    facts.extend(
        amounts.into_iter().filter_map(|(aspect, it)| Some(values::fact(kind, aspect, it.as_ref()?))),
    );
    facts.extend(tool.temporary.map(|_| Fact::new(kind, "temporary", "yes", "")));
    facts
}

fn supply(supply: &Supply) -> Vec<Fact> {
    let kind = Kind::Supply;
    let mut facts = Vec::new();
    let mut hazards: Vec<&str> = supply.hazards.iter().map(Text::as_str).collect();
    hazards.sort_unstable();
    facts.extend((!hazards.is_empty()).then(|| Fact::said(kind, "hazards", &hazards.join(" "))));
    facts.extend(supply.cure.as_ref().map(|cure| {
        let at = cure.at.as_ref();
        let meant = values::meaning(&cure.time) + &at.map(values::meaning).unwrap_or_default();
        let at = at.map(|it| format!(" at {}", values::words(it))).unwrap_or_default();
        Fact::new(kind, "cure", meant, values::words(&cure.time) + &at)
    }));
    let flags = [
        ("thread locker", supply.thread_locker),
        ("lubricant", supply.lubricant),
        ("needs clean", supply.needs_clean),
        ("needs dry", supply.needs_dry),
    ];
    facts.extend(
        flags.into_iter().filter(|(_, set)| set.is_some()).map(|(it, _)| Fact::new(kind, it, "yes", "")),
    );
    facts
}

fn figure(figure: &Figure) -> Vec<Fact> {
    let picture =
        figure.illustration.as_ref().map(|it| Fact::said(Kind::Figure, "picture", it.path.as_str()));
    let alt = figure.alt.as_ref().map(|it| Fact::free("words for the picture", it.as_str()));
    [picture, alt].into_iter().flatten().collect()
}
