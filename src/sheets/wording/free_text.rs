//! Free words of the author's, with `[names]` in them put as the reader knows them.
use super::Cx;
use super::objects;
use super::sentence::{Line, Sentence};
use super::written;
use crate::model::prose::Target;
use crate::model::quantity::Unit;
use std::borrow::Cow;

/// The words with what their `[names]` stand for. No capital and no full stop is added.
pub fn phrase(text: &str, cx: &Cx<'_>) -> Sentence {
    let mut line = Line::inside(cx);
    write(&mut line, text, cx);
    line.into_phrase()
}

/// The words as a sentence of their own: with a capital and a full stop.
pub fn sentence(text: &str, cx: &Cx<'_>) -> Sentence {
    let mut line = Line::new(cx);
    write(&mut line, text, cx);
    line.finish()
}

/// What stands for the reference `[word]` after the words `before` it: "the 4 cover screws", "cover screws" after
/// an article, "step 7".
pub fn reference(before: &str, word: &str, target: Target, cx: &Cx<'_>) -> Sentence {
    let mut line = if starts_sentence(before) { Line::new(cx) } else { Line::inside(cx) };
    line.author(cx, |line| refer(line, before, word, target, cx));
    line.into_phrase()
}

/// Writes free words, looking up each `[name]`; what is no name stays as it is written.
pub(super) fn write(line: &mut Line, text: &str, cx: &Cx<'_>) {
    line.author(cx, |line| write_all(line, text, cx));
}

fn write_all(line: &mut Line, text: &str, cx: &Cx<'_>) {
    let mut rest = text;
    let mut read = 0;
    while let Some((before, word, after)) = bracketed(rest) {
        line.text(&units_set(before));
        read += before.len();
        let so_far = text.get(..read).unwrap_or("");
        match target(word, cx) {
            Some(target) => {
                if read > 0 && starts_sentence(so_far) {
                    line.capitalise_next();
                }
                refer(line, so_far, word, target, cx);
            }
            None => line.text(&format!("[{word}]")),
        }
        read += word.len() + 2;
        rest = after;
    }
    line.text(&units_set(rest));
}

/// The words with units as they are printed: "80 °C" for `80 degC`. Only spellings that no prose has by chance.
pub fn units_set(text: &str) -> Cow<'_, str> {
    if !text.contains(|c: char| c.is_ascii_digit()) {
        return Cow::Borrowed(text);
    }
    let mut out = String::new();
    let mut copied = 0;
    for (at, _) in text.match_indices(' ') {
        let (before, after) = text.split_at(at);
        let Some((symbol, length)) = source_unit(before, after.get(1..).unwrap_or("")) else { continue };
        out.push_str(text.get(copied..at).unwrap_or(""));
        out.push_str(if symbol == "°" { "" } else { " " });
        out.push_str(symbol);
        copied = at + 1 + length;
    }
    if copied == 0 {
        return Cow::Borrowed(text);
    }
    out.push_str(text.get(copied..).unwrap_or(""));
    Cow::Owned(out)
}

/// The printed form of a unit that starts `after`, right behind a figure, and its length as written.
fn source_unit(before: &str, after: &str) -> Option<(&'static str, usize)> {
    let typed = ["deg", "ohm"].iter().any(|it| after.starts_with(it));
    let joined = after.split(' ').next()?.trim_end_matches(['.', ',', ';', ':', ')']).contains(['.', '-']);
    if !before.ends_with(|c: char| c.is_ascii_digit()) || !(typed || joined) {
        return None;
    }
    let (unit, length) = Unit::starting(after)?;
    Some((unit.symbol, length))
}

fn target(word: &str, cx: &Cx<'_>) -> Option<Target> {
    let thing = cx.declarations.find(word).map(Target::Thing);
    thing.or_else(|| cx.step_of(word).map(Target::Step))
}

fn refer(line: &mut Line, before: &str, word: &str, target: Target, cx: &Cx<'_>) {
    let bare = cx.written.articles && written::ends_in_determiner(before);
    let name = match target {
        Target::Step(number) => return line.step(number),
        Target::Thing(name) => name,
    };
    match cx.declarations.thing(name) {
        Some(thing) => objects::mention(line, name, thing, word, bare, cx),
        None => line.text(&written::words_of(word)),
    }
}

/// The words up to the next `[name]`, the name, and what is left.
fn bracketed(text: &str) -> Option<(&str, &str, &str)> {
    let (before, rest) = text.split_once('[')?;
    let (name, after) = rest.split_once(']')?;
    Some((before, name, after))
}

fn starts_sentence(before: &str) -> bool {
    let before = before.trim_end();
    before.is_empty() || before.ends_with(['.', '!', '?'])
}
