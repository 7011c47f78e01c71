//! Fields that few values have, behind one pointer: a value without them stays small.
use std::ops::Deref;

/// What a value without any of its rare fields reads.
pub trait Seldom: Default + 'static {
    /// All of them as they are where none was written.
    fn none() -> &'static Self;
}

/// Rare fields, or none of them. They are read as if they were always there.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Rare<T>(Option<Box<T>>);

impl<T: Seldom> Rare<T> {
    /// Whether any may have been written.
    pub fn has_any(&self) -> bool {
        self.0.is_some()
    }

    /// For writing; makes room for them all.
    pub fn make(&mut self) -> &mut T {
        self.0.get_or_insert_default()
    }
}

impl<T: Seldom> Deref for Rare<T> {
    type Target = T;
    fn deref(&self) -> &T {
        self.0.as_deref().unwrap_or_else(|| T::none())
    }
}
