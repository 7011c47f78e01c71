//! The withheld numbers, so that an author's own words do not give them away.
use super::amounts::{Amount, amounts};
use super::{Withhold, blank, values};
use crate::model::quantity::{Dimension, Exact, Form, Number, Quantity, Unit};
use crate::sheets::Sheet;
use crate::source::Span;
use std::collections::HashSet;

#[derive(Debug, Default)]
pub struct Numbers {
    /// In the dimension's base unit.
    measured: HashSet<(Exact, Dimension)>,
    /// As they stand before their units.
    bare: HashSet<Exact>,
}

/// Tags that stand inside a line of text: the text goes on behind them.
const INLINE: [&str; 8] = ["a", "b", "code", "em", "i", "s", "span", "strong"];

impl Numbers {
    /// Those of all that the answers hold.
    pub fn of(sheet: &Sheet<'_>, withhold: Withhold) -> Numbers {
        let mut numbers = Numbers::default();
        for action in sheet.procedure.steps().flat_map(values::actions) {
            for quantity in values::of(sheet, action, withhold) {
                let second = quantity.second(&sheet.settings().units.second);
                numbers.take(&quantity);
                second.iter().for_each(|second| numbers.take(second));
            }
        }
        numbers
    }

    fn take(&mut self, quantity: &Quantity) {
        // The tolerance alone is no answer; what it allows is.
        let is_tolerance = matches!(quantity.form(), Form::Tolerance { .. });
        for number in quantity.form().numbers().take(if is_tolerance { 1 } else { usize::MAX }) {
            self.measured.extend(in_base(number, quantity.unit()));
            self.bare.insert(number.value());
        }
        let bounds = [quantity.lower(), quantity.upper()].into_iter().flatten();
        self.measured.extend(bounds.map(|bound| (bound, quantity.dimension())));
    }

    /// `markup` with each withheld number in its texts left blank.
    pub fn blanked(&self, sheet: &Sheet<'_>, markup: String) -> String {
        if self.bare.is_empty() {
            return markup;
        }
        let mut out = String::with_capacity(markup.len());
        let mut line = Line::default();
        let mut rest = markup.as_str();
        while !rest.is_empty() {
            let (text, after) = rest.split_at(rest.find('<').unwrap_or(rest.len()));
            line.text.push_str(text);
            let (tag, after) = after.split_at(after.find('>').map_or(after.len(), |at| at + 1));
            let name = tag.trim_start_matches(['<', '/']);
            let name = name.split(|c: char| !c.is_ascii_alphanumeric()).next().unwrap_or("");
            line.tags.push((line.text.len(), tag));
            if !INLINE.contains(&name) {
                self.write(&mut out, sheet, &std::mem::take(&mut line));
            }
            rest = after;
        }
        self.write(&mut out, sheet, &line);
        out
    }

    /// The same for what stands in `out` from the byte `from` on.
    pub fn blank_from(&self, out: &mut String, sheet: &Sheet<'_>, from: usize) {
        if !self.bare.is_empty() {
            let written = out.split_off(from);
            out.push_str(&self.blanked(sheet, written));
        }
    }

    fn write(&self, out: &mut String, sheet: &Sheet<'_>, line: &Line<'_>) {
        let hidden = amounts(&line.text, sheet).into_iter().filter(|amount| self.knows(amount));
        let mut hidden = hidden.map(|amount| amount.range).peekable();
        let mut from = 0;
        let mut tags = line.tags.iter().peekable();
        loop {
            let tag_at = tags.peek().map_or(line.text.len(), |(at, _)| *at);
            match hidden.peek() {
                Some(range) if range.start < tag_at => {
                    out.push_str(line.text.get(from..range.start).unwrap_or(""));
                    blank(out, sheet);
                    from = range.end;
                    // Tags inside what is blanked stay.
                    while let Some((_, tag)) = tags.next_if(|(at, _)| *at < range.end) {
                        out.push_str(tag);
                    }
                    hidden.next();
                }
                _ => {
                    out.push_str(line.text.get(from..tag_at).unwrap_or(""));
                    from = from.max(tag_at);
                    match tags.next() {
                        Some((_, tag)) => out.push_str(tag),
                        None => break,
                    }
                }
            }
        }
    }

    /// "8 ± 1 N·m" says 7 and 9 N·m too.
    fn knows_bound(&self, amount: &Amount) -> bool {
        let (Some((plus, minus)), Some(unit), [nominal, ..]) =
            (amount.tolerance, amount.unit, &*amount.numbers)
        else {
            return false;
        };
        let form = Form::Tolerance { nominal: *nominal, plus, minus };
        let Ok(quantity) = Quantity::new(form, unit, Span::default()) else { return false };
        let mut bounds = [quantity.lower(), quantity.upper()].into_iter().flatten();
        bounds.any(|bound| self.measured.contains(&(bound, unit.dimension)))
    }

    fn knows(&self, amount: &Amount) -> bool {
        if self.knows_bound(amount) {
            return true;
        }
        amount.numbers.iter().any(|number| {
            let is = |number: &Number| match amount.unit {
                Some(unit) => in_base(*number, unit).is_some_and(|it| self.measured.contains(&it)),
                None => {
                    number.decimal_places().is_some_and(|places| places > 0)
                        && self.bare.contains(&number.value())
                }
            };
            // A sign may stand before it, or a dash.
            is(number) || Number::parse(&format!("-{number}")).is_ok_and(|below| is(&below))
        })
    }
}

/// `None` for what cannot be held.
fn in_base(number: Number, unit: &'static Unit) -> Option<(Exact, Dimension)> {
    let quantity = Quantity::new(Form::Exact(number), unit, Span::default()).ok()?;
    Some((quantity.lower()?, unit.dimension))
}

/// A stretch of text with the tags inside it and where they stand.
#[derive(Default)]
struct Line<'m> {
    text: String,
    tags: Vec<(usize, &'m str)>,
}
