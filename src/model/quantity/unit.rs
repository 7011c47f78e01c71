//! One unit of measurement, and how a unit is found by what an author wrote.
use std::collections::HashMap;
use std::sync::LazyLock;

use super::dimension::Dimension;
use super::exact::{self, Exact};

/// The system a unit is at home in.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Family {
    Metric,
    Imperial,
    /// Used in both: degrees, volts, percent.
    Neutral,
}

/// Which voltage or current is meant; an amount of one never stands for an amount of the other.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Waveform {
    Alternating,
    Direct,
}

/// The unit printed beside an author's where no setting says another.
#[derive(Debug, Clone, Copy)]
pub enum Beside {
    Nothing,
    Always(&'static Unit),
    /// `small` where the largest limit is below `below` (in the dimension's base unit), else `large`.
    BySize {
        below: Exact,
        small: &'static Unit,
        large: &'static Unit,
    },
}

/// A row of the closed table in [`units`](super::units).
#[derive(Debug, Clone, Copy)]
pub struct Unit {
    /// As printed: "N·m".
    pub symbol: &'static str,
    /// As the formatter writes it in a source, with plain letters where the trade has them: "N.m".
    pub source: &'static str,
    /// Further spellings, with `.` for every joining mark or space; see [`Unit::find`].
    pub spellings: &'static [&'static str],
    pub dimension: Dimension,
    pub family: Family,
    /// Base units in one of this unit, exact.
    pub factor: Exact,
    /// The base value of zero of this unit; not zero for points of temperature only.
    pub offset: Exact,
    pub beside: Beside,
    /// Voltages and currents said to be AC or DC.
    pub waveform: Option<Waveform>,
    /// The symbol after a number that is not one, where it differs.
    pub plural: Option<&'static str>,
}

impl Unit {
    pub(super) const fn new(
        symbol: &'static str,
        source: &'static str,
        dimension: Dimension,
        family: Family,
        factor: Exact,
    ) -> Unit {
        Unit {
            symbol,
            source,
            spellings: &[],
            dimension,
            family,
            factor,
            offset: exact::ratio(0, 1),
            beside: Beside::Nothing,
            waveform: None,
            plural: None,
        }
    }

    pub(super) const fn spelled(mut self, spellings: &'static [&'static str]) -> Unit {
        self.spellings = spellings;
        self
    }

    pub(super) const fn beside(mut self, other: &'static Unit) -> Unit {
        self.beside = Beside::Always(other);
        self
    }

    pub(super) const fn by_size(mut self, below: Exact, small: &'static Unit, large: &'static Unit) -> Unit {
        self.beside = Beside::BySize { below, small, large };
        self
    }

    pub(super) const fn from_zero_at(mut self, offset: Exact) -> Unit {
        self.offset = offset;
        self
    }

    pub(super) const fn of(mut self, waveform: Waveform) -> Unit {
        self.waveform = Some(waveform);
        self
    }

    pub(super) const fn plural(mut self, plural: &'static str) -> Unit {
        self.plural = Some(plural);
        self
    }

    /// The unit an author's word means. Joining marks (`.` `·` `-` `*` or a space), raised figures and the two
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
        let ends: Vec<usize> = reach.filter(|&at| ends_word(text, at)).collect();
        ends.into_iter().rev().find_map(|end| Some((Unit::find(text.get(..end)?)?, end)))
    }

    /// Up to three spellings an unknown word may have been meant as, likeliest first.
    pub fn suggest(written: &str) -> Vec<&'static str> {
        let wanted = plain(written.trim()).to_lowercase();
        if wanted.is_empty() || wanted.len() > LONGEST_WORD {
            return Vec::new();
        }
        let mut near: Vec<(usize, usize, &'static str)> = all()
            .enumerate()
            .filter_map(|(order, unit)| Some((distance(unit, &wanted)?, order, unit.source)))
            .collect();
        near.sort_unstable();
        near.into_iter().take(3).map(|(_, _, source)| source).collect()
    }

    /// The units a bare number of that dimension most likely lacks, most used first.
    pub fn likely_for(dimension: Dimension) -> &'static [&'static Unit] {
        let units = dimension.units();
        units.get(..units.len().min(3)).unwrap_or(units)
    }

    /// Whether amounts of the two can be compared: same dimension, and not AC against DC.
    pub fn comparable(&self, other: &Unit) -> bool {
        let waves_differ =
            self.waveform.is_some() && other.waveform.is_some() && self.waveform != other.waveform;
        self.dimension == other.dimension && !waves_differ
    }

    /// Whether zero of this unit is a mark on a scale and not "nothing", as 0 °C is.
    pub fn is_point(&self) -> bool {
        self.dimension == Dimension::Temperature
    }
}

/// Rows are told apart by their symbol.
impl PartialEq for Unit {
    fn eq(&self, other: &Unit) -> bool {
        self.symbol == other.symbol
    }
}

impl Eq for Unit {}

/// In bytes; longer text is no unit and is not looked at.
const LONGEST_WORD: usize = 32;

static INDEX: LazyLock<HashMap<&'static str, &'static Unit>> =
    LazyLock::new(|| all().flat_map(|unit| names(unit).map(move |name| (name, unit))).collect());

/// Every unit of every dimension, the likelier ones of a dimension first.
fn all() -> impl Iterator<Item = &'static Unit> {
    Dimension::ALL.into_iter().flat_map(|dimension| dimension.units().iter().copied())
}

fn names(unit: &'static Unit) -> impl Iterator<Item = &'static str> {
    [unit.symbol, unit.source].into_iter().chain(unit.spellings.iter().copied())
}

/// The spelling the index is keyed by: one `.` for each run of joining marks, plain figures and letters.
fn plain(written: &str) -> String {
    let mut out = String::with_capacity(written.len());
    for character in written.chars() {
        match character {
            '.' | '·' | '⋅' | '∙' | '•' | '-' | '\u{2010}' | '\u{2011}' | '*' | '×' | ' ' | '\t'
            | '\u{a0}' => {
                if !out.ends_with('.') {
                    out.push('.');
                }
            }
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
            strsim::osa_distance(&name, wanted).min(if name.replace('.', "") == wanted.replace('.', "") {
                0
            } else {
                99
            })
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
        (Some(last), Some(next)) => !(in_word(last) && in_word(next)) && !starts_joined_word(text, at),
    }
}

/// `N.m` does not end after `N`: a joining mark with a letter behind it goes on.
fn starts_joined_word(text: &str, at: usize) -> bool {
    let mut rest = text.get(at..).unwrap_or("").chars();
    matches!(rest.next(), Some('.' | '-' | '*' | '·')) && rest.next().is_some_and(char::is_alphanumeric)
}
