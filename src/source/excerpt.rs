//! Words taken from a file without copying them.
use std::fmt;
use std::ops::Deref;
use std::sync::Arc;

/// A piece of a text that it shares, or a text of its own.
#[derive(Clone, Default)]
pub struct Excerpt {
    whole: Arc<str>,
    start: u32,
    end: u32,
}

impl Excerpt {
    /// The bytes `start..end` of `whole`; empty where they are out of range or cut a character.
    pub fn of(whole: &Arc<str>, start: usize, end: usize) -> Excerpt {
        let clip = |n: usize| u32::try_from(n).unwrap_or(u32::MAX);
        let (start, end) = if whole.get(start..end).is_some() { (start, end) } else { (0, 0) };
        Excerpt { whole: Arc::clone(whole), start: clip(start), end: clip(end) }
    }
}

impl From<String> for Excerpt {
    fn from(text: String) -> Excerpt {
        let end = text.len();
        Excerpt::of(&text.into(), 0, end)
    }
}

impl Deref for Excerpt {
    type Target = str;
    fn deref(&self) -> &str {
        self.whole.get(self.start as usize..self.end as usize).unwrap_or("")
    }
}

impl PartialEq for Excerpt {
    fn eq(&self, other: &Excerpt) -> bool {
        **self == **other
    }
}

impl fmt::Debug for Excerpt {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        fmt::Debug::fmt(&**self, f)
    }
}
