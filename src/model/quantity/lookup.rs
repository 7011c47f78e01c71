//! How a unit is found by what an author wrote.
use std::sync::LazyLock;

use super::dimension::Dimension;
use super::unit::Unit;
use crate::source::WordMap;

impl Unit {
    /// The unit an author's word means. Joining marks (`.` `·` `-` `*`), raised figures and the two
    /// micro signs are read alike; letters are not folded, since `mPa` is not `MPa`.
    pub fn find(written: &str) -> Option<&'static Unit> {
        let written = written.trim();
        if written.len() > LONGEST_WORD {
            return None;
        }
        INDEX.get(written).or_else(|| INDEX.get(plain(written).as_str())).copied()
    }

    /// The longest unit that starts `text` and ends where a word does, with its length in bytes: `N.m` of
    /// `N.m crosswise`, `US gal` of `US gal of oil`.
    pub fn starting(text: &str) -> Option<(&'static Unit, usize)> {
        let reach =
            text.char_indices().map(|(at, _)| at).chain([text.len()]).take_while(|&at| at <= LONGEST_WORD);
        if text.starts_with(char::is_whitespace) {
            return None;
        }
        let ends: Vec<usize> = reach.filter(|&at| ends_word(text, at)).collect();
        ends.into_iter().rev().find_map(|end| Some((Unit::find(text.get(..end)?)?, end)))
    }

    /// Up to three spellings an unknown word may have been meant as, likeliest first; where only the case or the
    /// joining marks are wrong, nothing else.
    pub fn suggest(written: &str) -> Vec<&'static str> {
        let wanted = plain(written.trim()).to_lowercase();
        if wanted.is_empty() || wanted.len() > LONGEST_WORD {
            return Vec::new();
        }
        if let Some((_, meant)) = MEANT.iter().find(|(word, _)| *word == wanted) {
            return vec![*meant];
        }
        let mut near: Vec<(usize, usize, &'static str)> = all()
            .enumerate()
            .filter_map(|(order, unit)| Some((distance(unit, &wanted)?, order, unit.source)))
            .collect();
        near.sort_unstable();
        let sure = near.first().is_some_and(|(letters, ..)| *letters == 0);
        near.into_iter()
            .take_while(|(letters, ..)| !sure || *letters == 0)
            .take(3)
            .map(|(_, _, source)| source)
            .collect()
    }
}

/// Words that are read as no unit, since they may mean several, and what they most often stand for.
const MEANT: &[(&str, &str)] = &[("c", "degC"), ("f", "degF"), ("ton", "t"), ("tons", "t"), ("#", "lb")];

/// A joining mark or space; of a run only the first counts.
fn joined(out: &mut String, mark: char) {
    if !out.ends_with(['.', ' ']) {
        out.push(mark);
    }
}

/// In bytes; longer text is no unit and is not looked at.
const LONGEST_WORD: usize = 32;

static INDEX: LazyLock<WordMap<&'static str, &'static Unit>> =
    LazyLock::new(|| all().flat_map(|unit| names(unit).map(move |name| (name, unit))).collect());

/// Every unit of every dimension, the likelier ones of a dimension first.
fn all() -> impl Iterator<Item = &'static Unit> {
    Dimension::ALL.into_iter().flat_map(|dimension| dimension.units().iter().copied())
}

fn names(unit: &'static Unit) -> impl Iterator<Item = &'static str> {
    [unit.symbol, unit.source].into_iter().chain(unit.spellings.iter().copied())
}

/// The spelling the index is keyed by: one `.` or space for each run of joining marks, plain figures and letters.
fn plain(written: &str) -> String {
    let mut out = String::with_capacity(written.len());
    for character in written.chars() {
        match character {
            '.' | '·' | '⋅' | '∙' | '•' | '-' | '\u{2010}' | '\u{2011}' | '*' | '×' => {
                joined(&mut out, '.')
            }
            ' ' | '\t' | '\u{a0}' | '\u{202f}' => joined(&mut out, ' '),
            '²' => out.push('2'),
            '³' => out.push('3'),
            'µ' | 'μ' => out.push('u'),
            'º' => out.push('°'),
            '\u{2126}' => out.push('Ω'),
            '″' | '”' => out.push('"'),
            other => out.push(other),
        }
    }
    if out.ends_with('.') {
        out.pop();
    }
    out
}

/// How many letters apart, or `None` where too many for the word's length.
fn distance(unit: &'static Unit, wanted: &str) -> Option<usize> {
    let best = names(unit)
        .map(|name| {
            let name = name.to_lowercase();
            let same_letters = name.replace('.', "") == wanted.replace('.', "");
            if same_letters { 0 } else { strsim::osa_distance(&name, wanted) }
        })
        .min()?;
    let allowed = wanted.chars().count().div_ceil(3).min(3);
    (best <= allowed && best < wanted.chars().count()).then_some(best)
}

/// Whether a unit may end at byte `at`: not inside a word or number.
fn ends_word(text: &str, at: usize) -> bool {
    let before = text.get(..at).and_then(|part| part.chars().next_back());
    let after = text.get(at..).and_then(|part| part.chars().next());
    let in_word = |c: char| c.is_alphanumeric() || matches!(c, '°' | '/' | '·' | '⋅' | '²' | '³');
    match (before, after) {
        (None, _) => false,
        (Some(last), _) if last.is_whitespace() || matches!(last, '.' | '-' | '*') => false,
        (_, None) => true,
        (Some(last), Some(next)) => !((in_word(last) && in_word(next)) || starts_joined_word(text, at)),
    }
}

/// `N.m` does not end after `N`: a joining mark with a letter behind it goes on.
fn starts_joined_word(text: &str, at: usize) -> bool {
    let mut rest = text.get(at..).unwrap_or("").chars();
    matches!(rest.next(), Some('.' | '-' | '*' | '·')) && rest.next().is_some_and(char::is_alphanumeric)
}
