//! Safety messages: the signal word with its hazard and reach.
use super::super::Reader;
use super::cursor::Cursor;
use super::words::{leads, may_lead};
use crate::source::Spanned;
use crate::syntax::ast::{Message, Scope};
use crate::syntax::lines::Joined;

impl Reader {
    /// A signal word with its hazard and reach, or with its text; `None` leaves it to the grammar.
    pub(in crate::syntax::read) fn quick_message(self, line: &Joined<'_>) -> Option<Message> {
        let mut cursor = self.cursor(line)?;
        let signal = cursor.word()?;
        let mut message =
            Message { signal: cursor.text(signal), hazard: None, scope: None, name: None, text: None };
        cursor.some_blanks()?;
        if cursor.peek() == Some(b'"') {
            message.text = Some(cursor.quoted()?);
            return cursor.at_end().then_some(message);
        }
        let hazard = cursor.word().filter(|word| !matches!(*word, "for" | "until" | "as"))?;
        message.hazard = Some(cursor.text(hazard));
        if !cursor.at_end() {
            cursor.some_blanks()?;
            message.scope = Some(cursor.scope()?);
        }
        cursor.at_end().then_some(message)
    }
}

impl Cursor<'_> {
    /// `for section`, or `until NAME`.
    fn scope(&mut self) -> Option<Spanned<Scope>> {
        let from = self.at;
        let word = self.word()?;
        self.some_blanks()?;
        let scope = match (word, self.word()?) {
            ("for", "section") => Scope::Section,
            ("until", name) if !leads(name) && !may_lead(name) => Scope::Until(self.text(name)),
            _ => return None,
        };
        Some(Spanned::new(scope, self.span(from)))
    }
}
