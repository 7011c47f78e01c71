//! What the workspace must know of a file before any is checked: its number and title, and the catalogues it names.
use crate::source::quotes::parted;
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

/// Every name between the word that calls and the end of its action, wherever it stands: an action may stand behind others,
/// in outcomes, and on several lines. What is no number calls nothing.
fn followed(text: &str) -> Vec<String> {
    let found = memchr::memmem::find_iter(text.as_bytes(), FOLLOW);
    let behind = found.filter_map(|at| text.get(at + FOLLOW.len()..));
    let behind =
        behind.filter(|text| text.starts_with(|c: char| c.is_whitespace() || is_apart(c) || is_quote(c)));
    behind.flat_map(named).collect()
}

/// The words outside of quotes up to the end of the action; a line goes on behind a comma.
fn named(action: &str) -> Vec<String> {
    let mut named = Vec::new();
    for line in action.lines() {
        let outside = parted(line).outside;
        let plain = outside.split('#').next().unwrap_or_default();
        let mut actions = plain.split(';');
        named.extend(words(actions.next().unwrap_or_default()).map(str::to_owned));
        if actions.next().is_some() || !plain.trim_end().ends_with(',') {
            break;
        }
    }
    named
}

fn words(text: &str) -> impl Iterator<Item = &str> {
    text.split(|c: char| c.is_whitespace() || is_apart(c)).filter(|word| !word.is_empty())
}

fn is_apart(c: char) -> bool {
    matches!(c, ';' | ',' | '#')
}

fn is_quote(c: char) -> bool {
    matches!(c, '"' | '“')
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
            let value = parted(value);
            let named = || words(&value.outside).map(str::to_owned);
            if key == "afterwards" && self.afterwards.is_none() {
                self.afterwards = named().find(|word| word != "none");
            }
            match key {
                "requires" | "afterwards" => self.around.extend(named()),
                "leaves" => value.texts.iter().for_each(|state| self.leave(state)),
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
