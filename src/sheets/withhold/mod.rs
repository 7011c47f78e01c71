//! Values that learners look up: blank on the handout, listed in the answers.
use super::{Sheet, blanks, html};
use crate::model::quantity::{Dimension, Figures, Unit};
use crate::model::verb::Effect;
use crate::model::{Action, Step};
use std::borrow::Cow;
use std::collections::HashSet;
use std::ops::Range;

/// Which values are left blank. Safety messages keep all of theirs.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct Withhold {
    /// What is tightened to.
    pub torque: bool,
    /// What readings are held against.
    pub limits: bool,
}

/// What stands for a withheld value, as markup.
pub fn blank(out: &mut String, sheet: &Sheet<'_>) {
    out.push_str("<span class=\"look-up\" role=\"img\" aria-label=\"");
    html::escape(out, sheet.label("value-to-look-up"));
    out.push_str("\">______________</span>");
}

impl Withhold {
    /// Whether the values in this action's sentence are withheld.
    pub fn hides(self, action: &Action) -> bool {
        match action {
            Action::Work(work) => {
                self.torque && work.verb.tightens() || self.limits && work.verb.does(Effect::Measures)
            }
            Action::Calculate(_) => self.limits,
            _ => false,
        }
    }

    pub fn hides_any<'a>(self, actions: impl IntoIterator<Item = &'a Action>) -> bool {
        (self.torque || self.limits) && actions.into_iter().any(|action| self.hides(action))
    }

    pub fn hides_blank(self, kind: blanks::Kind) -> bool {
        match kind {
            blanks::Kind::Tightened => self.torque,
            blanks::Kind::Reading => self.limits,
            blanks::Kind::Initials | blanks::Kind::Record => false,
        }
    }
}

/// The withheld numbers, so that an author's own words do not give them away.
#[derive(Debug, Default)]
pub struct Numbers(HashSet<(String, Option<Dimension>)>);

impl Numbers {
    /// All that the answers hold.
    pub fn of(sheet: &Sheet<'_>, withhold: Withhold) -> Numbers {
        let mut found = HashSet::new();
        if withhold == Withhold::default() {
            return Numbers(found);
        }
        for step in sheet.procedure.steps() {
            for text in answers(sheet, step, withhold).iter().flat_map(|answer| &answer.values) {
                for amount in amounts(&with_points(sheet, text), figures(sheet)) {
                    let numbers = amount.numbers.into_iter().map(str::to_owned);
                    found.extend(numbers.map(|number| (number, amount.dimension)));
                }
            }
        }
        Numbers(found)
    }

    /// `markup` with each withheld number in its texts left blank.
    pub fn blanked(&self, sheet: &Sheet<'_>, markup: String) -> String {
        if self.0.is_empty() {
            return markup;
        }
        let mut out = String::with_capacity(markup.len());
        let mut rest = markup.as_str();
        while !rest.is_empty() {
            let end = rest.find('<').unwrap_or(rest.len());
            let (text, after) = rest.split_at(end);
            self.text(&mut out, sheet, text);
            let close = after.find('>').map_or(after.len(), |at| at + 1);
            let (tag, after) = after.split_at(close);
            out.push_str(tag);
            rest = after;
        }
        out
    }

    /// The same for what stands in `out` from the byte `from` on.
    pub fn blank_from(&self, out: &mut String, sheet: &Sheet<'_>, from: usize) {
        if !self.0.is_empty() {
            let written = out.split_off(from);
            out.push_str(&self.blanked(sheet, written));
        }
    }

    fn text(&self, out: &mut String, sheet: &Sheet<'_>, text: &str) {
        let mut from = 0;
        for amount in amounts(&with_points(sheet, text), figures(sheet)) {
            let known = |number: &&str| {
                let of = |dimension| self.0.contains(&((*number).to_owned(), dimension));
                let bare = number.contains('.') && self.0.iter().any(|(known, _)| known == number);
                bare || amount.dimension.is_some() && of(amount.dimension)
            };
            if amount.numbers.iter().any(known) {
                out.push_str(text.get(from..amount.range.start).unwrap_or(""));
                blank(out, sheet);
                from = amount.range.end;
            }
        }
        out.push_str(text.get(from..).unwrap_or(""));
    }
}

/// One withheld value: of what, and its lines.
pub struct Answer {
    pub what: String,
    pub values: Vec<String>,
}

/// What is withheld of a step.
pub fn answers(sheet: &Sheet<'_>, step: &Step, withhold: Withhold) -> Vec<Answer> {
    let blanks = blanks::of(sheet, step).into_iter();
    let withheld = blanks.filter(|it| withhold.hides_blank(it.kind) && !it.limits.is_empty());
    withheld.map(|it| Answer { what: it.subject, values: it.limits }).collect()
}

/// A number or two with a unit behind them, as they stand in a text.
struct Amount<'t> {
    range: Range<usize>,
    numbers: Vec<&'t str>,
    dimension: Option<Dimension>,
}

fn figures(sheet: &Sheet<'_>) -> &'static Figures {
    sheet.words.figures()
}

/// The text with points for the decimal commas of the sheet's language, of the same length: the author's own words
/// have points on every sheet.
fn with_points<'t>(sheet: &Sheet<'_>, text: &'t str) -> Cow<'t, str> {
    if figures(sheet).decimal != ',' || !text.contains(',') {
        return Cow::Borrowed(text);
    }
    let digit = |at: usize| text.as_bytes().get(at).is_some_and(u8::is_ascii_digit);
    let point = |(at, c): (usize, char)| {
        let inside = c == ',' && at > 0 && digit(at - 1) && digit(at + 1);
        if inside { '.' } else { c }
    };
    Cow::Owned(text.char_indices().map(point).collect())
}

fn amounts<'t>(text: &'t str, figures: &Figures) -> Vec<Amount<'t>> {
    let mut found = Vec::new();
    let mut at = 0;
    while let Some(start) = next_number(text, at) {
        let mut end = start + number_length(text.get(start..).unwrap_or(""));
        let mut numbers = vec![text.get(start..end).unwrap_or("")];
        // "30.002–30.015", "8 to 10", "9 ± 1"
        for joint in ["–", " to ", figures.to, " ± ", "-"] {
            let Some(after) = text.get(end..).and_then(|rest| rest.strip_prefix(joint)) else { continue };
            let length = number_length(after);
            if length > 0 {
                numbers.push(after.get(..length).unwrap_or(""));
                end += joint.len() + length;
                break;
            }
        }
        let rest = text.get(end..).unwrap_or("");
        let behind = rest.trim_start_matches([' ', '\u{a0}']);
        let unit = Unit::starting(behind);
        let range_end = unit.map_or(end, |(_, length)| end + (rest.len() - behind.len()) + length);
        found.push(Amount {
            range: start..range_end,
            numbers,
            dimension: unit.map(|(unit, _)| unit.dimension),
        });
        at = range_end;
    }
    found
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

/// The length of "30.002" or "7/16" at the start; 0 where there is no number.
fn number_length(text: &str) -> usize {
    let bytes = text.as_bytes();
    let digit = |at: usize| bytes.get(at).is_some_and(u8::is_ascii_digit);
    let mut end = 0;
    while digit(end) || end > 0 && matches!(bytes.get(end), Some(b'.' | b'/')) && digit(end + 1) {
        end += 1;
    }
    end
}
