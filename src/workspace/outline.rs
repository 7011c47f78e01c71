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
    /// Paths written behind `picture`.
    pub pictures: Vec<String>,
    /// Words behind each `follow`: the numbers of procedures that are worked within this one, and perhaps others.
    pub follows: Vec<String>,
    /// Words of `requires:` and `afterwards:`: the numbers of those that are worked before and after.
    pub around: Vec<String>,
}

/// Reads the few margin lines that matter, each by the grammar; all others are skipped.
pub fn of(text: &str) -> Outline {
    let (follows, around, pictures) = (followed(text), around(text), pictures(text));
    let mut outline = Outline { follows, around, pictures, ..Outline::default() };
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

/// Wherever the word stands before a text; what is no path of a picture is looked for in vain.
fn pictures(text: &str) -> Vec<String> {
    let behind = memchr::memmem::find_iter(text.as_bytes(), "picture").filter_map(|at| text.get(at + 7..));
    let paths = behind.filter_map(|text| text.trim_start().strip_prefix('"')?.split(['"', '\n']).next());
    paths.map(str::to_owned).collect()
}

const FOLLOW: &str = "follow";

/// Wherever the word stands, as an action may stand behind others and in outcomes. What is no number calls nothing.
fn followed(text: &str) -> Vec<String> {
    let found = memchr::memmem::find_iter(text.as_bytes(), FOLLOW);
    let behind = found.filter_map(|at| text.get(at + FOLLOW.len()..));
    let words = behind.filter(|text| text.starts_with([' ', '\t'])).filter_map(|text| {
        let text = text.trim_start_matches([' ', '\t']);
        text.split([' ', '\t', '\n', '\r', ';', ',', '"', '#']).next()
    });
    words.filter(|word| !word.is_empty()).map(str::to_owned).collect()
}

/// Of the header, up to the next key. Comments may stand above it and in it, at the margin too.
fn around(text: &str) -> Vec<String> {
    let lines = text.trim_start_matches('\u{feff}').lines();
    let behind = lines.skip_while(|line| !line.starts_with("procedure ")).skip(1);
    let header = behind
        .take_while(|line| line.starts_with([' ', '\t', '\r', '#']) || line.is_empty())
        .filter(|line| !line.trim_start().starts_with('#'));
    let mut mine = false;
    let mut words = Vec::new();
    for line in header {
        let (key, rest) = line.split_once(':').unwrap_or(("", line));
        let key = key.trim();
        if !key.is_empty() && !key.contains([' ', '"']) {
            mine = matches!(key, "requires" | "afterwards");
        }
        let calls = if mine { rest } else { "" };
        // Every second stretch between quotes is the state it brings.
        let bare = calls.split('"').step_by(2).flat_map(|it| it.split([' ', ';', ',', '\r', '\t', '#']));
        words.extend(bare.filter(|word| !word.is_empty()).map(str::to_owned));
    }
    words
}

fn head(line: &str) -> Option<Head> {
    let file = SourceFile::new(FileId::default(), "", line);
    syntax::parse(&file).tree.statements.into_iter().next().map(|statement| statement.head)
}
