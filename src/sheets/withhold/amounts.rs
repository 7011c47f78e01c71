//! Numbers with their units, as they stand in a text of any language.
use crate::model::quantity::{Figures, Number, Unit};
use crate::sheets::Sheet;
use std::ops::Range;

/// A number or a few with a unit behind them.
pub struct Amount {
    pub range: Range<usize>,
    /// Without those of the tolerance.
    pub numbers: Vec<Number>,
    /// Of the first number: how much more and how much less is allowed.
    pub tolerance: Option<(Number, Number)>,
    pub unit: Option<&'static Unit>,
}

/// What joins two numbers of one amount: "30.002–30.015", "8 to 10", "9 ± 1", "500 +1/−0".
const JOINTS: [&str; 19] = [
    " and ",
    " und ",
    " to ",
    " bis ",
    " et ",
    " y ",
    " a ",
    " à ",
    " or ",
    " – ",
    " - ",
    " ± ",
    " +",
    "/\u{2212}",
    "/-",
    "±",
    "–",
    "-",
    "+",
];

pub fn amounts(text: &str, sheet: &Sheet<'_>) -> Vec<Amount> {
    let figures = sheet.words.figures();
    let comma = figures.decimal == ',' || sheet.words.written_figures().decimal == ',';
    let mut found = Vec::new();
    let mut at = 0;
    while let Some(start) = next_number(text, at) {
        let (first, length) = number(text.get(start..).unwrap_or(""), comma);
        let mut numbers = Vec::from_iter(first);
        let mut tolerance = None;
        let mut end = start + length.max(1);
        while let Some((joint, next, length)) = joined(text.get(end..).unwrap_or(""), comma) {
            match (joint, tolerance) {
                (" ± " | "±" | " +" | "+", _) => tolerance = Some((next, next)),
                ("/\u{2212}" | "/-", Some((plus, _))) => tolerance = Some((plus, next)),
                _ => numbers.push(next),
            }
            end += length;
        }
        let mut range = start..end;
        let mut rest = text.get(end..).unwrap_or("");
        // "(45 ± 5)°"
        if let Some(behind) = rest.strip_prefix(')')
            && text.get(..start).is_some_and(|before| before.ends_with('('))
            && unit(behind, figures).is_some()
        {
            range.start -= 1;
            rest = behind;
        }
        let behind = rest.trim_start_matches([' ', '\u{a0}', '\u{202f}']);
        let unit = unit(behind, figures);
        if let Some((_, length)) = unit {
            range.end = text.len() - behind.len() + length;
        }
        at = range.end;
        found.push(Amount { range, numbers, tolerance, unit: unit.map(|(unit, _)| unit) });
    }
    found
}

/// The unit at the start, in the table's spelling or in the language of the sheet, and its length.
fn unit(text: &str, figures: &Figures) -> Option<(&'static Unit, usize)> {
    let ends = |own: &str| !text.get(own.len()..).is_some_and(|it| it.starts_with(char::is_alphanumeric));
    let own = figures.units.iter().filter(|(_, own)| text.starts_with(own) && ends(own));
    let own = own.max_by_key(|(_, own)| own.len());
    let own = own.and_then(|(written, own)| Some((Unit::find(written)?, own.len())));
    own.or_else(|| Unit::starting(text))
}

/// A joint and a number behind it, and the length of both.
fn joined(text: &str, comma: bool) -> Option<(&'static str, Number, usize)> {
    JOINTS.iter().find_map(|joint| {
        let after = text.strip_prefix(joint)?;
        let bare = after.trim_start_matches(['\u{2212}', '-']);
        let (number, length) = number(bare, comma);
        Some((*joint, number?, joint.len() + (after.len() - bare.len()) + length))
    })
}

/// Where the next number starts that is no part of a word or of a character reference.
fn next_number(text: &str, from: usize) -> Option<usize> {
    let mut before = text.get(..from).and_then(|it| it.chars().next_back());
    for (at, c) in text.get(from..)?.char_indices() {
        let starts = before.is_none_or(|it| !it.is_alphanumeric() && !matches!(it, '.' | '#' | '/'));
        if c.is_ascii_digit() && starts {
            return Some(from + at);
        }
        before = Some(c);
    }
    None
}

/// "30.002", "7/16" or "1 7/16" at the start, and its length; 0 where there is none. With `comma`, "30,002" too.
fn number(text: &str, comma: bool) -> (Option<Number>, usize) {
    let bytes = text.as_bytes();
    let digit = |at: usize| bytes.get(at).is_some_and(u8::is_ascii_digit);
    let run = |from: usize| from + bytes.iter().skip(from).take_while(|byte| byte.is_ascii_digit()).count();
    let mut end = run(0);
    if end == 0 {
        return (None, 0);
    }
    let mark = bytes.get(end).copied();
    if digit(end + 1) && (mark == Some(b'.') || mark == Some(b'/') || comma && mark == Some(b',')) {
        end = run(end + 1);
    } else if matches!(mark, Some(b' ' | b'-')) && digit(end + 1) {
        let over = run(end + 1);
        if bytes.get(over) == Some(&b'/') && digit(over + 1) {
            end = run(over + 1);
        }
    }
    let written = text.get(..end).unwrap_or("").replace(',', ".");
    (Number::parse(&written).ok(), end)
}
