//! A step is hidden in a safety message or a note.
use super::prose_words::{WordKind, sentences, words};
use super::{Rule, Subject};
use crate::model::message::Signal;
use crate::model::prose::Target;
use crate::model::verb::{Effect, Verb};
use crate::model::{Declarations, Message, Name, Prose, Step};
use crate::report::{Finding, Severity};
use std::cell::OnceCell;
use std::collections::HashMap;

pub static RULE: Rule = Rule {
    id: "action-inside-message",
    severity: Severity::Warning,
    waivable: true,
    summary: "A safety message or a note tells the reader to do a step",
    explain: "A step inside a message has no number, no torque, no tool in the kit list and no tick on the checklist. \
Practised readers skip messages, and with them the step.

Found are sentences that begin with a verb of the language and go straight on to a declared part: \"Remove the \
cover first.\" In a note, in `hazard:` and in `harm:` that is always a step. In `avoid:` it may tell how to do the \
guarded step safely, so there only work that changes the machine is found, and not what the guarded step does \
anyway. Prohibitions (\"Do not …\", \"Never …\") are no steps.",
    bad: "\
parts
    cover       \"Bearing cover\"
    drain-valve \"Drain valve\"

note \"Open the drain valve before you lift the cover.\"
clean cover, drain-valve
",
    good: "\
parts
    cover       \"Bearing cover\"
    drain-valve \"Drain valve\"

open drain-valve
note \"The drain valve stays open until the cover is back.\"
clean cover
close drain-valve
",
    check,
};

/// Effects that leave the machine in another state: never a mere manner of working.
const CHANGES: [Effect; 18] = [
    Effect::TakesOff,
    Effect::Fits,
    Effect::Renews,
    Effect::Loosens,
    Effect::Tightens,
    Effect::Unlocks,
    Effect::Untags,
    Effect::Drains,
    Effect::Fills,
    Effect::Disconnects,
    Effect::Connects,
    Effect::ShutsDown,
    Effect::Isolates,
    Effect::LocksOut,
    Effect::ReleasesEnergy,
    Effect::Starts,
    Effect::Opens,
    Effect::Closes,
];

fn check(subject: &Subject<'_>, findings: &mut Vec<Finding>) {
    let Some(procedure) = subject.procedure() else { return };
    let nouns = Nouns { declarations: &subject.document.declarations, lowered: OnceCell::new() };
    for (message, step) in procedure.messages().filter(|(message, _)| message.standing.is_none()) {
        let told = [&message.hazard_text, &message.harm, &message.text];
        for prose in told.into_iter().flatten() {
            orders(prose, &nouns, &mut |order| findings.push(finding(message, prose, &order)));
        }
        if let Some(prose) = &message.avoid {
            orders(prose, &nouns, &mut |order| {
                if order.changes() && !step.is_some_and(|step| does(step, &order)) {
                    findings.push(finding(message, prose, &order));
                }
            });
        }
    }
}

fn finding(message: &Message, prose: &Prose, order: &Order<'_>) -> Finding {
    let word = message.signal.value.word();
    let text =
        format!("This {word} hides a step: `{}` has no number and no tick on the checklist", order.written);
    let help = match message.signal.value {
        Signal::Note => "Make it a step, and let the note only say what is so",
        _ => "Make it a step before this one, and let the message say what to keep away from",
    };
    Finding::new(RULE.id, prose.span_of(order.start, order.end), text).help(help)
}

/// An imperative found in prose.
struct Order<'a> {
    verb: &'static Verb,
    object: Name,
    /// Verb and object as written.
    written: &'a str,
    /// The sentence, in bytes of the prose.
    start: usize,
    end: usize,
}

impl Order<'_> {
    fn changes(&self) -> bool {
        CHANGES.iter().any(|effect| self.verb.does(*effect))
    }
}

/// The guarded step does the same to the same thing: the message tells how.
fn does(step: &Step, order: &Order<'_>) -> bool {
    let works = step.actions.iter().filter_map(|action| action.work());
    works.into_iter().any(|work| {
        let same = work.verb.effects.iter().any(|effect| order.verb.does(*effect));
        same && work.objects.iter().any(|object| object.name == Some(order.object))
    })
}

fn orders<'a>(prose: &'a Prose, nouns: &Nouns<'_>, found: &mut impl FnMut(Order<'a>)) {
    for range in sentences(&prose.source) {
        let sentence = prose.source.get(range.clone()).unwrap_or("");
        let Some((verb, at, rest)) = imperative(sentence) else { continue };
        let Some((object, end)) = declared_object(sentence, rest, prose, nouns) else { continue };
        let written = sentence.get(at..end).unwrap_or(sentence);
        found(Order { verb, object, written, start: range.start, end: range.end });
    }
}

