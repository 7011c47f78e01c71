//! What the workspace must know of a file before any is checked: its number and title, and the catalogues it names.
use crate::source::{FileId, SourceFile};
use crate::syntax::quotes::parted;
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
        if !begins(line, PROCEDURE) && !begins(line, "use") {
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
const PROCEDURE: &str = "procedure";

/// Every word between one that calls and the end of its action, wherever it stands: an action may stand behind others, in
/// outcomes, and on several lines. What is no number calls nothing.
fn followed(text: &str) -> Vec<String> {
    let found = memchr::memmem::find_iter(text.as_bytes(), FOLLOW);
    let behind = found.filter_map(|at| text.get(at + FOLLOW.len()..));
    let called = behind.filter(|text| text.starts_with(|c: char| c.is_whitespace() || is_apart(c)));
    called.flat_map(|text| words(action(text))).map(str::to_owned).collect()
}

/// Up to the end of the action: a line goes on behind a comma.
fn action(text: &str) -> &str {
    let mut end = 0;
    for line in text.split_inclusive('\n') {
        if let Some(at) = line.find(';') {
            return text.get(..end + at).unwrap_or(text);
        }
        end += line.len();
        let goes_on = line.split('#').next().unwrap_or(line).trim_end().ends_with(',');
        if !goes_on {
            break;
        }
    }
    text.get(..end).unwrap_or(text)
}

/// Words, in quotes too: more than are called harm nothing.
fn words(text: &str) -> impl Iterator<Item = &str> {
    text.split(|c: char| c.is_whitespace() || is_apart(c)).filter(|word| !word.is_empty())
}

fn is_apart(c: char) -> bool {
    matches!(c, ';' | ',' | '"' | '“' | '”' | '#')
}

/// Whether the statement of that keyword begins the line.
fn begins(line: &str, keyword: &str) -> bool {
    line.strip_prefix(keyword).is_some_and(|rest| rest.starts_with([' ', '\t']))
}

impl Outline {
    /// The lines of the header that tell of other procedures. Comments may stand above it and in it, at the margin too.
    fn read_header(&mut self, text: &str) {
        let lines = text.trim_start_matches('\u{feff}').lines();
        let behind = lines.skip_while(|line| !begins(line, PROCEDURE)).skip(1);
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
                let outside = parted(value).outside;
                self.afterwards = words(&outside).find(|word| *word != "none").map(str::to_owned);
            }
            match key {
                "requires" | "afterwards" => self.around.extend(words(value).map(str::to_owned)),
                "leaves" => parted(value).texts.iter().for_each(|state| self.leave(state)),
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

fn head(line: &str) -> Option<Head> {
    let file = SourceFile::new(FileId::default(), "", line);
    syntax::parse(&file).tree.statements.into_iter().next().map(|statement| statement.head)
}
