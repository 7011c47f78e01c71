//! First drafts for an author to mend: of putting together, from what a take-down leaves open, with blanks to fill in;
//! and of a whole new procedure, with an example to replace.
mod cautions;
mod owed;
mod skeleton;
mod write;

pub use cautions::cautions;
pub use skeleton::{Answers, Danger, Shop, skeleton};

use crate::model::document::Section;
use crate::model::verb::Effect;
use crate::model::{Declarations, Document, Procedure, Register, Step};

/// What stands for words that only somebody who knows the machine can write; a sheet with it is refused.
pub const BLANK: &str = "\"…\"";

/// Lines of source, and where they belong.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Draft {
    /// A section with its steps, each line with its end.
    pub text: String,
    /// In bytes of the file: behind the last section that takes down or measures.
    pub place: usize,
}

/// The section that puts together what the steps leave off, loose, drained, cut off, raised or open. None where they
/// leave nothing so, or where the file is no procedure.
///
/// `known` is what is declared in the file, or of the same file with an earlier draft in it: steps that lack a torque
/// wrench bring those of the catalogues with them. `register` tells what undoes the procedures that are followed.
pub fn rebuild(document: &Document, known: &Declarations, register: &Register) -> Option<Draft> {
    let procedure = document.procedure()?;
    let owed = owed::of(procedure, &document.declarations);
    let back = write::restored(procedure, register);
    let steps = write::steps(&owed, &document.declarations, known, &back);
    if steps.is_empty() {
        return None;
    }
    let mut text = String::from(
        "section \"Put together\"\n\n# A draft, in the reverse order of the take-down. Fill in each \"…\", hold it \
         against the maker's current service\n# information, and take these lines out.\n",
    );
    text.push_str(&write::bonding(&document.declarations));
    text.push_str(&steps);
    Some(Draft { text, place: place(procedure) })
}

/// Behind the last section in which something comes off, is cleaned or is measured.
fn place(procedure: &Procedure) -> usize {
    let last = procedure.sections.iter().rposition(|section| section.steps.iter().any(takes_down));
    let end = |section: &Section| section.steps.iter().map(|step| step.extent.end).max();
    let section = last.and_then(|at| procedure.sections.get(at)).or(procedure.sections.last());
    section.and_then(end).unwrap_or(procedure.span.end) as usize
}

fn takes_down(step: &Step) -> bool {
    let effects = [Effect::Cleans, Effect::Dries, Effect::Measures, Effect::Inspects, Effect::Discards];
    step.actions
        .iter()
        .filter_map(|action| action.work())
        .any(|work| work.takes_off() || effects.into_iter().any(|effect| work.verb.does(effect)))
}
