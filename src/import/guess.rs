//! A sentence of the list as a line of the language, where it plainly is one: a verb, what it is done to, and with what.
use super::messages;
use super::things::{Sort, Things};
use super::torques;
use crate::model::quantity::{Dimension, Quantity, Unit};
use crate::model::verb::{Need, Verb};

/// Words that end the name of a thing.
const ENDS: [&str; 27] = [
    "straight",
    "carefully",
    "slowly",
    "fully",
    "evenly",
    "with",
    "using",
    "to",
    "from",
    "on",
    "onto",
    "in",
    "into",
    "out",
    "off",
    "at",
    "by",
    "until",
    "for",
    "of",
    "so",
    "before",
    "after",
    "if",
    "while",
    "that",
    "whether",
];

/// Which way a thing goes: what stands before one may be the thing's name or its side, and nobody can tell which.
const WAYS: [&str; 6] = ["up", "down", "upwards", "downwards", "inwards", "outwards"];

/// Words by which a supply is known. Common practice, no source.
const SUPPLIES: [&str; 12] = [
    "oil",
    "grease",
    "solvent",
    "cleaner",
    "sealant",
    "locker",
    "coolant",
    "degreaser",
    "paste",
    "cloth",
    "cloths",
    "water",
];

/// The line, or nothing where the sentence does more than a line can say.
///
/// The sentence itself stays as the step's own words, so that none is lost.
pub fn line(sentence: &str, things: &mut Things) -> Option<String> {
    let before = things.count();
    let line = read(sentence, things);
    if line.is_none() {
        things.go_back(before);
    }
    line
}

fn read(sentence: &str, things: &mut Things) -> Option<String> {
    let plain = torques::readable(sentence);
    let (verb, rest) = verb(plain.trim_end_matches('.'))?;
    if verb.name == "do" || !messages::left_in(sentence).is_empty() {
        return None;
    }
    let (objects, tail) = name(rest);
    // `Put drum back on` is to put it back.
    let (verb, tail) = match tail.strip_prefix("back").filter(|rest| rest.is_empty() || rest.starts_with(' '))
    {
        Some(tail) => {
            let first = plain.split(' ').next().unwrap_or("").to_lowercase();
            (Verb::find(&format!("{first} back")).unwrap_or(verb), tail.trim_start())
        }
        None => (verb, tail),
    };
    let (torque, tail) = match torque(tail).filter(|_| verb.tightens()) {
        // A further turn, a number of passes or a bound would be lost to whoever reads the torque alone.
        Some(it) if it.is_qualified() => return None,
        Some(it) => (Some(it.value), format!("{} {}", it.before, it.after)),
        // A torque in a form that is not read must not be left out.
        None if verb.tightens() && tail.contains(|c: char| c.is_ascii_digit()) => return None,
        None => (None, tail.to_owned()),
    };
    let marks = |words: &str| words.contains([';', ':', '(']) || words.contains(". ");
    if marks(objects) || marks(&tail) || does_more(rest) || objects.split(' ').any(|it| WAYS.contains(&it)) {
        return None;
    }
    // A word that goes on the action is no name, whatever sign stands behind it.
    let is_preposition = |word: &str| ENDS.contains(&word.trim_end_matches(',').to_lowercase().as_str());
    if objects.split(' ').any(is_preposition) {
        return None;
    }
    let names = names(things, objects)?;
    if names.is_empty() || verb.objects == Need::Refused {
        return None;
    }
    let mut line = format!("{} {}", verb.name, names.join(", "));
    if let Some(torque) = torque {
        line.push_str(&format!(" to {torque}"));
    }
    if let Some((word, thing)) = helper(&tail) {
        let supply =
            thing.split_whitespace().last().is_some_and(|it| SUPPLIES.contains(&it.to_lowercase().as_str()));
        let sort = if supply { Sort::Supply } else { Sort::Tool };
        if supply || word == "with" || word == "using" {
            let name = things.name(sort, &thing)?;
            line.push_str(&format!(" {} {name}", if supply { "using" } else { "with" }));
        }
    }
    let quoted = super::write::quoted(sentence);
    // Where a text says what is looked at, the list's sentence is that.
    line.push_str(&format!(" {quoted}"));
    Some(line)
}

/// The verb that the sentence begins with, of up to three words, and what follows.
fn verb(sentence: &str) -> Option<(&'static Verb, &str)> {
    let ends: Vec<usize> = sentence.match_indices(' ').map(|it| it.0).take(3).collect();
    ends.into_iter().rev().find_map(|end| {
        let (word, rest) = sentence.split_at(end);
        Some((Verb::find(&word.to_lowercase())?, rest.trim_start()))
    })
}

/// A second thing is done in the same sentence: behind a comma, "and", or "while you".
fn does_more(rest: &str) -> bool {
    let parts = rest.split(" and ").flat_map(|it| it.split(", ")).skip(1);
    let acts = |words: &str| {
        let first = words.split(' ').next().unwrap_or("").to_lowercase();
        words.contains(' ') && (Verb::find(&first).is_some() || Verb::find(words).is_some())
    };
    parts.map(|it| it.strip_prefix("then ").unwrap_or(it)).any(acts) || rest.contains(" while ")
}

