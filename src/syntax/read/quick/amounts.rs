//! Plain amounts: digits and a unit of letters.
use super::cursor::Cursor;
use super::words::{leads, may_lead};
use crate::source::Text;
use crate::syntax::ast::{Amount, PhraseKind, Quantity, QuantityForm};

impl<'a> Cursor<'a> {
    /// `3 times`, or a quantity.
    pub(super) fn amounts(&mut self) -> Option<PhraseKind> {
        let from = self.at;
        let count = self.digits()?;
        let parted = self.take(b' ');
        self.blanks();
        if parted && matches!(self.word(), Some("times" | "passes")) {
            return Some(PhraseKind::Times { count: count.parse().unwrap_or(u32::MAX), at_most: false });
        }
        self.at = from;
        Some(PhraseKind::Quantity(Box::new(self.quantity()?)))
    }

    /// An amount, or two with `to` between.
    pub(super) fn quantity(&mut self) -> Option<Quantity> {
        let from = self.at;
        let low = self.amount()?;
        let end = self.at;
        self.blanks();
        let parted = self.at > end;
        let to = parted && self.word() == Some("to") && self.take(b' ');
        self.blanks();
        let form = if to && self.peek().is_some_and(|byte| byte.is_ascii_digit()) {
            QuantityForm::Between { low, high: self.amount()? }
        } else {
            self.at = end;
            QuantityForm::Exact(low)
        };
        let quantity = Quantity { form, also: None, span: self.span(from) };
        // A second unit, a tolerance, a dash: more than the plainest kind.
        let more = self.text.get(self.at..)?.trim_start_matches(' ').bytes().next();
        more.is_none_or(|byte| byte.is_ascii_alphabetic() || matches!(byte, b',' | b';' | b'"'))
            .then_some(quantity)
    }

    fn digits(&mut self) -> Option<&'a str> {
        let rest = self.text.get(self.at..)?;
        let length = rest.bytes().position(|byte| !byte.is_ascii_digit()).unwrap_or(rest.len());
        self.at += length;
        rest.get(..length).filter(|digits| !digits.is_empty())
    }

    /// Digits, perhaps a point and more, perhaps a unit of letters.
    fn amount(&mut self) -> Option<Amount> {
        let from = self.at;
        self.digits()?;
        if self.take(b'.') {
            self.digits()?;
        }
        let span = self.span(from);
        let number = Text::new(self.text.get(from..self.at)?, span);
        let end = self.at;
        let bytes = self.text.as_bytes();
        if self.take(b',') && self.peek().is_some_and(|byte| byte.is_ascii_digit()) {
            return None;
        }
        self.at = end;
        self.blanks();
        let unit = self.unit()?;
        if unit.is_none() {
            self.at = end;
        }
        // `1 7/16`
        let blank_then_digit =
            bytes.get(end) == Some(&b' ') && bytes.get(end + 1).is_some_and(u8::is_ascii_digit);
        (!blank_then_digit).then(|| Amount { number, unit, span: self.span(from) })
    }

    /// The unit that stands here, if one does: letters, with a point, dash or stroke between.
    fn unit(&mut self) -> Option<Option<Text>> {
        let rest = self.text.get(self.at..)?;
        let bytes = rest.as_bytes();
        let joins = |at: usize| {
            matches!(bytes.get(at), Some(b'.' | b'-' | b'/'))
                && bytes.get(at + 1).is_some_and(u8::is_ascii_alphabetic)
        };
        let mut length = 0;
        while bytes.get(length).is_some_and(|byte| byte.is_ascii_alphabetic() || *byte == b'%')
            || joins(length)
        {
            length += 1;
        }
        let word = rest.get(..length)?;
        let ends = bytes.get(length).is_none_or(|byte| matches!(byte, b' ' | b',' | b';'));
        let of_two_words = matches!(word, "US" | "UK" | "fl" | "V" | "kV" | "A" | "kgf" | "degC" | "degF");
        match word {
            "" => return (ends || bytes.first() == Some(&b'"')).then_some(None),
            _ if !ends || of_two_words || word == "of" || may_lead(word) => return None,
            "in" | "min" => {}
            // A word of the phrase after this one.
            "times" | "passes" => return Some(None),
            _ if leads(word) => return Some(None),
            _ if ["times", "of", "passes"].iter().any(|counted| word.starts_with(counted)) => return None,
            _ => {}
        }
        self.at += length;
        Some(Some(self.text(word)))
    }
}
