//! The assessment: criteria made from the steps, each passed or not yet, on paper, with both signatures.
mod criteria;

use super::language::PerLanguage;
use super::title::Title;
use super::{Context, Sheet, SheetError, html, paper, since, templates, title};
use crate::model::Document;
use criteria::{Criterion, Group};
use serde::Serialize;

#[derive(Serialize)]
struct Page<'a> {
    lang: &'static str,
    #[serde(flatten)]
    title: Title<'a>,
    /// Of several models, the one that is worked on is ticked.
    models: Vec<&'a str>,
}

static STYLE: PerLanguage<String> = PerLanguage::new();
const STYLES: [&str; 4] = [templates::LOOK, paper::STYLE, paper::SHEET, include_str!("page.css")];

/// `assessment.html` of a procedure, as a whole page.
///
/// # Errors
/// When the document is no procedure, or its template fails.
pub fn render(document: &Document, context: &Context<'_>) -> Result<String, SheetError> {
    let sheet = Sheet::of(document, context)?;
    let models = sheet.procedure.header.models.as_deref().filter(|models| models.len() > 1);
    let page = Page {
        lang: context.words.language().tag(),
        title: Title::of(&sheet),
        models: models.into_iter().flatten().map(crate::source::Text::as_str).collect(),
    };
    let groups = criteria::of(&sheet);
    let texts = [
        ("style", templates::style(&STYLE, &STYLES, context.words)),
        ("page-style", &paper::style(&sheet)),
        ("cells", &title::cells(&sheet)),
        ("groups", &rows(&sheet, &groups)),
    ];
    let page = templates::fill("assessment", context.words, &page, &texts)?;
    Ok(html::steps_on("bench.html", &page))
}

/// A table for each group.
fn rows(sheet: &Sheet<'_>, groups: &[Group<'_>]) -> String {
    let mut out = String::with_capacity(8_192);
    let mut number = 0;
    for (index, group) in groups.iter().enumerate() {
        let id = format!("criteria-{}", index + 1);
        out.push_str("<section aria-labelledby=\"");
        out.push_str(&id);
        out.push_str("\">\n<h2 id=\"");
        out.push_str(&id);
        out.push_str("\">");
        html::author(&mut out, group.own, group.title);
        out.push_str("</h2>\n<table class=\"criteria\">\n<thead><tr>");
        for (class, key) in [
            ("no", "number-short"),
            ("what", "criterion"),
            ("at", "step"),
            ("mark", "pass"),
            ("mark", "not-yet"),
        ] {
            out.push_str("<th scope=\"col\" class=\"");
            out.push_str(class);
            out.push_str("\">");
            html::escape(&mut out, sheet.label(key));
            out.push_str("</th>");
        }
        out.push_str("</tr></thead>\n<tbody>\n");
        for criterion in &group.criteria {
            number += 1;
            row(&mut out, sheet, number, criterion);
        }
        out.push_str("</tbody>\n</table>\n</section>\n");
    }
    out
}

fn row(out: &mut String, sheet: &Sheet<'_>, number: u32, it: &Criterion) {
    out.push_str(if it.critical {
        "<tr class=\"critical\"><td class=\"no\">"
    } else {
        "<tr><td class=\"no\">"
    });
    html::number(out, number);
    out.push_str("</td><th scope=\"row\" class=\"what\">");
    if it.critical {
        html::element(out, "span", "tag", sheet.label("critical"));
        out.push(' ');
    }
    for limit in &it.limits_html {
        out.push_str("<span class=\"tag plain\">");
        out.push_str(limit);
        out.push_str("</span> ");
    }
    out.push_str(&it.what_html);
    if let Some(words) = since::among(sheet, it.steps.iter().cloned().flatten()) {
        out.push(' ');
        html::element(out, "span", "tag plain", &words);
    }
    if !it.more_html.is_empty() {
        html::open(out, "span", "more");
        out.push_str(&it.more_html);
        html::close(out, "span");
    }
    if let Some(unit) = it.reading {
        out.push_str("<span class=\"write\">");
        html::element(out, "span", "label", sheet.label("assessors-reading"));
        out.push_str("<span class=\"rule\"></span>");
        html::escape(out, unit);
        out.push_str("</span>");
    }
    out.push_str("</th><td class=\"at\">");
    for (index, step) in it.steps.iter().enumerate() {
        out.push_str(if index > 0 { ", " } else { "" });
        out.push_str("<a href=\"#step-");
        html::number(out, *step.start());
        out.push_str("\">");
        html::number(out, *step.start());
        if step.end() > step.start() {
            out.push('–');
            html::number(out, *step.end());
        }
        html::close(out, "a");
    }
    out.push_str("</td><td class=\"mark\"><span class=\"box\"></span></td><td class=\"mark\"><span class=\"box\"></span></td></tr>\n");
}
