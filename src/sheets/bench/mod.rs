//! The bench page: to work from on a tablet or a phone, in a light or a dark shop.
mod steps;

use super::kit::Kit;
use super::look_alikes::Pair;
use super::title::Title;
use super::{Context, Sheet, SheetError, html, look_alikes, sentences, signs, templates, title, torques};
use crate::model::Document;
use crate::model::hazard::Wear;
use serde::Serialize;

#[derive(Serialize)]
struct Page {
    lang: &'static str,
    title: Title,
    contents: Vec<steps::Part>,
    requires: Vec<String>,
    afterwards: Vec<String>,
    leaves: Vec<String>,
    /// List items, a sign and its words each.
    wear_html: String,
    kit: Kit,
    look_alikes: Vec<Pair>,
    torques: Vec<torques::Row>,
    dues: Vec<Due>,
    sources: Vec<String>,
}

#[derive(Serialize)]
struct Due {
    when: String,
    what_html: String,
}

static STYLE: std::sync::LazyLock<String> =
    std::sync::LazyLock::new(|| [templates::LOOK, include_str!("page.css")].concat());

/// `bench.html` of a procedure, as a whole page.
///
/// # Errors
/// When the document is no procedure, or its template fails.
pub fn render(document: &Document, context: &Context<'_>) -> Result<String, SheetError> {
    let sheet = Sheet::of(document, context)?;
    let header = &sheet.procedure.header;
    let calls = |calls: &Option<Vec<crate::model::document::Call>>| {
        calls.iter().flatten().map(|call| title::call(&sheet, call)).collect::<Vec<_>>()
    };
    let texts = |texts: &Option<Vec<crate::source::Text>>| {
        texts.iter().flatten().map(|text| text.value.clone()).collect::<Vec<_>>()
    };
    let (contents, steps_html) = steps::render(&sheet);
    let page = Page {
        lang: "en",
        title: Title::of(&sheet),
        contents,
        requires: calls(&header.requires),
        afterwards: calls(&header.afterwards),
        leaves: texts(&header.leaves),
        wear_html: wear(&sheet),
        kit: Kit::of(&sheet),
        look_alikes: look_alikes::pairs(&sheet),
        torques: torques::rows(&sheet),
        dues: dues(&sheet),
        sources: texts(&header.sources),
    };
    let texts = [("style", STYLE.as_str()), ("drawings", signs::DRAWINGS), ("steps", &steps_html)];
    templates::fill("bench", &page, &texts)
}

/// All protective equipment that some message of the procedure asks for, in the order of the table.
fn wear(sheet: &Sheet<'_>) -> String {
    let asked: Vec<&Wear> =
        sheet.procedure.messages().flat_map(|(message, _)| &message.wear).map(|w| w.value).collect();
    let mut out = String::new();
    signs::wear_items(&mut out, Wear::all().iter().filter(|wear| asked.contains(wear)));
    out
}

fn dues(sheet: &Sheet<'_>) -> Vec<Due> {
    let due = |due: &crate::model::document::Due| Due {
        when: html::sentence_case(&due.when.value),
        what_html: sentences::phrase(sheet, &html::sentence_case(&due.what.value)),
    };
    sheet.procedure.dues.iter().map(due).collect()
}
