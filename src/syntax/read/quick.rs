//! The commonest lines read without the grammar: a verb with names, texts, tools, places and plain amounts; a
//! declaration whose attributes are words, texts and plain amounts.
//!
//! The grammar in `grammar/cotter.pest` says what a line means. These readers know a part of it, give up on the
//! first byte that is not of that part, and agree with the grammar on every line they do read: a property test
//! holds them to it. They exist because the grammar's machinery costs many times as much a line.
use super::lines::blank_declaration;
use super::{Reader, Room};
use crate::source::{FileId, Span, Spanned, Text};
use crate::syntax::ast::{
    Action, Amount, Attribute, Declaration, Head, Object, Phrase, PhraseKind, Place, Quantity, QuantityForm,
    Target, TorqueItem, TorqueItemKind, Value,
};
use crate::syntax::lines::Joined;

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

    /// A declaration of the plainest kind; `None` leaves it to the grammar.
    pub(super) fn quick_declaration(self, line: &Joined<'_>) -> Option<Declaration> {
        let mut cursor = self.cursor(line)?;
        let mut declaration = blank_declaration(cursor.span(0));
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
        Some(declaration)
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

/// Reads one line from left to right. Every reader returns `None` where the line is not of the plainest kind.
struct Cursor<'a> {
    file: FileId,
    base: usize,
    text: &'a str,
    at: usize,
    /// Where tables come from.
    room: Option<&'a mut Room>,
}

