//! What a procedure leaves behind once it was worked, of the things that several procedures take from one catalogue.
use crate::source::{FileId, Spanned};
use compact_str::CompactString;

/// Worked out by the ledger; one entry for each group of models that differ.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Net {
    pub groups: Vec<OfModels>,
}

#[derive(Debug, Clone, PartialEq, Default)]
pub struct OfModels {
    /// Empty: all of them.
    pub models: Vec<String>,
    pub changes: Vec<Change>,
    /// It ends with the machine cut off from its energy.
    pub isolates: bool,
    /// It gives energy back to what was cut off.
    pub restores: bool,
    /// It ends with a test or a look.
    pub tests: bool,
}

/// Of one thing.
#[derive(Debug, Clone, PartialEq)]
pub struct Change {
    pub thing: Shared,
    /// What it takes for granted: the part is on when the work begins.
    pub needs: Option<Need>,
    pub opens: Vec<Owed>,
    pub closes: Vec<Owed>,
    pub discards: bool,
    pub renews: bool,
    /// Its pressure or charge is let go at the end.
    pub relieves: bool,
}

/// A thing is the same in two files where both have it from the same line of a catalogue.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Shared {
    pub file: FileId,
    pub name: CompactString,
}

/// What is done first to a part that is taken to be on.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Need {
    /// It comes off.
    ToRemove,
    /// It is tightened or loosened.
    ToWorkOn,
    /// It goes on, and is taken to be off.
    ToFit,
}

/// What may stay open between two procedures.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Owed {
    Off,
    Disconnected,
    Untightened,
    Snug,
    Loose,
    Drained,
    Isolated,
    LockedOut,
    Raised,
    Open,
    Supported,
    /// A temporary tool in place.
    In,
}

impl Net {
    /// What holds for this model; none where the procedure does not know it. A caller without models takes what
    /// holds for all.
    pub fn of(&self, model: Option<&str>) -> Option<&OfModels> {
        self.groups.get(self.group_of(model)?)
    }

    /// Which of the groups it is in.
    pub fn group_of(&self, model: Option<&str>) -> Option<usize> {
        let known = |group: &OfModels| {
            group.models.is_empty() || model.is_some_and(|model| group.models.iter().any(|it| it == model))
        };
        self.groups.iter().position(known)
    }

    /// Things that some models are left with in another state.
    pub fn left_open(&self) -> impl Iterator<Item = &Shared> {
        let changes = self.groups.iter().flat_map(|group| &group.changes);
        changes.filter(|change| !change.opens.is_empty()).map(|change| &change.thing)
    }
}

impl Shared {
    /// The thing of that name.
    pub fn of(name: &Spanned<CompactString>) -> Shared {
        Shared { file: name.span.file, name: name.value.clone() }
    }

    pub fn is(&self, name: &Spanned<CompactString>) -> bool {
        self.file == name.span.file && self.name == name.value
    }
}
