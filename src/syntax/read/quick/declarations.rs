//! The count and the attributes of a declaration.
use super::cursor::Cursor;
use super::words::{bounds, leads, may_lead};
use crate::source::{Span, Spanned};
use crate::syntax::ast::{Attribute, TorqueItem, TorqueItemKind, Value};

impl<'a> Cursor<'a> {
    /// `x4`, where it stands here.
    pub(super) fn multiple(&mut self) -> Option<Option<Spanned<u32>>> {
        let from = self.at;
        if self.peek() != Some(b'x') {
            return Some(None);
        }
        let count = self.word()?.get(1..).filter(|count| count.bytes().all(|b| b.is_ascii_digit()));
        let Some(count) = count.filter(|count| !count.is_empty()) else {
            self.at = from;
            return Some(None);
        };
        Some(Some(Spanned::new(count.parse().unwrap_or(u32::MAX), self.span(from + 1))))
    }

    /// A key with its values, up to a comma or the end.
    pub(super) fn attribute(&mut self) -> Option<Attribute> {
        let from = self.at;
        let key = self.word().filter(|key| *key != "as" && !bounds(key))?;
        let mut attribute = Attribute { key: self.text(key), values: Vec::new(), span: self.span(from) };
        match key {
            "torque" => attribute.values.push(Value::Torque(self.torque()?)),
            "thread" => attribute.values.push(self.thread()?),
            _ => {}
        }
        loop {
            let end = self.at;
            self.blanks();
            match self.peek() {
                None | Some(b',') => {
                    // Blanks before the comma do not belong to the attribute.
                    attribute.span = Span::new(self.file, self.base + from, self.base + end);
                    return Some(attribute);
                }
                _ if self.at == end || matches!(key, "torque" | "thread") => return None,
                Some(b'"') => attribute.values.push(Value::Text(self.quoted()?)),
                Some(b'0'..=b'9') => attribute.values.push(Value::Quantity(Box::new(self.quantity()?))),
                _ => {
                    let word = self.word().filter(|word| !bounds(word))?;
                    attribute.values.push(Value::Word(self.text(word)));
                }
            }
        }
    }

    /// One quantity and words for how and in which state, up to an attribute of another kind.
    fn torque(&mut self) -> Option<Vec<TorqueItem>> {
        self.some_blanks()?;
        let from = self.at;
        self.peek().filter(u8::is_ascii_digit)?;
        let kind = TorqueItemKind::Value(self.quantity()?);
        let mut items = vec![TorqueItem { kind, span: self.span(from) }];
        loop {
            let end = self.at;
            self.blanks();
            let from = self.at;
            let parted = from > end;
            match self.peek() {
                None => break,
                Some(b',') => {
                    self.at += 1;
                    self.blanks();
                    // The grammar lets the list go on over commas.
                    let next = self.word().filter(|word| !leads(word) && !may_lead(word));
                    next?;
                    self.at = end;
                    return Some(items);
                }
                _ => {
                    let word = self.word().filter(|_| parted)?;
                    let kind = match word {
                        "crosswise" | "clockwise" => TorqueItemKind::Pattern(word.to_owned()),
                        "dry" | "oiled" | "plated" => TorqueItemKind::Condition(word.to_owned()),
                        _ => return None,
                    };
                    items.push(TorqueItem { kind, span: self.span(from) });
                }
            }
        }
        Some(items)
    }

    /// A metric thread without its pitch, alone in its attribute.
    fn thread(&mut self) -> Option<Value> {
        self.some_blanks()?;
        let designation = self.word()?;
        let digits = designation.strip_prefix('M')?;
        (!digits.is_empty() && digits.bytes().all(|byte| byte.is_ascii_digit())).then_some(())?;
        let designation = self.text(designation);
        let end = self.at;
        self.blanks();
        matches!(self.peek(), None | Some(b',')).then_some(())?;
        self.at = end;
        Some(Value::Thread { designation, series: None })
    }
}
