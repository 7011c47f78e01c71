//! The grammar for editors that read TextMate grammars: the words of the tables put into one that stands beside this
//! file.
use crate::model::hazard::{Hazard, Wear};
use crate::model::quantity::Dimension;
use crate::model::verb::Verb;
use crate::syntax::words;

/// `grammar/editors/cotter.tmLanguage.json`.
pub fn highlighting() -> String {
    let hazards = Hazard::all().iter().flat_map(|row| std::iter::once(&row.name).chain(&row.also));
    let units = Dimension::ALL.into_iter().flat_map(|dimension| dimension.units().iter());
    let units =
        units.flat_map(|unit| [unit.source, unit.symbol].into_iter().chain(unit.spellings.iter().copied()));
    include_str!("cotter.tmLanguage.json")
        .replace("{{hazards}}", &any_of(hazards.map(String::as_str)))
        .replace("{{wear}}", &any_of(Wear::words()))
        .replace("{{verbs}}", &any_of(Verb::words().filter(|word| word.contains(' '))))
        .replace("{{attributes}}", &any_of(words::attributes().map(|row| row.key.as_str())))
        .replace("{{details}}", &any_of(words::details().map(|row| row.key.as_str())))
        // A joining mark may be any of these.
        .replace("{{units}}", &any_of(units).replace(r"\\.", "[.·⋅*-]"))
}

/// The words as alternatives of a regular expression inside a JSON text, longer ones first.
fn any_of<'w>(words: impl Iterator<Item = &'w str>) -> String {
    let mut words: Vec<&str> = words.collect();
    words.sort_unstable_by(|a, b| (b.len(), *a).cmp(&(a.len(), *b)));
    words.dedup();
    words.into_iter().map(escaped).collect::<Vec<_>>().join("|")
}

fn escaped(word: &str) -> String {
    let mut text = String::new();
    for letter in word.chars() {
        match letter {
            '.' | '*' | '+' | '?' | '(' | ')' | '[' | ']' | '{' | '}' | '|' | '^' | '$' | '/' => {
                text.push_str("\\\\");
                text.push(letter);
            }
            '\\' => text.push_str("\\\\\\\\"),
            '"' => text.push_str("\\\""),
            _ => text.push(letter),
        }
    }
    text
}
