//! Declared things as the phrases that name them: "the 4 cover screws and the new cover gasket".
use super::Cx;
use super::sentence::Line;
use super::written;
use crate::model::Language;
use crate::model::action::Object;
use crate::model::declarations::{Name, Thing};
use crate::sheets::html;

/// How many of a thing, and which.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Count {
    One,
    /// One with a name of its own.
    Proper,
    Each,
    /// All of several.
    All(u32),
    Part {
        of: u32,
        taken: u32,
    },
    /// What is not counted, and so many of what has no stated number.
    Mass,
    Loose(u32),
}

/// The words before a noun, with the blank after them.
fn determiner(line: &mut Line, count: Count, new: bool) {
    let words = &line.tongue.count;
    let ([before_all, after_all], [between, after]) = (words.all, words.part);
    let [new_before, _] = line.tongue.new;
    match count {
        Count::Proper if !new => {}
        Count::One | Count::Proper => line.text(words.one),
        Count::Each => line.text(words.each),
        Count::All(all) => counted(line, &[before_all, after_all], &[all]),
        Count::Part { of, taken } => counted(line, &["", between, after], &[taken, of]),
        Count::Mass => {}
        Count::Loose(count) => counted(line, &["", " "], &[count]),
    }
    line.text(if new { new_before } else { "" });
}

/// The words with the numbers between them.
fn counted(line: &mut Line, words: &[&str], numbers: &[u32]) {
    let mut out = String::with_capacity(32);
    for (at, word) in words.iter().enumerate() {
        out.push_str(word);
        if let Some(number) = numbers.get(at) {
            html::number(&mut out, *number);
        }
    }
    line.text(&out);
}

/// All of them, with commas and "and".
pub(super) fn objects(line: &mut Line, objects: &[Object], cx: &Cx<'_>) {
    let parts = objects.len();
    for (index, it) in objects.iter().enumerate() {
        separate(line, index, parts, line.tongue.and);
        object(line, it, cx);
    }
}

/// What stands before the item `index` of a list of `count`.
pub(super) fn separate(line: &mut Line, index: usize, count: usize, last: &str) {
    if index > 0 {
        line.text(if index + 1 == count { last } else { ", " });
    }
}

fn object(line: &mut Line, object: &Object, cx: &Cx<'_>) {
    let Some(name) = object.name else {
        return match cx.step_of(object.word.as_str()) {
            Some(step) => line.step(step),
            None => line.own(&written::words_of(object.word.as_str())),
        };
    };
    let new = object.new.is_some();
    match cx.declarations.thing(name) {
        Some(thing) if is_piece(object, thing) => {
            let count = if object.each { Count::Each } else { Count::One };
            determiner(line, count, new);
            line.name(&written::words_of(object.word.as_str()), name);
        }
        Some(thing) => {
            let count = count_of(object, name, thing, cx);
            determiner(line, count, new);
            noun(line, name, thing, count, cx);
        }
        None => line.own(&written::words_of(object.word.as_str())),
    }
    if new {
        let [_, after] = line.tongue.new;
        line.text(after);
    }
}

/// A thing, or the piece of it called `word`, without an article where it is `bare`.
pub(super) fn mention(line: &mut Line, name: Name, thing: &Thing, word: &str, bare: bool, cx: &Cx<'_>) {
    let piece = word != thing.name.as_str();
    let count = if piece { Count::One } else { whole_count(name, thing, cx) };
    if !bare {
        determiner(line, count, false);
    }
    if piece { line.name(&written::words_of(word), name) } else { noun(line, name, thing, count, cx) }
}

/// A piece of a set is called by its own name.
fn is_piece(object: &Object, thing: &Thing) -> bool {
    object.word.value != thing.name.value
}

fn count_of(object: &Object, name: Name, thing: &Thing, cx: &Cx<'_>) -> Count {
    if object.each {
        return Count::Each;
    }
    match (whole_count(name, thing, cx), object.count) {
        (Count::All(of), Some(taken)) if taken < of => Count::Part { of, taken },
        (all @ Count::All(_), _) => all,
        (_, Some(taken)) => Count::Loose(taken),
        (whole, None) => whole,
    }
}

/// How many of it there are.
pub(super) fn whole_count(name: Name, thing: &Thing, cx: &Cx<'_>) -> Count {
    let count = match name {
        Name::Part(id) => cx.declarations.part(id).map_or(1, |part| part.count),
        Name::Tool(id) => cx.declarations.tool(id).map_or(1, |tool| tool.count),
        Name::Supply(_) => return Count::Mass,
        Name::Torque(_) | Name::Figure(_) | Name::Message(_) => 1,
    };
    match count {
        0 | 1 if thing.noun.proper => Count::Proper,
        0 | 1 => Count::One,
        several => Count::All(several),
    }
}

/// The noun itself, in the number that `count` asks for; things of the same noun are told apart by the rest
/// of their text.
pub(super) fn noun(line: &mut Line, name: Name, thing: &Thing, count: Count, cx: &Cx<'_>) {
    let it = &thing.noun;
    let plural = match count {
        Count::One | Count::Proper | Count::Each => false,
        Count::All(_) | Count::Part { .. } => true,
        Count::Mass => it.counted,
        Count::Loose(number) => number != 1,
    };
    // English alone has its plurals and small initials worked out; an author's own plural holds everywhere.
    let written = cx.written.language;
    let given = it.counted || written == Language::English;
    if plural && !given {
        line.text("× ");
    }
    let singular = match written {
        Language::German => thing.text.value.split(',').next().unwrap_or("").trim(),
        _ => &it.singular,
    };
    line.name(if plural && given { &it.plural } else { singular }, name);
    if cx.is_shared(&it.singular)
        && let Some((_, rest)) = thing.text.value.split_once(',')
    {
        line.own(&format!(" ({})", rest.trim()));
    }
}

/// Whether "they" and not "it" stands for them.
pub(super) fn are_many(objects: &[Object], cx: &Cx<'_>) -> bool {
    let one = |object: &Object| {
        let Some((name, thing)) = object.name.and_then(|n| Some((n, cx.declarations.thing(n)?))) else {
            return false;
        };
        match count_of(object, name, thing, cx) {
            Count::All(_) => !is_piece(object, thing),
            Count::Part { taken, .. } | Count::Loose(taken) => taken > 1,
            Count::Mass => thing.noun.counted,
            Count::One | Count::Proper | Count::Each => thing.noun.always_plural,
        }
    };
    objects.len() > 1 || objects.iter().any(one)
}

/// Whether free words already speak of it: its last word, in either number, is among them.
pub(super) fn is_mentioned(object: &Object, words: &str, cx: &Cx<'_>) -> bool {
    let Some(thing) = object.name.and_then(|name| cx.declarations.thing(name)) else { return false };
    let forms = [&thing.noun.singular, &thing.noun.plural];
    let lasts = forms.map(|form| form.rsplit(' ').next().unwrap_or(""));
    words
        .split(|c: char| !c.is_alphanumeric() && c != '-')
        .any(|word| !word.is_empty() && lasts.contains(&word))
}
