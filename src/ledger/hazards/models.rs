//! The models of a procedure as bits, so that what holds on some of them is followed at no cost.
use crate::model::Procedure;
use crate::model::declarations::Applies;
use crate::source::Text;

/// The header's models, each with a bit; past 63 they share the last.
#[derive(Debug, Clone, Copy)]
pub struct Models<'a>(&'a [Text]);

impl<'a> Models<'a> {
    pub fn of(procedure: &'a Procedure) -> Models<'a> {
        Models(procedure.header.models.as_deref().unwrap_or(&[]))
    }

    /// The models that are meant; serials and `if fitted` are not told apart.
    pub fn mask(self, applies: &Applies) -> u64 {
        if applies.models.is_empty() {
            return u64::MAX;
        }
        let bits = self.0.iter().enumerate().filter(|(_, model)| applies.to_model(&model.value));
        bits.fold(0, |mask, (at, _)| mask | 1 << at.min(62))
    }

    /// Every model there is, so that what holds on each of them holds everywhere.
    pub fn all(self) -> u64 {
        if self.0.is_empty() { 1 } else { (0..self.0.len().min(63)).fold(0, |mask, at| mask | 1 << at) }
    }

    /// Their names.
    pub fn names(self, mask: u64) -> impl Iterator<Item = &'a str> {
        self.0
            .iter()
            .enumerate()
            .filter(move |(at, _)| mask & 1 << (*at).min(62) != 0)
            .map(|(_, it)| it.as_str())
    }
}