impl<'a> Cursor<'a> {
    fn peek(&self) -> Option<u8> {
        self.text.as_bytes().get(self.at).copied()
    }
    fn at_end(&self) -> bool {
        self.at == self.text.len()
    }
    fn take(&mut self, byte: u8) -> bool {
        let there = self.peek() == Some(byte);
        self.at += usize::from(there);
        there
    }
    fn blanks(&mut self) {
        while self.take(b' ') {}
    }
    /// Blanks, at least one, or the end of the line.
    fn some_blanks(&mut self) -> Option<()> {
        let from = self.at;
        self.blanks();
        (self.at > from || self.at_end()).then_some(())
    }
    /// From `from`, a place in the line, to here.
    fn span(&self, from: usize) -> Span {
        Span::new(self.file, self.base + from, self.base + self.at)
    }
    /// A word that starts with a letter.
    fn word(&mut self) -> Option<&'a str> {
        let rest = self.text.get(self.at..)?;
        let bytes = rest.as_bytes();
        bytes.first().filter(|byte| byte.is_ascii_alphabetic())?;
        let in_word = |byte: &u8| byte.is_ascii_alphanumeric() || matches!(byte, b'-' | b'_');
        let length = bytes.iter().position(|byte| !in_word(byte)).unwrap_or(bytes.len());
        self.at += length;
        rest.get(..length)
    }
    /// The word that was just read, with its place.
    fn text(&self, word: &str) -> Text {
        Text::new(word, self.span(self.at - word.len()))
    }
    /// A text in straight quotes without a backslash.
    fn quoted(&mut self) -> Option<Text> {
        let from = self.at;
        self.take(b'"').then_some(())?;
        let inner = self.text.get(from + 1..)?;
        let length = memchr::memchr2(b'"', b'\\', inner.as_bytes())?;
        let inner = inner.get(..length)?;
        self.at += length;
        self.take(b'"').then_some(())?;
        Some(Text::new(inner, self.span(from)))
    }

    /// Adds one action, filled where it stays.
    fn action(&mut self, actions: &mut Vec<Action>) -> Option<()> {
        let from = self.at;
        let verb = self.word().filter(|verb| *verb != "calculate")?;
        actions.push(Action {
            verb: self.text(verb),
            particle: None,
            phrases: self.room.as_mut().map(|room| room.phrases()).unwrap_or_default(),
            calculation: None,
            span: self.span(from),
        });
        let action = actions.last_mut()?;
        let mut end = self.at;
        loop {
            let parted = self.parted()?;
            if self.at_end() || self.peek() == Some(b';') {
                break;
            }
            if !parted {
                return None;
            }
            action.phrases.push(self.phrase(action.phrases.is_empty())?);
            end = self.at;
        }
        action.span = Span::new(self.file, self.base + from, self.base + end);
        Some(())
    }

    /// Blanks with or without a comma between; whether there were any. A comma must lead to something.
    fn parted(&mut self) -> Option<bool> {
        let from = self.at;
        self.blanks();
        if self.take(b',') {
            self.blanks();
            if self.at_end() || matches!(self.peek(), Some(b';' | b',')) {
                return None;
            }
        }
        Some(self.at > from)
    }

    /// One phrase. A word that leads right after the verb may be its particle, which the grammar decides.
    fn phrase(&mut self, first: bool) -> Option<Phrase> {
        let from = self.at;
        let kind = match self.peek()? {
            b'"' => PhraseKind::Text(self.quoted()?),
            b'0'..=b'9' => self.amounts()?,
            _ => self.led_phrase(first)?,
        };
        Some(Phrase { kind, span: self.span(from) })
    }

    fn led_phrase(&mut self, first: bool) -> Option<PhraseKind> {
        let from = self.at;
        let word = self.word()?;
        Some(match word {
            "with" | "using" => {
                self.some_blanks()?;
                PhraseKind::Tools(self.objects()?)
            }
            "on" if first => return None,
            "onto" | "on" | "into" | "in" | "to" | "against" | "under" | "over" | "through" | "between"
            | "behind" | "beside" => {
                let preposition = self.text(word);
                self.some_blanks()?;
                let quoted = self.peek() == Some(b'"');
                let what =
                    if quoted { Target::Text(self.quoted()?) } else { Target::Objects(self.objects()?) };
                PhraseKind::Place(Box::new(Place { preposition, what }))
            }
            _ => {
                self.at = from;
                PhraseKind::Objects(self.objects()?)
            }
        })
    }

    /// `3 times`, or a quantity.
    fn amounts(&mut self) -> Option<PhraseKind> {
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
    fn quantity(&mut self) -> Option<Quantity> {
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

    /// Names over commas and `and`, as far as they go.
    fn objects(&mut self) -> Option<Vec<Object>> {
        let mut objects = self.room.as_mut().map(|room| room.objects()).unwrap_or_default();
        objects.push(self.object()?);
        loop {
            let end = self.at;
            self.blanks();
            let listed = self.take(b',');
            if listed {
                self.blanks();
            } else if self.text.get(self.at..).is_some_and(|rest| rest.starts_with("and ")) {
                return None;
            }
            if !listed || !self.object_comes() {
                self.at = end;
                return Some(objects);
            }
            objects.push(self.object()?);
        }
    }

    /// Whether a name, or a mark before one, stands here.
    fn object_comes(&mut self) -> bool {
        let from = self.at;
        let word = self.word();
        self.at = from;
        word.is_some_and(|word| !leads(word) || matches!(word, "new" | "each" | "the"))
    }

    /// A name, perhaps after `new`, `each` or `the`.
    fn object(&mut self) -> Option<Object> {
        let from = self.at;
        let mut object =
            Object { name: Text::default(), new: None, each: false, count: None, span: self.span(from) };
        loop {
            let word = self.word()?;
            match word {
                "new" => object.new = Some(self.span(self.at - word.len())),
                "each" => object.each = true,
                "the" => {}
                _ if leads(word) || may_lead(word) => return None,
                _ => {
                    object.name = self.text(word);
                    object.span = self.span(from);
                    return Some(object);
                }
            }
            self.some_blanks()?;
        }
    }

    /// `x4`, where it stands here.
    fn multiple(&mut self) -> Option<Option<Spanned<u32>>> {
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
    fn attribute(&mut self) -> Option<Attribute> {
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

/// Words that start a quantity.
fn bounds(word: &str) -> bool {
    matches!(word, "max" | "min" | "new" | "at" | "up")
}

/// Words that may be the first of `finger tight` and `hand tight`, which lead a phrase too.
fn may_lead(word: &str) -> bool {
    matches!(word, "finger" | "hand")
}

/// Words that lead a phrase and so can name nothing: `lead` of the grammar, but for those of two words.
fn leads(word: &str) -> bool {
    matches!(
        word,
        "against"
            | "align"
            | "and"
            | "as"
            | "at"
            | "away"
            | "back"
            | "behind"
            | "beside"
            | "between"
            | "by"
            | "clockwise"
            | "crosswise"
            | "down"
            | "dry"
            | "each"
            | "except"
            | "facing"
            | "for"
            | "from"
            | "in"
            | "into"
            | "max"
            | "min"
            | "must"
            | "never"
            | "new"
            | "none"
            | "not"
            | "of"
            | "off"
            | "oiled"
            | "on"
            | "once"
            | "onto"
            | "order"
            | "out"
            | "over"
            | "plated"
            | "plus"
            | "reused"
            | "snug"
            | "the"
            | "then"
            | "through"
            | "to"
            | "twice"
            | "under"
            | "until"
            | "up"
            | "using"
            | "while"
            | "with"
    )
}
