//! What each step opens and settles: the steps are walked once for each group of models that differ, and what is
//! settled in the wrong order, or still open at the end, is kept as plain data. The rules word it.
mod breach;
mod effects;
mod end;
mod excuse;
mod followed;
mod groups;
pub mod hazards;
mod life;
mod net;
mod parts;
mod seen;
mod state;
mod states;
mod walk;
mod worlds;

pub use breach::{Breach, Kind, Models, Way};
pub use excuse::never_restored;
pub use groups::Groups;
pub use life::{Event, Life, trace};
pub use net::net;
pub use states::{Brought, brought, told};

use crate::model::{Document, Register, Slip};

/// What was broken and what stayed open.
#[derive(Debug, Clone, Default)]
pub struct Ledger {
    /// By place; each once, with the models it holds for.
    pub breaches: Vec<Breach>,
}

/// Walks the procedure of the document; a catalogue has nothing to walk. What it follows comes from `register`.
pub fn keep(document: &Document, register: &Register) -> Ledger {
    let Some(procedure) = document.procedure() else { return Ledger::default() };
    let mut breaches = Vec::new();
    for group in Groups::with_called(procedure, &document.declarations, register).iter() {
        walk::along(procedure, &document.declarations, group, register, &mut breaches);
    }
    // A name that is not declared may be what a step settles.
    if document.slips.iter().any(|slip| matches!(slip, Slip::UndeclaredName { .. })) {
        breaches.retain(|breach| !breach.kind.is_of_what_is_missing());
    }
    Ledger { breaches: breach::merged(breaches, procedure) }
}
