//! Safety messages: those written out, and calls of standing ones.
use super::Resolver;
use super::imports::index;
use crate::model::declarations::Name;
use crate::model::document::Standing;
use crate::model::hazard::{Hazard, Wear};
use crate::model::message::{Message, Scope, Signal};
use crate::model::prose::Prose;
use crate::model::slip::Slip;
use crate::source::{FreeText, Spanned, Text};
use crate::syntax::ast::{self, Detail, DetailValue, Head, Statement, Tree};
use crate::syntax::words::Place;

impl Resolver<'_> {
    /// A named message can be called: it gets its place before any body is read.
    pub(super) fn declare_message(&mut self, message: &ast::Message, statement: &Statement) {
        let Some(name) = &message.name else { return };
        self.declarations.messages.push(blank(message, statement));
        let id = index(self.declarations.messages.len());
        self.name(name, Name::Message(id));
    }

    /// Reads the named messages, in the order they were declared.
    pub(super) fn fill_messages(&mut self, tree: &Tree) {
        let named = tree.statements.iter().filter_map(|statement| match &statement.head {
            Head::Message(message) if message.name.is_some() => Some((message, statement)),
            _ => None,
        });
        for (id, (message, statement)) in named.enumerate() {
            let filled = self.message(message, statement);
            if let Some(place) = self.declarations.messages.get_mut(id) {
                *place = filled;
            }
        }
    }

    /// The message of that statement; a named one, the `nth` of the file, was read before.
    pub(super) fn message_at(
        &mut self,
        written: &ast::Message,
        nth: usize,
        statement: &Statement,
    ) -> Message {
        match self.declarations.messages.get(nth).filter(|_| written.name.is_some()) {
            Some(message) => message.clone(),
            None => self.message(written, statement),
        }
    }

    fn message(&mut self, written: &ast::Message, statement: &Statement) -> Message {
        let mut message = blank(written, statement);
        message.scope = self.scope(written);
        self.hazard(&mut message, written);
        let mut text = written.text.as_ref().map(|text| self.prose_of_text(text));
        if let Some(prose) = &statement.prose {
            let prose = self.prose(prose.clone());
            text = Some(text.map_or_else(|| prose.clone(), |first| joined(&first, &prose)));
        }
        message.text = text.map(Box::new).or(message.text);
        for detail in &statement.details {
            self.message_detail(&mut message, detail, statement);
        }
        message
    }

    /// The word behind the signal word: a hazard class, or the name of a standing message.
    fn hazard(&mut self, message: &mut Message, written: &ast::Message) {
        let Some(word) = &written.hazard else {
            if message.signal.value != Signal::Note {
                let wanted = "a hazard class, or the name of a standing message";
                self.slip(Slip::MissingRole { verb: written.signal.clone(), span: message.span, wanted });
            }
            return;
        };
        if let Some(hazard) = Hazard::find(word.as_str()) {
            message.hazard = Some(Spanned::new(hazard, word.span));
        } else if let Some(standing) = self.standing(word) {
            message.standing = Some(word.clone());
            message.hazard = standing.hazard.map(|hazard| Spanned::new(hazard.value, word.span));
            message.hazard_text = standing.hazard_text;
            message.harm = standing.harm;
            message.avoid = standing.avoid;
            message.wear = standing.wear;
            message.first_aid = standing.first_aid;
            message.text = standing.text;
        } else if !(self.incomplete || self.is_lost(word.as_str())) {
            self.unknown_hazard(word);
        }
    }

    fn standing(&mut self, word: &Text) -> Option<Message> {
        let Some(Name::Message(id)) = self.find(word.as_str()) else { return None };
        self.declarations.messages.get(id as usize).cloned()
    }

    fn unknown_hazard(&mut self, word: &Text) {
        let mut near = std::mem::take(&mut self.near);
        let classes = Hazard::all().iter().map(|hazard| hazard.name.as_str());
        let catalogues = self.catalogues.iter().flat_map(|document| &document.declarations.messages);
        let standing = self.declarations.messages.iter().chain(catalogues);
        let names = standing.filter_map(|message| message.name.as_ref().map(Text::as_str));
        let found = near.among(word.as_str(), classes.chain(names));
        self.near = near;
        self.slip(Slip::UnknownHazard { word: word.clone(), near: found });
    }

    fn scope(&mut self, written: &ast::Message) -> Scope {
        match written.scope.as_ref().map(|scope| &scope.value) {
            None => Scope::NextStep,
            Some(ast::Scope::NextSteps(count)) => Scope::NextSteps(*count),
            Some(ast::Scope::Section) => Scope::Section,
            Some(ast::Scope::Until(label)) => {
                let jump = self.jump(label, "a labelled step");
                Scope::Until { label: jump.label, step: jump.step }
            }
        }
    }

    fn message_detail(&mut self, message: &mut Message, detail: &Detail, statement: &Statement) {
        match (detail.key.as_str(), &detail.value) {
            ("hazard", _) => {
                set(&mut message.hazard_text, self.prose_value(&mut detail.clone()).map(Box::new))
            }
            ("harm", _) => set(&mut message.harm, self.prose_value(&mut detail.clone()).map(Box::new)),
            ("avoid", _) => set(&mut message.avoid, self.prose_value(&mut detail.clone()).map(Box::new)),
            ("first-aid", _) => {
                set(&mut message.first_aid, self.prose_value(&mut detail.clone()).map(Box::new))
            }
            ("wear", DetailValue::List(items)) => {
                message.wear = items.iter().filter_map(|item| self.wear(item)).collect();
            }
            ("wear", _) => {}
            _ => self.common_detail(detail, statement, Place::Message),
        }
    }

    fn wear(&mut self, word: &Text) -> Option<Spanned<&'static Wear>> {
        let found = Wear::find(word.as_str());
        if found.is_none() {
            let near = self.near.among(word.as_str(), Wear::words());
            self.slip(Slip::UnknownWear { word: word.clone(), near });
        }
        found.map(|wear| Spanned::new(wear, word.span))
    }
}

fn set<T>(place: &mut Option<T>, value: Option<T>) {
    if value.is_some() {
        *place = value;
    }
}

fn blank(written: &ast::Message, statement: &Statement) -> Message {
    // The grammar has no other word there.
    let signal = Signal::from_word(written.signal.as_str()).unwrap_or(Signal::Note);
    Message {
        signal: Spanned::new(signal, written.signal.span),
        hazard: None,
        scope: Scope::NextStep,
        name: written.name.clone(),
        standing: None,
        hazard_text: None,
        harm: None,
        avoid: None,
        wear: Vec::new(),
        first_aid: None,
        text: None,
        span: statement.span,
        extent: statement.extent,
    }
}

/// Two pieces of prose as two paragraphs of one.
fn joined(first: &Prose, second: &Prose) -> Prose {
    let shift = u32::try_from(first.source.len() + "\n\n".len()).unwrap_or(u32::MAX);
    let shifted = second.line_starts().map(|(from, to)| (from.saturating_add(shift), to));
    let text = FreeText {
        lines: first.line_starts().chain(shifted).collect(),
        source: format!("{}\n\n{}", &*first.source, &*second.source).into(),
        span: first.span.to(second.span),
    };
    Prose { text, references: first.references.iter().chain(&second.references).cloned().collect() }
}

/// What a standing message can be called by; `None` without a name or a known class.
pub(super) fn to_call(message: &Message) -> Option<Standing> {
    Some(Standing {
        signal: message.signal.value,
        hazard: message.hazard.as_ref()?.value,
        name: message.name.clone()?,
    })
}
