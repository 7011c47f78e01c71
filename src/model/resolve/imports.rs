//! What a file takes from catalogues: a thing is copied when it is first used, with what it refers to.
use super::Resolver;
use crate::model::Document;
use crate::model::Net;
use crate::model::catalogues;
use crate::model::declarations::{Name, Part};
use crate::model::document::Body;
use crate::model::fastener::wrench;
use crate::model::message::Message;
use crate::model::prose::{Prose, Target};
use crate::model::slip::Slip;
use crate::source::{Span, Spanned, Text};
use crate::syntax::ast::{Head, Tree};

/// A copied thing whose own references still lead into the catalogue it came from.
type Pending = (usize, Name);

impl Resolver<'_> {
    /// Finds the catalogues of the `use` lines, then the house's own for a procedure.
    pub(super) fn use_catalogues(&mut self, tree: &Tree, in_procedure: bool) {
        for statement in &tree.statements {
            if let Head::Use { path } = &statement.head {
                self.use_catalogue(path);
            }
        }
        if let Some(path) = self.around.settings.cautions.as_deref().filter(|_| in_procedure) {
            match self.around.catalogues.of_house(path) {
                Ok(document) => {
                    self.catalogues.push(document);
                    let written = Text::new(path, Span::new(self.source.id, 0, 0));
                    self.mind_fault(&written, document);
                }
                Err(_) => self.incomplete = true,
            }
        }
    }

    fn use_catalogue(&mut self, path: &Text) {
        let found = catalogues::join(&self.source.name, path.as_str())
            .and_then(|joined| self.around.catalogues.find(&joined));
        let why = match found {
            Ok(document) if matches!(document.body, Body::Procedure(_)) => {
                "it is a procedure, not a catalogue".to_owned()
            }
            Ok(document) => {
                self.catalogues.push(document);
                return self.mind_fault(path, document);
            }
            Err(why) => why,
        };
        self.incomplete = true;
        self.slip(Slip::UnusableCatalogue { path: path.clone(), why, fault: None });
    }

    /// What comes from a catalogue with an error holds back whoever uses it.
    fn mind_fault(&mut self, path: &Text, document: &Document) {
        if let Some(fault) = self.around.catalogues.fault(document) {
            self.incomplete = true;
            let why = "it has an error".to_owned();
            self.slip(Slip::UnusableCatalogue {
                path: path.clone(),
                why,
                fault: Some(Box::new(fault.clone())),
            });
        }
    }

    /// What a word names here, copied from a catalogue if need be.
    pub(super) fn find(&mut self, word: &str) -> Option<Name> {
        if let Some(name) = self.declarations.find(word) {
            return Some(name);
        }
        let found = |document: &&crate::model::Document| document.declarations.find(word);
        let (from, name) = self.catalogues.iter().enumerate().find_map(|(i, d)| Some((i, found(d)?)))?;
        let mut pending = Vec::new();
        let local = self.copy(from, name, &mut pending)?;
        while let Some((from, copied)) = pending.pop() {
            self.rename(from, copied, &mut pending);
        }
        Some(local)
    }

    /// What a followed procedure leaves open is this one's matter too, also where no line names it.
    pub(super) fn take_in_what_is_left(&mut self, number: &Text) {
        let register = self.around.register;
        for shared in register.net(number.as_str()).into_iter().flat_map(Net::left_open) {
            let name = shared.name.as_str();
            let mut things =
                self.catalogues.iter().filter_map(|it| it.declarations.thing(it.declarations.find(name)?));
            if things.next().is_some_and(|thing| shared.is(&thing.name)) {
                self.find(name);
            }
        }
    }

    /// The torque wrenches of the catalogues that no line names.
    pub(super) fn other_wrenches(&mut self) {
        let tools = self.catalogues.iter().flat_map(|document| &document.declarations.tools);
        let names = &self.declarations.names;
        let others = tools.filter(|tool| wrench::scale(tool).is_some());
        let others = others.filter(|tool| !names.contains_key(tool.thing.name.value.as_str()));
        self.declarations.other_wrenches = others.cloned().collect();
    }

    /// Names a catalogue has, for suggestions.
    pub(super) fn catalogue_names(&self) -> impl Iterator<Item = &str> {
        self.catalogues
            .iter()
            .flat_map(|document| document.declarations.names.keys().map(|name| name.as_str()))
    }

    fn copy(&mut self, from: usize, name: Name, pending: &mut Vec<Pending>) -> Option<Name> {
        let theirs = &self.catalogues.get(from)?.declarations;
        let key = match name {
            Name::Message(id) => theirs.messages.get(id as usize)?.name.clone()?.value,
            _ => theirs.thing(name)?.name.value.clone(),
        };
        let ours = &mut self.declarations;
        if let Some(&known) = ours.names.get(&key) {
            return Some(known);
        }
        let copied = match name {
            Name::Part(id) => Name::Part(push(&mut ours.parts, theirs.part(id)?, |part| &mut part.thing)),
            Name::Tool(id) => Name::Tool(push(&mut ours.tools, theirs.tool(id)?, |tool| &mut tool.thing)),
            Name::Supply(id) => {
                Name::Supply(push(&mut ours.supplies, theirs.supply(id)?, |it| &mut it.thing))
            }
            Name::Torque(id) => {
                Name::Torque(push(&mut ours.torques, theirs.torques.get(id as usize)?, |it| &mut it.thing))
            }
            Name::Figure(id) => {
                Name::Figure(push(&mut ours.figures, theirs.figures.get(id as usize)?, |it| &mut it.thing))
            }
            Name::Message(id) => {
                ours.messages.push(theirs.messages.get(id as usize)?.clone());
                Name::Message(index(ours.messages.len()))
            }
        };
        if let Name::Part(id) = copied {
            let pieces = ours.part(id).map(|part| part.pieces.clone()).unwrap_or_default();
            ours.pieces.extend(pieces.into_iter().map(|piece| (piece.value, id)));
        }
        ours.names.insert(key, copied);
        pending.push((from, copied));
        Some(copied)
    }

    /// Turns a copy's references into names of this file.
    fn rename(&mut self, from: usize, copied: Name, pending: &mut Vec<Pending>) {
        match copied {
            Name::Part(id) => {
                let Some(mut part) = self.declarations.parts.get(id as usize).cloned() else { return };
                for list in references(&mut part) {
                    self.rename_all(from, list, pending);
                }
                part.looks_like.retain_mut(|like| self.rename_one(from, &mut like.other, pending));
                part.made_from = part
                    .made_from
                    .and_then(|mut made| self.rename_one(from, &mut made, pending).then_some(made));
                for callout in &mut part.callouts {
                    callout.figure = callout
                        .figure
                        .and_then(|mut figure| self.rename_one(from, &mut figure, pending).then_some(figure));
                }
                if let Some(place) = self.declarations.parts.get_mut(id as usize) {
                    part.thing.times_used = place.thing.times_used;
                    *place = part;
                }
            }
            Name::Message(id) => {
                let Some(mut message) = self.declarations.messages.get(id as usize).cloned() else { return };
                for prose in proses(&mut message) {
                    let mut references = std::mem::take(&mut prose.references).into_vec();
                    references.retain_mut(|(_, target)| match target.value {
                        Target::Thing(name) => {
                            let mut spanned = Spanned::new(name, target.span);
                            let known = self.rename_one(from, &mut spanned, pending);
                            target.value = Target::Thing(spanned.value);
                            known
                        }
                        Target::Step(_) => false,
                    });
                    prose.references = references.into();
                }
                if let Some(place) = self.declarations.messages.get_mut(id as usize) {
                    *place = message;
                }
            }
            Name::Tool(_) | Name::Supply(_) | Name::Torque(_) | Name::Figure(_) => {}
        }
    }

    fn rename_all(&mut self, from: usize, list: &mut Vec<Spanned<Name>>, pending: &mut Vec<Pending>) {
        list.retain_mut(|name| self.rename_one(from, name, pending));
    }

    fn rename_one(&mut self, from: usize, name: &mut Spanned<Name>, pending: &mut Vec<Pending>) -> bool {
        let copied = self.copy(from, name.value, pending);
        if let Some(copied) = copied {
            name.value = copied;
            self.touch(copied);
        }
        copied.is_some()
    }
}

fn references(part: &mut Part) -> [&mut Vec<Spanned<Name>>; 5] {
    [&mut part.matched, &mut part.set_with, &mut part.never, &mut part.holds, &mut part.locks]
}

fn proses(message: &mut Message) -> impl Iterator<Item = &mut Prose> {
    [
        &mut message.hazard_text,
        &mut message.harm,
        &mut message.avoid,
        &mut message.first_aid,
        &mut message.text,
    ]
    .into_iter()
    .flatten()
    .map(|prose| &mut **prose)
}

fn push<T: Clone>(
    table: &mut Vec<T>,
    theirs: &T,
    thing: fn(&mut T) -> &mut crate::model::declarations::Thing,
) -> u32 {
    let mut ours = theirs.clone();
    thing(&mut ours).from_catalogue = true;
    thing(&mut ours).times_used = 0;
    table.push(ours);
    index(table.len())
}

/// The index of the last of `len` entries.
pub(super) fn index(len: usize) -> u32 {
    u32::try_from(len.saturating_sub(1)).unwrap_or(u32::MAX)
}
