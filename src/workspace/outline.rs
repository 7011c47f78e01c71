//! What the workspace must know of a file before any is checked: its number and title, and the catalogues it names.
use crate::source::{FileId, SourceFile};
use crate::syntax::{self, ast::Head};
use serde::{Deserialize, Serialize};

/// The outline of one file.
#[derive(Debug, Clone, Default, PartialEq, Eq, Serialize, Deserialize)]
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
    /// The first procedure that `afterwards:` names.
    pub afterwards: Option<String>,
    /// The states that `leaves:` names, with commas between them.
    pub leaves: String,
}

/// Reads the few margin lines that matter, each by the grammar; all others are skipped.
pub fn of(text: &str) -> Outline {
    let (follows, pictures) = (followed(text), pictures(text));
    let mut outline = Outline { follows, pictures, ..Outline::default() };
    outline.read_header(text);
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

impl Outline {
    /// The lines of the header that tell of other procedures. Comments may stand above it and in it, at the margin too.
    fn read_header(&mut self, text: &str) {
        let lines = text.trim_start_matches('\u{feff}').lines();
        let behind = lines.skip_while(|line| !line.starts_with("procedure ")).skip(1);
        let header = behind
            .take_while(|line| line.starts_with([' ', '\t', '\r', '#']) || line.is_empty())
            .filter(|line| !line.trim_start().starts_with('#'));
        // A value goes on up to the next key.
        let mut key = "";
        for line in header {
            let (before, behind) = line.split_once(':').unwrap_or(("", line));
            let before = before.trim();
            let starts = !before.is_empty() && !before.contains([' ', '"']);
            let value = if starts { behind } else { line };
            if starts {
                key = before;
            }
            if key == "afterwards" && self.afterwards.is_none() {
                self.afterwards = numbers(value).find(|word| word != "none");
            }
            match key {
                "requires" | "afterwards" => self.around.extend(numbers(value)),
                "leaves" => value.split('"').skip(1).step_by(2).for_each(|state| self.leave(state)),
                _ => {}
            }
        }
    }

    fn leave(&mut self, state: &str) {
        if !self.leaves.is_empty() {
            self.leaves.push_str(", ");
        }
        self.leaves.push_str(state);
    }
}

/// Every second stretch between quotes is the state it brings.
fn numbers(calls: &str) -> impl Iterator<Item = String> {
    let bare = calls.split('"').step_by(2).flat_map(|it| it.split([' ', ';', ',', '\r', '\t', '#']));
    bare.filter(|word| !word.is_empty()).map(str::to_owned)
}

fn head(line: &str) -> Option<Head> {
    let file = SourceFile::new(FileId::default(), "", line);
    syntax::parse(&file).tree.statements.into_iter().next().map(|statement| statement.head)
}
