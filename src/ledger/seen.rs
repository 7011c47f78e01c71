//! Who holds and who locks what, looked up the other way round.
use crate::model::{Declarations, Name};

/// By the number of the part.
#[derive(Debug, Default)]
pub(super) struct Seen {
    holders: Vec<Vec<u32>>,
    lockers: Vec<Vec<u32>>,
    /// Whether one part may not take the place of another.
    pub refuses: bool,
}

impl Seen {
    pub(super) fn of(declarations: &Declarations) -> Seen {
        let mut seen = Seen {
            holders: vec![Vec::new(); declarations.parts.len()],
            lockers: vec![Vec::new(); declarations.parts.len()],
            refuses: false,
        };
        for (id, part) in (0..).zip(&declarations.parts) {
            for (list, named) in [(&mut seen.holders, &part.holds), (&mut seen.lockers, &part.locks)] {
                for name in named {
                    if let Name::Part(held) = name.value
                        && let Some(by) = list.get_mut(held as usize)
                    {
                        by.push(id);
                    }
                }
            }
            seen.refuses |= !part.never.is_empty();
        }
        seen
    }

    /// The parts that hold it.
    pub(super) fn holders(&self, part: u32) -> &[u32] {
        self.holders.get(part as usize).map_or(&[], Vec::as_slice)
    }

    /// The parts that lock it.
    pub(super) fn lockers(&self, part: u32) -> &[u32] {
        self.lockers.get(part as usize).map_or(&[], Vec::as_slice)
    }
}
