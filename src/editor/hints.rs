//! What the compiler knows and the author does not write: step numbers, second units.
use super::marks::{Kind, Mark};
use super::shop::{Page, Shop};
use crate::model::quantity::Quantity;
use crate::model::settings::Units;
use std::ops::Range;

/// A few words beside the text.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Hint {
    /// The byte it stands at.
    pub at: usize,
    pub text: String,
    /// Stands before the text and not behind it.
    pub leads: bool,
}

/// The hints whose places lie in `range`, by place.
pub fn of(shop: &Shop, page: &Page, range: &Range<usize>) -> Vec<Hint> {
    let Some(workspace) = shop.workspace() else { return Vec::new() };
    let steps = page.document.procedure().into_iter().flat_map(|procedure| procedure.steps());
    let numbers =
        steps.map(|step| Hint { at: step.span.start as usize, text: step.number.to_string(), leads: true });
    let seconds = shop.marks(page).iter().filter_map(|mark| {
        let text = second(quantity(mark)?, &workspace.settings.units)?;
        Some(Hint { at: mark.span.end as usize, text, leads: false })
    });
    let mut hints: Vec<Hint> = numbers.chain(seconds).filter(|hint| range.contains(&hint.at)).collect();
    hints.sort_by_key(|hint| hint.at);
    hints
}

/// The value in the second unit; none where the author wrote it, or one unit is enough.
pub fn second(quantity: &Quantity, units: &Units) -> Option<String> {
    let wanted = !units.single && quantity.also().is_none();
    wanted.then(|| quantity.print_second(&units.second)).flatten()
}

fn quantity(mark: &Mark) -> Option<&Quantity> {
    match &mark.kind {
        Kind::Quantity(quantity) => Some(quantity),
        _ => None,
    }
}
