//! Margin lines whose first word is a misspelt word of the language. Read as steps they would make a fault of every
//! line under them; set aside as unread they are one.
use crate::model::settings::Settings;
use crate::model::slip::Slip;
use crate::model::verb::Verb;
use crate::syntax::ast::{Action, Head, Statement, Tree};
use crate::syntax::words::OPENERS;

/// Verbs that are in no table, since they steer.
const STEERING: [&str; 11] =
    ["hold", "wait", "follow", "repeat", "choose", "due", "stop", "skip", "report", "replace", "calculate"];
const LONGEST: usize = 12;

/// Makes such lines unread, with a slip for each.
pub(super) fn set_aside(tree: &mut Tree, settings: &Settings) -> Vec<Slip> {
    let mut slips = Vec::new();
    for statement in &mut tree.statements {
        if let Some(slip) = slip(statement, settings) {
            statement.head = Head::Unread;
            slips.push(slip);
        }
    }
    slips
}

fn slip(statement: &Statement, settings: &Settings) -> Option<Slip> {
    let Head::Step(actions) = &statement.head else { return None };
    let first = actions.first().filter(|first| first.calculation.is_none())?;
    let word = first.verb.as_str();
    if let Some(block) = block_without_its_s(actions) {
        return Some(Slip::UnknownVerb { verb: first.verb.clone(), near: vec![block.to_owned()] });
    }
    let known = is_verb(word, settings);
    let with_particle = || {
        first.particle.as_ref().is_some_and(|particle| {
            let words = format!("{word} {}", particle.value);
            Verb::find(&words).is_some() || settings.verbs.contains_key(&words.replace(' ', "-"))
        })
    };
    if known || with_particle() {
        return None;
    }
    let opener = meant(word)?;
    Some(Slip::UnknownVerb { verb: first.verb.clone(), near: vec![opener.to_owned()] })
}

/// `part` alone on its line, which as a verb would lack what it is done to.
fn block_without_its_s(actions: &[Action]) -> Option<&'static str> {
    let [Action { verb, particle: None, phrases, .. }] = actions else { return None };
    let block = |opener: &&str| opener.strip_suffix('s') == Some(verb.as_str());
    OPENERS.into_iter().find(block).filter(|_| phrases.is_empty())
}

/// Whether the word alone is a verb: of the table, of the house, or one that steers.
pub(super) fn is_verb(word: &str, settings: &Settings) -> bool {
    let house = || settings.verbs.contains_key(word) && !OPENERS.contains(&word);
    Verb::find(word).is_some() || STEERING.contains(&word) || house()
}

/// The opener that is nearer to `word` than any verb.
fn meant(word: &str) -> Option<&'static str> {
    if word.len() > LONGEST {
        return None;
    }
    let apart = |other: &str| strsim::osa_distance(word, other);
    let opener = OPENERS.into_iter().min_by_key(|opener| apart(opener))?;
    let distance = apart(opener);
    let near = distance <= if opener.len() < 6 { 1 } else { 2 };
    let verbs = || STEERING.into_iter().chain(Verb::words());
    (near && verbs().all(|verb| apart(verb) > distance)).then_some(opener)
}
