//! What the workspace must know of a file before any is checked: its number and title, and the catalogues it names.
use crate::source::{FileId, SourceFile};
use crate::syntax::{self, ast::Head};

/// The outline of one file.
#[derive(Debug, Default, PartialEq, Eq)]
pub struct Outline {
    /// Number and title of a procedure.
    pub procedure: Option<(String, String)>,
    /// Paths written behind `use`, in order.
    pub uses: Vec<String>,
}

/// Reads the few margin lines that matter, each by the grammar; all others are skipped.
pub fn of(text: &str) -> Outline {
    let mut outline = Outline::default();
    for line in text.trim_start_matches('\u{feff}').lines() {
        if !line.starts_with("procedure ") && !line.starts_with("use ") {
            continue;
        }
        match head(line) {
            Some(Head::Procedure { number, title }) if outline.procedure.is_none() => {
                let title = title.map(|title| title.value).unwrap_or_default();
                outline.procedure = Some((number.value.into(), title.into()));
            }
            Some(Head::Use { path }) => outline.uses.push(path.value.into()),
            _ => {}
        }
    }
    outline
}

fn head(line: &str) -> Option<Head> {
    let file = SourceFile::new(FileId::default(), "", line);
    syntax::parse(&file).tree.statements.into_iter().next().map(|statement| statement.head)
}
