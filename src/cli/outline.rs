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
    /// Words behind each `follow`: the numbers of procedures that are worked within this one, and perhaps others.
    pub follows: Vec<String>,
}

/// Reads the few margin lines that matter, each by the grammar; all others are skipped.
pub fn of(text: &str) -> Outline {
    let mut outline = Outline { follows: followed(text), ..Outline::default() };
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

/// Wherever the word stands, as an action may stand behind others and in outcomes. What is no number calls nothing.
fn followed(text: &str) -> Vec<String> {
    let behind = memchr::memmem::find_iter(text.as_bytes(), "follow ").filter_map(|at| text.get(at..));
    let words = behind.filter_map(|text| text.split([' ', '\n', '\r', ';', ',', '"', '#']).nth(1));
    words.filter(|word| !word.is_empty()).map(str::to_owned).collect()
}

fn head(line: &str) -> Option<Head> {
    let file = SourceFile::new(FileId::default(), "", line);
    syntax::parse(&file).tree.statements.into_iter().next().map(|statement| statement.head)
}
