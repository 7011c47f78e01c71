//! The list of a house's procedures, with links to all sheets of each.
use super::language::{PerLanguage, Words};
use super::{Context, SheetError, html, templates};
use crate::model::Document;
use serde::{Deserialize, Serialize};

/// One procedure of the list.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
pub struct Entry {
    pub number: String,
    pub title: String,
    pub equipment: String,
    pub models: String,
    pub revision: String,
    /// The files of its other sheets that are there, of those in [`OTHERS`], and of the same as PDF.
    pub others: Vec<String>,
}

/// Sheets besides the bench page: the file, and the keys of its name and of its name with the procedure's number.
pub const OTHERS: [(&str, &str, &str); 7] = [
    ("checklist.html", "checklist", "checklist-of"),
    ("instructor.html", "instructor", "instructor-of"),
    ("assessment.html", "assessment", "assessment-of"),
    ("kit.html", "kit", "kit-of"),
    ("handout.html", "handout", "handout-of"),
    ("handout-checklist.html", "handout-checklist", "handout-checklist-of"),
    ("answers.html", "answers", "answers-of"),
];

/// What the form for printing is called in every language.
const PDF: &str = "PDF";

impl Entry {
    /// What the list says of a procedure; `None` for a catalogue.
    pub fn of(document: &Document) -> Option<Entry> {
        let procedure = document.procedure()?;
        let header = &procedure.header;
        let text = |text: &Option<crate::source::Text>| {
            text.as_ref().map(|t| t.value.to_string()).unwrap_or_default()
        };
        let models: Vec<&str> = header.models.iter().flatten().map(|m| m.value.as_str()).collect();
        Some(Entry {
            number: procedure.number.value.to_string(),
            title: procedure.title.value.to_string(),
            equipment: text(&header.equipment),
            models: models.join(", "),
            revision: text(&header.revision),
            others: Vec::new(),
        })
    }
}

#[derive(Serialize)]
struct Other {
    file: String,
    label: &'static str,
    /// With the number, for those who hear the links without what stands beside them.
    full: String,
}

#[derive(Serialize)]
struct Row<'a> {
    number: &'a str,
    title: &'a str,
    models: &'a str,
    revision: &'a str,
    others: Vec<Other>,
    /// The folder of its sheets, relative to the list.
    folder: String,
}

fn row<'a>(entry: &'a Entry, words: &'static Words) -> Row<'a> {
    let is_there = |file: &str| entry.others.iter().any(|it| it == file);
    let there = OTHERS.iter().filter(|(file, ..)| is_there(file));
    let other = |&(file, label, full): &(&'static str, &'static str, &str)| {
        let full = words.say(full, &[("number", entry.number.as_str().into())]);
        let pdf = file.strip_suffix(".html").map(|stem| format!("{stem}.pdf")).filter(|pdf| is_there(pdf));
        let pdf = pdf.map(|file| Other { file, label: PDF, full: format!("{full}, {PDF}") });
        [Some(Other { file: file.to_owned(), label: words.label(label), full }), pdf].into_iter().flatten()
    };
    Row {
        number: &entry.number,
        title: &entry.title,
        models: &entry.models,
        revision: &entry.revision,
        others: there.flat_map(other).collect(),
        folder: html::path_segment(&entry.number),
    }
}

#[derive(Serialize)]
struct Machine<'a> {
    equipment: &'a str,
    rows: Vec<Row<'a>>,
}

#[derive(Serialize)]
struct Page<'a> {
    lang: &'static str,
    /// Goes into a tag round the authors' words.
    own: String,
    house: &'a str,
    count: usize,
    machines: Vec<Machine<'a>>,
    date: Option<&'a str>,
}

static STYLE: PerLanguage<String> = PerLanguage::new();
const STYLES: [&str; 2] = [templates::LOOK, include_str!("page.css")];

/// `index.html` for all procedures that have sheets, sorted by number.
///
/// # Errors
/// When its template fails.
pub fn render(entries: &[Entry], context: &Context<'_>) -> Result<String, SheetError> {
    let mut sorted: Vec<&Entry> = entries.iter().collect();
    sorted.sort();
    let mut machines: Vec<Machine<'_>> = Vec::new();
    for entry in sorted {
        let row = row(entry, context.words);
        match machines.iter_mut().find(|machine| machine.equipment == entry.equipment) {
            Some(machine) => machine.rows.push(row),
            None => machines.push(Machine { equipment: &entry.equipment, rows: vec![row] }),
        }
    }
    let page = Page {
        lang: context.words.language().tag(),
        own: html::in_language(context.own()),
        house: &context.settings.house,
        count: entries.len(),
        machines,
        date: context.date,
    };
    let style = templates::style(&STYLE, &STYLES, context.words);
    templates::fill("index", context.words, &page, &[("style", style)])
}
