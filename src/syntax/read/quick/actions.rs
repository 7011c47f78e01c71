//! Actions: a verb, and names, texts, tools and places behind it.
use super::cursor::Cursor;
use super::words::{leads, may_lead};
use crate::source::{Span, Text};
use crate::syntax::ast::{Action, Object, Phrase, PhraseKind, Place, Target};

impl<'a> Cursor<'a> {
    /// Adds one action, filled where it stays.
    pub(super) fn action(&mut self, actions: &mut Vec<Action>) -> Option<()> {
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
            "as" => {
                self.some_blanks()?;
                let name = self.word().filter(|word| !leads(word) && !may_lead(word))?;
                let label = PhraseKind::Label(vec![self.text(name)]);
                // Over a comma the grammar may go on with more names.
                return matches!(self.peek(), None | Some(b';')).then_some(label);
            }
            "until" => PhraseKind::Until(self.told()?),
            "while" => PhraseKind::While(self.told()?),
            "facing" => PhraseKind::Facing(self.told()?),
            "on" if first => return None,
            "onto" | "on" | "into" | "in" | "to" | "from" | "against" | "under" | "over" | "through"
            | "between" | "behind" | "beside" => {
                let preposition = self.text(word);
                self.some_blanks()?;
                // `from centre` is an order to tighten in.
                if word == "from" && self.order_comes() {
                    return None;
                }
                let quoted = self.peek() == Some(b'"');
                let what =
                    if quoted { Target::Text(self.quoted()?) } else { Target::Objects(self.objects()?) };
                PhraseKind::Place(Box::new(Place { preposition, what }))
            }
            _ => PhraseKind::Objects(self.objects_from(from, word)?),
        })
    }

    /// A text behind the word that was just read.
    fn told(&mut self) -> Option<Text> {
        self.some_blanks()?;
        self.quoted()
    }

    fn order_comes(&mut self) -> bool {
        let from = self.at;
        let word = self.word();
        self.at = from;
        matches!(word, Some("centre" | "center" | "ends"))
    }

    /// Names over commas and `and`, as far as they go.
    fn objects(&mut self) -> Option<Vec<Object>> {
        let from = self.at;
        let word = self.word()?;
        self.objects_from(from, word)
    }

    /// The same where the first word, which stands at `from`, is read already.
    fn objects_from(&mut self, from: usize, word: &'a str) -> Option<Vec<Object>> {
        let mut objects = self.room.as_mut().map(|room| room.objects()).unwrap_or_default();
        let mut next = Some((from, word));
        while let Some((from, word)) = next {
            objects.push(self.object(from, word)?);
            next = self.listed()?;
        }
        Some(objects)
    }

    /// Over a comma, the first word of another name or of a mark before one, and where it stands; where there is none,
    /// nothing is read. `and` is left to the grammar.
    fn listed(&mut self) -> Option<Option<(usize, &'a str)>> {
        let end = self.at;
        self.blanks();
        if self.take(b',') {
            self.blanks();
            let from = self.at;
            let word = self.word().filter(|word| !leads(word) || matches!(*word, "new" | "each" | "the"));
            if let Some(word) = word {
                return Some(Some((from, word)));
            }
        } else if self.text.get(self.at..).is_some_and(|rest| rest.starts_with("and ")) {
            return None;
        }
        self.at = end;
        Some(None)
    }

    /// A name, perhaps after `new`, `each` or `the`. Its first word, at `from`, is read already.
    fn object(&mut self, from: usize, mut word: &'a str) -> Option<Object> {
        let mut object =
            Object { name: Text::default(), new: None, each: false, count: None, span: self.span(from) };
        loop {
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
            word = self.word()?;
        }
    }
}
