//! The bench page: to work from on a tablet or a phone, in a light or a dark shop.
mod record;
mod steps;

use super::language::{PerLanguage, Words};
use super::lay_out::{self, Kit};
use super::look_alikes::Pair;
use super::title::Title;
use super::{
    Context, Sheet, SheetError, figures, html, look_alikes, paper, sentences, signs, since, templates, title,
    torques,
};
use crate::ledger::hazards;
use crate::model::Document;
use crate::model::hazard::Wear;
use crate::source::Text;
use serde::Serialize;

#[derive(Serialize)]
struct Page<'a> {
    lang: &'static str,
    #[serde(flatten)]
    title: Title<'a>,
    /// The file of its checklist.
    checklist: &'static str,
    /// The lists of what to lay out stand here, and not another edition's.
    lists: bool,
    has: Has,
    requires: Vec<String>,
    afterwards: Vec<String>,
    leaves: Vec<&'a str>,
    /// List items, a sign and its words each.
    wear_html: String,
    look_alikes: Vec<Pair>,
    dues: Vec<Due>,
    sources: Vec<&'a str>,
}

/// Which of the lists that are rendered here have anything in them.
#[derive(Serialize)]
struct Has {
    steps: bool,
    new_parts: bool,
    parts: bool,
    tools: bool,
    supplies: bool,
    torques: bool,
    figures: bool,
}

#[derive(Serialize)]
struct Due {
    when: String,
    what_html: String,
}

static STYLE: PerLanguage<String> = PerLanguage::new();
const STYLES: [&str; 4] = [templates::LOOK, paper::STYLE, STYLE_TEXT, include_str!("record/fields.css")];
pub(super) const STYLE_TEXT: &str = include_str!("page.css");

/// What another edition has besides, as markup.
#[derive(Default)]
pub(super) struct Extra<'a> {
    pub style: &'static str,
    /// Entries of the contents, and the sections that they lead to.
    pub contents: &'a str,
    pub lead: &'a str,
    /// Stands for the lists of what to lay out; empty for those themselves.
    pub kit: &'a str,
    /// What makes the page one to fill in; empty for one to read.
    pub record: &'a str,
}

/// `bench.html` of a procedure, as a whole page.
///
/// # Errors
/// When the document is no procedure, or its template fails.
pub fn render(document: &Document, context: &Context<'_>) -> Result<String, SheetError> {
    let sheet = Sheet::of(document, context)?;
    let extra =
        Extra { style: style(context.words), record: &record::markup(document, &sheet), ..Extra::default() };
    page(document, &sheet, &extra)
}

/// The style of the page.
pub(super) fn style(words: &Words) -> &'static str {
    templates::style(&STYLE, &STYLES, words)
}

/// The page of one edition.
pub(super) fn page(document: &Document, sheet: &Sheet<'_>, extra: &Extra<'_>) -> Result<String, SheetError> {
    let (header, context) = (&sheet.procedure.header, sheet.context);
    let calls = |calls: &Option<Vec<crate::model::document::Call>>| {
        calls.iter().flatten().map(|call| title::call(sheet, call)).collect::<Vec<_>>()
    };
    let demands = hazards::demands(document, context.settings);
    let drawings = [signs::DRAWINGS, &signs::hazard_drawings(&steps::shown(&demands))].concat();
    let (contents, steps_html) = steps::render(sheet, &demands);
    let kit = Kit::of(sheet);
    let (torques, figures) = (torques::table(sheet), figures::list(sheet));
    let page = Page {
        lang: context.words.language().tag(),
        title: Title::of(sheet),
        checklist: sheet.checklist(),
        lists: extra.kit.is_empty(),
        has: Has {
            steps: !contents.is_empty(),
            new_parts: !kit.new_parts.is_empty(),
            parts: !kit.parts.is_empty(),
            tools: !kit.tools.is_empty(),
            supplies: !kit.supplies.is_empty(),
            torques: !torques.is_empty(),
            figures: !figures.is_empty(),
        },
        requires: calls(&header.requires),
        afterwards: calls(&header.afterwards),
        leaves: header.leaves.iter().flatten().map(Text::as_str).collect(),
        wear_html: wear(sheet),
        look_alikes: look_alikes::pairs(sheet),
        dues: dues(sheet),
        sources: header.sources.iter().flatten().map(Text::as_str).collect(),
    };
    let lead = since::gone(sheet) + extra.lead;
    let texts = [
        ("style", extra.style),
        ("lead-contents", extra.contents),
        ("lead", &lead),
        ("kit", extra.kit),
        ("page-style", &paper::style(sheet)),
        ("drawings", &drawings),
        ("cells", &title::cells(sheet)),
        ("contents", &contents),
        ("new-parts", &lay_out::items(sheet, &kit.new_parts)),
        ("parts", &lay_out::items(sheet, &kit.parts)),
        ("tools", &lay_out::items(sheet, &kit.tools)),
        ("supplies", &lay_out::items(sheet, &kit.supplies)),
        ("torques", &torques),
        ("figures", &figures),
        ("steps", &steps_html),
        ("script-source", if extra.record.is_empty() { "" } else { record::source() }),
        ("record", extra.record),
        ("record-script", if extra.record.is_empty() { "" } else { record::script() }),
    ];
    templates::fill("bench", context.words, &page, &texts)
}

/// All protective equipment that some message of the procedure asks for, in the order of the table.
fn wear(sheet: &Sheet<'_>) -> String {
    let asked: Vec<&Wear> =
        sheet.procedure.messages().flat_map(|(message, _)| &message.wear).map(|w| w.value).collect();
    let mut out = String::new();
    signs::wear_items(&mut out, sheet.context.words, Wear::all().iter().filter(|wear| asked.contains(wear)));
    out
}

fn dues(sheet: &Sheet<'_>) -> Vec<Due> {
    let due = |due: &crate::model::document::Due| Due {
        when: html::sentence_case(&due.when.value),
        what_html: sheet
            .numbers
            .blanked(sheet, sentences::phrase(sheet, &html::sentence_case(&due.what.value))),
    };
    sheet.procedure.dues.iter().map(due).collect()
}