/// The words of a name, and what follows it.
fn name(words: &str) -> (&str, &str) {
    let mut at = 0;
    let ends = |word: &str| ENDS.contains(&word.to_lowercase().as_str());
    let mut rest = words.split(' ').peekable();
    while let Some(word) = rest.next() {
        // A back plate is a thing.
        let back = word == "back" && at > 0 && rest.peek().is_none_or(|next| ends(next));
        if back || ends(word) {
            return (words.get(..at).unwrap_or("").trim(), words.get(at..).unwrap_or(""));
        }
        at += word.len() + 1;
    }
    (words.trim(), "")
}

/// `the cover, gasket and screws` as names of parts.
fn names(things: &mut Things, words: &str) -> Option<Vec<String>> {
    let each = words.split(',').flat_map(|it| it.split(" and ")).map(str::trim).filter(|it| !it.is_empty());
    let name = |words: &str| {
        let words = words.strip_prefix("and ").unwrap_or(words);
        // Only the sentence before it says what is meant.
        if ["it", "them", "this", "these", "both", "all"].contains(&words.to_lowercase().as_str()) {
            return None;
        }
        let new = words.split(' ').take(2).any(|word| word == "new");
        let name = things.name(Sort::Part, words)?;
        Some(if new { format!("new {name}") } else { name })
    };
    each.map(name).collect()
}

/// `with a 10 mm socket`: the word, and the name behind it.
fn helper(tail: &str) -> Option<(&str, String)> {
    let tokens: Vec<&str> = tail.split_whitespace().collect();
    let at = tokens.iter().position(|word| matches!(*word, "with" | "using"))?;
    let rest = tokens.get(at + 1..)?.join(" ");
    let (thing, _) = name(&rest);
    Some((tokens.get(at)?, thing.trim_end_matches(',').to_owned()))
}

/// Words that lead to a torque.
const LEAD: [&str; 5] = ["to", "at", "a", "torque", "of"];

/// A torque, and the words around it.
struct Torque {
    value: String,
    before: String,
    after: String,
}

/// Words that make more of a value than a value, or less.
const QUALIFIES: [&str; 22] = [
    "crosswise",
    "diagonally",
    "star",
    "stages",
    "passes",
    "again",
    "least",
    "most",
    "more",
    "less",
    "than",
    "max",
    "maximum",
    "min",
    "minimum",
    "about",
    "approx",
    "approximately",
    "above",
    "below",
    "not",
    "between",
];

impl Torque {
    fn is_qualified(&self) -> bool {
        let words = || self.before.split_whitespace().chain(self.after.split_whitespace());
        let plain = |word: &str| word.trim_matches(|c: char| !c.is_alphanumeric()).to_lowercase();
        words().any(|word| {
            word.contains(|c: char| c.is_ascii_digit()) || QUALIFIES.contains(&plain(word).as_str())
        })
    }
}

/// `to 8 N·m`, `to 7 to 9 N·m`, `to 25 N·m (18 lb-ft)`: as the language writes it.
fn torque(tail: &str) -> Option<Torque> {
    let tokens: Vec<&str> = tail.split_whitespace().collect();
    let (start, (mut value, mut end)) = (0..tokens.len()).find_map(|at| Some((at, amount(&tokens, at)?)))?;
    // The same in another unit.
    if let Some((other, after)) = amount(&tokens, end)
        && tokens.get(end).is_some_and(|it| it.starts_with('('))
    {
        (value, end) = (format!("{value} ({other})"), after);
    }
    let before = tokens.get(..start).unwrap_or_default();
    let lead = before.iter().rev().take_while(|it| LEAD.contains(it)).count();
    let before = before.get(..before.len() - lead).unwrap_or_default().join(" ");
    Some(Torque { value, before, after: tokens.get(end..).unwrap_or_default().join(" ") })
}

/// The torque or range of torques that begins at this word, and the place behind it.
fn amount(tokens: &[&str], from: usize) -> Option<(String, usize)> {
    let number = |word: &str| word.parse::<f64>().is_ok();
    let (mut numbers, mut at) = (Vec::new(), from);
    while let Some(word) = tokens.get(at).map(|it| it.trim_start_matches('(')) {
        let parts: Vec<&str> = word.split(['-', '–']).collect();
        if parts.iter().all(|it| number(it)) {
            numbers.extend(parts.iter().map(|it| (*it).to_owned()));
        } else if numbers.is_empty() || word != "to" {
            break;
        }
        at += 1;
    }
    let unit = tokens.get(at)?.trim_end_matches(['.', ',', ')']);
    let source = Unit::find(unit)?.source;
    let value = match numbers.as_slice() {
        [one] => one.clone(),
        [low, high] => format!("{low} to {high}"),
        _ => return None,
    };
    // Of another dimension it is no torque.
    let first = numbers.first()?;
    let is_torque =
        Quantity::read(&format!("{first} {source}")).is_some_and(|it| it.dimension() == Dimension::Torque);
    is_torque.then(|| (format!("{value} {source}"), at + 1))
}
