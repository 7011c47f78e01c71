//! Names in steps and attributes to declared things.
use super::Resolver;
use super::taken;
use crate::model::action::{Marks, Object, Objects, PlaceTarget};
use crate::model::declarations::Name;
use crate::model::rare::Rare;
use crate::model::slip::Slip;
use crate::source::Text;
use crate::syntax::ast;

pub(super) const A_THING: &str = "a part, a tool or a supply";

/// Parts, tools and supplies: what work can be done on or with.
pub(super) fn is_thing(name: Name) -> bool {
    matches!(name, Name::Part(_) | Name::Tool(_) | Name::Supply(_))
}

impl Resolver<'_> {
    /// What the word names, if it is of a kind that fits here; counts the use, or makes the slip.
    pub(super) fn reference(
        &mut self,
        word: &Text,
        expected: &'static str,
        fits: fn(Name) -> bool,
    ) -> Option<Name> {
        let found = self.find(word.as_str());
        if let Some(name) = found.filter(|&name| fits(name)) {
            self.touch(name);
            return Some(name);
        }
        if found.is_some() || !(self.incomplete || self.is_lost(word.as_str())) {
            self.undeclared(word, expected, found.is_some());
        }
        None
    }

    fn undeclared(&mut self, word: &Text, expected: &'static str, of_other_kind: bool) {
        let mut near = std::mem::take(&mut self.near);
        let names = &self.declarations;
        let known = names.names.keys().chain(names.pieces.keys()).map(|name| name.as_str());
        let found = if of_other_kind {
            Vec::new()
        } else {
            near.among(word.as_str(), known.chain(self.catalogue_names()))
        };
        self.near = near;
        self.slip(Slip::UndeclaredName { name: word.clone(), expected, near: found });
    }

    pub(super) fn objects(&mut self, written: &mut [ast::Object]) -> Objects {
        written.iter_mut().map(|object| self.object(object, false)).collect()
    }

    /// Objects where the label of an earlier step may stand too: a reading, a mark.
    pub(super) fn objects_or_labels(&mut self, written: &mut [ast::Object]) -> Objects {
        written.iter_mut().map(|object| self.object(object, true)).collect()
    }

    fn object(&mut self, written: &mut ast::Object, label_fits: bool) -> Object {
        let word = &written.name;
        let is_label = label_fits && self.labels.step(word.as_str()).is_some();
        let name = if is_label && self.declarations.find(word.as_str()).is_none() {
            None
        } else {
            self.reference(word, A_THING, is_thing)
        };
        named(name, written)
    }

    pub(super) fn place(&mut self, what: &mut ast::Target) -> Option<PlaceTarget> {
        Some(match what {
            ast::Target::Objects(objects) => PlaceTarget::Objects(self.objects_or_labels(objects)),
            ast::Target::Text(text) => PlaceTarget::Text(taken(text)),
            ast::Target::Quantity(quantity) => {
                PlaceTarget::Quantity(self.quantity(quantity, super::quantities::Want::ANYTHING)?)
            }
        })
    }
}

/// The object, once it is known what its word names.
pub(super) fn named(name: Option<Name>, written: &mut ast::Object) -> Object {
    let mut object = Object { name, word: taken(&mut written.name), marks: Rare::default() };
    if written.new.is_some() || written.each || written.count.is_some() {
        let count = written.count.map(|count| count.value);
        *object.marks.make() = Marks { new: written.new, each: written.each, count };
    }
    object
}
