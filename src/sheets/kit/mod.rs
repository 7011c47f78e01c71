//! What has to be ordered and laid out for one or more procedures, at one or more benches: as a page with boxes, as
//! text, and for other programs.
mod csv;
mod gather;
mod tables;
mod text;

pub use csv::csv;
pub use gather::List;
pub(super) use tables::tables;
pub use text::text;

use super::language::{PerLanguage, Words};
use super::{Context, Sheet, SheetError, paper, templates};
use crate::model::Document;
use serde::Serialize;

/// One line of the list.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct Line {
    /// Part or stock number; empty where there is none.
    pub number: String,
    pub text: String,
    /// Pieces for one bench; none of what is counted in no pieces.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub each: Option<u64>,
    /// Pieces for all benches.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub all: Option<u64>,
    pub notes: Vec<String>,
    /// The numbers of the procedures that need it.
    #[serde(rename = "for")]
    pub procedures: Vec<String>,
    /// How many declarations it stands for.
    #[serde(skip)]
    declared: u32,
    #[serde(skip)]
    conditions: Vec<OnCondition>,
}

/// A note such as "F40S only", and what of a line it is true of.
#[derive(Debug, Clone, PartialEq, Eq)]
struct OnCondition {
    note: String,
    declared: u32,
    procedures: Vec<String>,
}

/// One procedure that the list is for.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct Heading {
    pub number: String,
    pub title: String,
    pub equipment: String,
    pub revision: String,
}

/// For programs: `{"version": 1, "benches", "procedures", "order", "have", "tools", "supplies", "wear"}`.
pub fn json(list: &List) -> String {
    #[derive(Serialize)]
    struct Answer<'a> {
        version: u32,
        #[serde(flatten)]
        list: &'a List,
    }
    serde_json::to_string(&Answer { version: 1, list }).unwrap_or_default() + "\n"
}

#[derive(Serialize)]
struct Page<'a> {
    lang: &'static str,
    house: &'a str,
    heading: String,
    /// Of the one procedure that it is for, else empty.
    number: &'a str,
    title: &'a str,
    /// Goes into a tag round the authors' words.
    own: String,
    procedures: &'a [Heading],
    several: bool,
}

static STYLE: PerLanguage<String> = PerLanguage::new();
const STYLES: [&str; 4] = [templates::LOOK, paper::STYLE, paper::SHEET, include_str!("page.css")];

/// `kit.html`: the list as a page to print and to tick.
///
/// # Errors
/// When its template fails.
pub fn render(list: &List, context: &Context<'_>) -> Result<String, SheetError> {
    let only = match list.procedures.as_slice() {
        [only] => Some(only),
        _ => None,
    };
    let heading = heading(list, context.words);
    let page = Page {
        lang: context.words.language().tag(),
        house: &context.settings.house,
        number: only.map_or("", |it| &it.number),
        title: only.map_or("", |it| &it.title),
        own: super::html::in_language(context.own()),
        procedures: &list.procedures,
        several: only.is_none(),
        heading,
    };
    let foot = match only {
        Some(only) => paper::foot(context.words, &only.number, &only.revision),
        None => page.heading.clone(),
    };
    let texts = [
        ("style", templates::style(&STYLE, &STYLES, context.words)),
        ("page-style", &paper::size(context.settings, &foot)),
        ("tables", &tables(list, context, "h2")),
    ];
    templates::fill("kit", context.words, &page, &texts)
}

/// "Kit for 12 benches".
pub(super) fn heading(list: &List, words: &Words) -> String {
    words.say("kit-for", &[("benches", list.benches.into())])
}

/// The list of one procedure, for its own pages.
///
/// # Errors
/// When the document is no procedure.
pub fn of(document: &Document, benches: u32, context: &Context<'_>) -> Result<List, SheetError> {
    let mut list = List::new(benches);
    list.add(&Sheet::of(document, context)?);
    Ok(list)
}
