//! Which lines belong together and can be folded away.
use super::shop::Page;
use crate::source::Span;
use crate::syntax::ast::Head;

/// Each statement and each section, by its start; some are of one line only.
pub fn of(page: &Page) -> Vec<Span> {
    let mut folds = Vec::new();
    let mut section: Option<Span> = None;
    for statement in &page.tree().statements {
        match (&statement.head, &mut section) {
            (Head::Section { .. }, _) => folds.extend(section.replace(statement.extent)),
            (_, Some(section)) => {
                *section = section.to(statement.extent);
                folds.push(statement.extent);
            }
            (_, None) => folds.push(statement.extent),
        }
    }
    folds.extend(section);
    folds.sort_unstable_by_key(|fold| (fold.start, fold.end));
    folds
}
