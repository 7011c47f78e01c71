//! The commonest lines read without the grammar: a verb with names, texts, tools, places and plain amounts; a
//! declaration whose attributes are words, texts and plain amounts.
//!
//! The grammar in `grammar/cotter.pest` says what a line means. These readers know a part of it, give up on the
//! first byte that is not of that part, and agree with the grammar on every line they do read: a property test
//! holds them to it. They exist because the grammar's machinery costs many times as much a line.
mod actions;
mod amounts;
mod cursor;
mod declarations;
mod messages;
mod words;

use super::{Reader, Room};
use crate::source::Text;
use crate::syntax::ast::{Action, Declaration, Head, Quantity};
use crate::syntax::lines::Joined;
use cursor::Cursor;
use words::{leads, may_lead};

impl Reader {
    fn cursor<'a>(self, line: &'a Joined<'_>) -> Option<Cursor<'a>> {
        self.quick.then(|| Cursor { file: self.file, base: line.start, text: &line.text, at: 0, room: None })
    }

    /// The actions of a line of the plainest kind; `None` leaves it to the grammar.
    pub(super) fn quick_actions(self, line: &Joined<'_>, room: &mut Room) -> Option<Vec<Action>> {
        let mut actions = room.actions();
        let mut cursor = Cursor { room: Some(room), ..self.cursor(line)? };
        loop {
            cursor.action(&mut actions)?;
            if !cursor.take(b';') {
                return cursor.at_end().then_some(actions);
            }
            cursor.blanks();
            if cursor.at_end() {
                return Some(actions);
            }
        }
    }

    /// Fills in a declaration of the plainest kind; `None` leaves it to the grammar, and perhaps filled in half.
    pub(super) fn quick_declaration(self, line: &Joined<'_>, declaration: &mut Declaration) -> Option<()> {
        let mut cursor = self.cursor(line)?;
        let name = cursor.word().filter(|word| !leads(word) && !may_lead(word))?;
        declaration.name = cursor.text(name);
        cursor.some_blanks()?;
        if cursor.peek() == Some(b'"') {
            declaration.text = Some(cursor.quoted()?);
            cursor.some_blanks()?;
        }
        if let Some(count) = cursor.multiple()? {
            declaration.count = Some(count);
            cursor.some_blanks()?;
        }
        while !cursor.at_end() {
            declaration.attributes.push(cursor.attribute()?);
            if cursor.take(b',') {
                cursor.blanks();
                cursor.peek()?;
            } else if !cursor.at_end() {
                return None;
            }
        }
        declaration.span = cursor.span(0);
        Some(())
    }

    /// A quantity of the plainest kind alone on its line; `None` leaves it to the grammar.
    pub(super) fn quick_quantity(self, line: &Joined<'_>) -> Option<Quantity> {
        let mut cursor = self.cursor(line)?;
        let quantity = cursor.quantity()?;
        cursor.at_end().then_some(quantity)
    }

    /// A keyword alone on its line.
    pub(super) fn quick_keyword(self, line: &Joined<'_>) -> Option<()> {
        let mut cursor = self.cursor(line)?;
        cursor.word()?;
        cursor.at_end().then_some(())
    }

    /// `procedure NUMBER "Title"`; `None` leaves it to the grammar.
    pub(super) fn quick_procedure(self, line: &Joined<'_>) -> Option<Head> {
        let mut cursor = self.cursor(line)?;
        cursor.word().filter(|word| *word == "procedure")?;
        cursor.some_blanks()?;
        // A number that is a word is of the plainest kind.
        let number = cursor.word()?;
        let number = cursor.text(number);
        cursor.some_blanks()?;
        let title = Some(cursor.quoted()?);
        cursor.at_end().then_some(Head::Procedure { number, title })
    }

    /// The text after a keyword, alone on its line; `None` leaves it to the grammar.
    pub(super) fn quick_titled(self, keyword: &str, line: &Joined<'_>) -> Option<Text> {
        let mut cursor = self.cursor(line)?;
        cursor.word().filter(|word| *word == keyword)?;
        cursor.some_blanks()?;
        let title = cursor.quoted()?;
        cursor.at_end().then_some(title)
    }
}
