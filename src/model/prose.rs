//! Free text with its references resolved.
use super::declarations::Name;
use crate::source::{FreeText, Spanned};
use std::ops::Deref;

/// A CommonMark subset as the author wrote it; it reads as the free text that it is.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Prose {
    pub text: FreeText,
    /// What each `[name]` in it refers to.
    pub references: Box<[(String, Spanned<Target>)]>,
}

impl Deref for Prose {
    type Target = FreeText;
    fn deref(&self) -> &FreeText {
        &self.text
    }
}

/// What a name in brackets, or a jump, leads to.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Target {
    Thing(Name),
    /// The step of that number.
    Step(u32),
}

impl Prose {
    pub fn target(&self, name: &str) -> Option<Target> {
        self.references.iter().find(|(n, _)| n == name).map(|(_, t)| t.value)
    }
}