/// The verb a sentence begins with, also after a leading clause ("Before you start, …"): where it starts and ends.
fn imperative(sentence: &str) -> Option<(&'static Verb, usize, usize)> {
    const LEADING: [&str; 13] = [
        "if", "when", "before", "after", "while", "once", "until", "to", "where", "first", "then", "always",
        "please",
    ];
    // As in `put together`.
    const LONGEST_PARTICLE: usize = 8;
    let first = word_at(sentence, 0)?;
    let from = if LEADING.iter().any(|lead| lead.eq_ignore_ascii_case(first.1)) {
        match (sentence.find(','), first.1.to_ascii_lowercase().as_str()) {
            (_, "first" | "then" | "always" | "please") => first.0 + first.1.len(),
            (Some(comma), _) => comma + 1,
            (None, _) => return None,
        }
    } else {
        0
    };
    let (start, word) = word_at(sentence, from.min(sentence.len()))?;
    let end = start + word.len();
    let mut words = word.to_lowercase();
    let one = Verb::find(&words);
    let two = word_at(sentence, end).filter(|(_, particle)| particle.len() <= LONGEST_PARTICLE);
    let two = two.and_then(|(at, particle)| {
        words.push(' ');
        words.push_str(particle);
        Some((Verb::find(&words)?, start, at + particle.len()))
    });
    two.or_else(|| Some((one?, start, end)))
}

/// The word at or after byte `from`, of letters and hyphens, if nothing but blanks, commas and markup stand before it.
fn word_at(text: &str, from: usize) -> Option<(usize, &str)> {
    let rest = text.get(from..)?;
    let lead = rest.len() - rest.trim_start_matches([' ', '\n', ',', ':', '*', '_']).len();
    let word = rest.get(lead..)?;
    let end = word.find(|c: char| !c.is_alphabetic() && c != '-').unwrap_or(word.len());
    (end > 0).then(|| (from + lead, word.get(..end).unwrap_or("")))
}

/// A declared part or tool right after the verb, behind "the", "both", "4" … or as `[name]`: where it ends.
fn declared_object(sentence: &str, from: usize, prose: &Prose, nouns: &Nouns<'_>) -> Option<(Name, usize)> {
    const DETERMINERS: [&str; 11] =
        ["the", "a", "an", "both", "all", "each", "every", "this", "these", "new", "old"];
    let rest = sentence.get(from..)?;
    let mut determined = false;
    for word in words(rest).take(4) {
        let written = rest.get(word.range.clone())?;
        match word.kind {
            WordKind::Reference => {
                return match prose.target(written.trim_matches(['[', ']']))? {
                    Target::Thing(name) => Some((name, from + word.range.end)),
                    Target::Step(_) => None,
                };
            }
            WordKind::Number => determined = true,
            WordKind::Plain if DETERMINERS.iter().any(|it| it.eq_ignore_ascii_case(written)) => {
                determined = true
            }
            WordKind::Plain if determined => {
                let (name, length) = nouns.starting(rest.get(word.range.start..)?)?;
                return Some((name, from + word.range.start + length));
            }
            _ => return None,
        }
    }
    None
}

/// What the declared parts are called in sentences.
struct Nouns<'a> {
    declarations: &'a Declarations,
    /// In small letters; made for the first sentence that could hide a step.
    lowered: OnceCell<HashMap<String, Name>>,
}

impl Nouns<'_> {
    fn lowered(&self) -> HashMap<String, Name> {
        let mut nouns = HashMap::new();
        for (part, id) in self.declarations.parts.iter().zip(0..) {
            for noun in [&part.thing.noun.singular, &part.thing.noun.plural] {
                nouns.entry(noun.to_lowercase()).or_insert(Name::Part(id));
            }
        }
        nouns
    }

    /// The part whose noun starts `text`, and the noun's length in bytes; the longest noun wins.
    fn starting(&self, text: &str) -> Option<(Name, usize)> {
        const MOST_WORDS: usize = 5;
        let ends: Vec<usize> = words(text).take(MOST_WORDS).map(|word| word.range.end).collect();
        ends.into_iter().rev().find_map(|end| {
            let name = self.lowered.get_or_init(|| self.lowered()).get(&text.get(..end)?.to_lowercase())?;
            Some((*name, end))
        })
    }
}
