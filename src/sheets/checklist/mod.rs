//! The checklist: for paper, with a box a step and blanks for all that is measured, tightened and signed.
mod rounds;
mod steps;

use super::language::PerLanguage;
use super::title::Title;
use super::{Context, Sheet, SheetError, figures, html, paper, sentences, signs, templates, title};
use crate::model::document::Due;
use crate::model::{Action, Document};
use serde::Serialize;

#[derive(Serialize)]
struct Page<'a> {
    lang: &'static str,
    #[serde(flatten)]
    title: Title<'a>,
    requires: Vec<String>,
    /// Has to choose its model or serial where there are several.
    models: Vec<&'a str>,
    afterwards: Vec<String>,
    dues_html: Vec<String>,
    /// Who signs at the end, besides the technician.
    signers: Vec<String>,
    /// There are pictures.
    figures: bool,
}

static STYLE: PerLanguage<String> = PerLanguage::new();
const STYLES: [&str; 4] = [templates::LOOK, paper::STYLE, paper::SHEET, include_str!("page.css")];

/// `checklist.html` of a procedure, as a whole page.
///
/// # Errors
/// When the document is no procedure, or its template fails.
pub fn render(document: &Document, context: &Context<'_>) -> Result<String, SheetError> {
    page(&Sheet::of(document, context)?)
}

/// The page of one edition.
pub(super) fn page(sheet: &Sheet<'_>) -> Result<String, SheetError> {
    let context = sheet.context;
    let header = &sheet.procedure.header;
    let calls = |calls: &Option<Vec<crate::model::document::Call>>| {
        calls.iter().flatten().map(|call| title::call(sheet, call)).collect::<Vec<_>>()
    };
    let figures = figures::together(sheet);
    let page = Page {
        lang: context.words.language().tag(),
        title: Title::of(sheet),
        requires: calls(&header.requires),
        models: header
            .models
            .iter()
            .flatten()
            .filter(|_| many(&header.models))
            .map(crate::source::Text::as_str)
            .collect(),
        afterwards: calls(&header.afterwards),
        dues_html: dues(sheet),
        signers: signers(sheet),
        figures: !figures.is_empty(),
    };
    let (page_style, groups) = (paper::style(sheet), steps::render(sheet));
    let texts = [
        ("style", templates::style(&STYLE, &STYLES, context.words)),
        ("page-style", &page_style),
        ("drawings", signs::DRAWINGS),
        ("cells", &title::cells(sheet)),
        ("groups", &groups),
        ("figures", &figures),
    ];
    templates::fill("checklist", context.words, &page, &texts)
}

fn many(models: &Option<Vec<crate::source::Text>>) -> bool {
    models.as_ref().is_some_and(|m| m.len() > 1)
}

fn dues(sheet: &Sheet<'_>) -> Vec<String> {
    let due = |due: &Due| {
        let when = sheet.own(&html::sentence_case(&due.when.value));
        let what = sentences::phrase(sheet, &due.what.value);
        format!("{when}: {}", sheet.numbers.blanked(sheet, what))
    };
    sheet.procedure.dues.iter().map(due).collect()
}

/// Each role that a hold names, once, in the order of the steps.
fn signers(sheet: &Sheet<'_>) -> Vec<String> {
    let mut signers: Vec<String> = Vec::new();

    for action in sheet
        .procedure
        .steps()
        .flat_map(|step| step.actions.iter().chain(step.outcomes.iter().flat_map(|outcome| &outcome.then)))
    {
        if let Action::Hold(hold) = action {
            let role = html::sentence_case(&hold.role.value);
            if !signers.contains(&role) {
                signers.push(role);
            }
        }
    }
    signers
}
