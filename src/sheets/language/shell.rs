//! Words in templates and styles: `{{word KEY}}` gives way to a label when the shell is made for its language.
use super::{Argument, Words};

/// `text` with its words put in, each passed through `escape`.
///
/// Arguments follow the key: `house=house` stands for the template's own `{{house}}`, `open='<a>'` for the text in
/// quotes, which is not escaped.
pub(in crate::sheets) fn put_in(text: &str, words: &Words, escape: fn(&str) -> String) -> String {
    let mut out = String::with_capacity(text.len() * 2);
    let mut rest = text;
    while let Some((before, after)) = rest.split_once("{{word ") {
        let Some((inner, after)) = end_of(after) else { break };
        out.push_str(before);
        word(&mut out, inner, words, escape);
        rest = after;
    }
    out.push_str(rest);
    out
}

/// What stands before the end of a mark, and what behind it: a `}}` in quotes ends nothing.
fn end_of(text: &str) -> Option<(&str, &str)> {
    let mut quoted = false;
    let outside = |(at, c): (usize, char)| {
        quoted ^= c == '\'';
        (!quoted && c == '}').then_some(at)
    };
    let at = text.char_indices().find_map(outside)?;
    Some((text.get(..at)?, text.get(at..)?.strip_prefix("}}")?))
}

/// Stand for arguments while the words around them are escaped.
const PLACES: [&str; 4] = ["\u{e000}", "\u{e001}", "\u{e002}", "\u{e003}"];

fn word(out: &mut String, inner: &str, words: &Words, escape: fn(&str) -> String) {
    let (key, mut rest) = inner.split_once(' ').unwrap_or((inner, ""));
    let mut arguments: Vec<(&str, String)> = Vec::new();
    while let Some((name, value)) = rest.trim_start().split_once('=') {
        let quoted = value.strip_prefix('\'').and_then(|it| it.split_once('\''));
        let (text, after) = match quoted {
            Some((text, after)) => (text.to_owned(), after),
            None => {
                let (field, after) = value.split_once(' ').unwrap_or((value, ""));
                (format!("{{{{{field}}}}}"), after)
            }
        };
        arguments.push((name, text));
        rest = after;
    }
    if arguments.is_empty() {
        return out.push_str(&escape(words.label(key)));
    }
    let places = arguments.iter().zip(PLACES).map(|((name, _), place)| (*name, Argument::from(place)));
    let mut text = escape(&words.say(key, &places.collect::<Vec<_>>()));
    for ((_, argument), place) in arguments.iter().zip(PLACES) {
        text = text.replace(place, argument);
    }
    out.push_str(&text);
}
