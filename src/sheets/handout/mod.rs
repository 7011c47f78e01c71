//! Handouts for learners: the bench page and the checklist with values left blank, to be looked up in the maker's
//! manual, and the page that answers them.
use super::bench::{self, Extra};
use super::language::PerLanguage;
use super::title::Title;
use super::withhold::{self, Numbers, Withhold};
use super::{Context, Edition, Sheet, SheetError, checklist, html, paper, templates, title};
use crate::model::Document;
use serde::Serialize;

fn sheet<'a>(
    document: &'a Document,
    withhold: Withhold,
    context: &'a Context<'a>,
) -> Result<Sheet<'a>, SheetError> {
    let sheet = Sheet::of(document, context)?;
    let numbers = Numbers::of(&sheet, withhold);
    Ok(Sheet { edition: Edition::Handout, withhold, numbers, ..sheet })
}

/// `handout.html`: the bench page with blanks.
///
/// # Errors
/// When the document is no procedure, or its template fails.
pub fn bench(document: &Document, withhold: Withhold, context: &Context<'_>) -> Result<String, SheetError> {
    let sheet = sheet(document, withhold, context)?;
    bench::page(document, &sheet, &Extra { style: bench::style(context.words), ..Extra::default() })
}

/// `handout-checklist.html`: the checklist with blanks.
///
/// # Errors
/// When the document is no procedure, or its template fails.
pub fn checklist(
    document: &Document,
    withhold: Withhold,
    context: &Context<'_>,
) -> Result<String, SheetError> {
    checklist::page(&sheet(document, withhold, context)?)
}

#[derive(Serialize)]
struct Page<'a> {
    lang: &'static str,
    #[serde(flatten)]
    title: Title<'a>,
}

static STYLE: PerLanguage<String> = PerLanguage::new();
const STYLES: [&str; 4] = [templates::LOOK, paper::STYLE, paper::SHEET, include_str!("page.css")];

/// `answers.html`: what the blanks stand for, by step.
///
/// # Errors
/// When the document is no procedure, or its template fails.
pub fn answers(document: &Document, withhold: Withhold, context: &Context<'_>) -> Result<String, SheetError> {
    let sheet = Sheet { edition: Edition::Answers, ..Sheet::of(document, context)? };
    let page = Page { lang: context.words.language().tag(), title: Title::of(&sheet) };
    let texts = [
        ("style", templates::style(&STYLE, &STYLES, context.words)),
        ("page-style", &paper::style(&sheet)),
        ("cells", &title::cells(&sheet)),
        ("answers", &table(&sheet, withhold)),
    ];
    let page = templates::fill("answers", context.words, &page, &texts)?;
    Ok(html::steps_on("handout.html", &page))
}

fn table(sheet: &Sheet<'_>, withhold: Withhold) -> String {
    let mut rows = String::new();
    for step in sheet.procedure.steps() {
        for answer in withhold::answers(sheet, step, withhold) {
            rows.push_str("<tr><td class=\"no\">");
            html::step_link(&mut rows, step.number, &step.number.to_string());
            rows.push_str("</td>");
            rows.push_str("<th scope=\"row\">");
            html::author(&mut rows, sheet.context.own(), &answer.what);
            rows.push_str("</th><td class=\"values\">");
            for value in &answer.values {
                html::element(&mut rows, "p", "", value);
            }
            rows.push_str("</td></tr>\n");
        }
    }
    if rows.is_empty() {
        let mut out = String::new();
        html::element(&mut out, "p", "", sheet.label("nothing-withheld"));
        return out;
    }
    let mut out = String::from("<table class=\"answers\">\n<thead><tr>");
    for key in ["step", "of-what", "value"] {
        out.push_str("<th scope=\"col\">");
        html::escape(&mut out, sheet.label(key));
        out.push_str("</th>");
    }
    out.push_str("</tr></thead>\n<tbody>\n");
    out.push_str(&rows);
    out.push_str("</tbody>\n</table>\n");
    out
}
