//! The block at the head of a sheet: what the procedure is, for which machine, in which issue.
use super::{Sheet, html, prose};
use crate::model::Prose;
use crate::model::document::Call;
use crate::source::Text;
use serde::Serialize;

/// What the block's template is filled from; its cells are [`cells`]. `outcome_html` is markup already.
#[derive(Serialize)]
pub struct Title<'a> {
    pub house: &'a str,
    pub number: &'a str,
    pub title: &'a str,
    /// Goes into a tag round the author's words.
    pub own: String,
    /// Whom the sheet is for, where that is not everybody.
    pub edition: &'static str,
    pub outcome_html: String,
}

impl<'a> Title<'a> {
    pub fn of(sheet: &Sheet<'a>) -> Title<'a> {
        let procedure = sheet.procedure;
        Title {
            house: &sheet.settings().house,
            number: &procedure.number.value,
            title: &procedure.title.value,
            own: html::in_language(sheet.context.own()),
            edition: sheet.edition(),
            outcome_html: procedure.header.outcome.as_ref().map(|p| inline(sheet, p)).unwrap_or_default(),
        }
    }
}

/// A short text on one line: a date is not broken at its hyphens.
fn whole(text: &str) -> String {
    const SHORT: usize = 20;
    let escaped = html::escaped(text);
    if text.len() > SHORT { escaped } else { format!("<span class=\"whole\">{escaped}</span>") }
}

/// The cells of the block, each a label and its value; none where the header is silent.
pub fn cells(sheet: &Sheet<'_>) -> String {
    let header = &sheet.procedure.header;
    let mut out = String::with_capacity(512);
    cell(&mut out, sheet.label("revision"), header.revision.as_ref().map(|it| whole(it.as_str())));
    cell(&mut out, sheet.label("equipment"), header.equipment.as_ref().map(|it| sheet.own(it.as_str())));
    let mut text = |key, value: Option<&str>| cell(&mut out, sheet.label(key), value.map(html::escaped));
    text("models", header.models.as_deref().map(joined).as_deref());
    text("serial-numbers", header.serials.as_ref().map(Text::as_str));
    text("time", header.time.as_ref().map(|time| sheet.words.print(time)).as_deref());
    cell(&mut out, sheet.label("people"), header.people.as_ref().map(|people| inline(sheet, people)));
    let mut text = |key, value: Option<&str>| cell(&mut out, sheet.label(key), value.map(html::escaped));
    text("approved", header.approved.as_ref().map(Text::as_str));
    text("issued", sheet.context.date);
    out
}

fn joined(texts: &[Text]) -> String {
    texts.iter().map(Text::as_str).collect::<Vec<_>>().join(", ")
}

fn cell(out: &mut String, label: &str, value_html: Option<String>) {
    let Some(value) = value_html.filter(|value| !value.is_empty()) else { return };
    out.push_str("<div>");
    html::element(out, "dt", "", label);
    html::open(out, "dd", "");
    out.push_str(&value);
    out.push_str("</dd></div>\n");
}

fn inline(sheet: &Sheet<'_>, text: &Prose) -> String {
    let mut out = String::new();
    prose::inline(&mut out, text, sheet);
    sheet.numbers.blanked(sheet, out)
}

/// A call of another procedure: its number (a link where the workspace has it), title, and the state wanted.
pub fn call(sheet: &Sheet<'_>, call: &Call) -> String {
    let mut out = String::new();
    if let Some(number) = &call.number {
        out.push_str(&link(sheet, call).unwrap_or_else(|| html::escaped(&number.value)));
        if let Some(title) = &call.title {
            out.push_str(", ");
            html::author(&mut out, sheet.context.own(), title);
        }
    }
    if let Some(text) = &call.text {
        out.push_str(if call.number.is_some() { ": " } else { "" });
        html::author(&mut out, sheet.context.own(), &text.value);
    }
    out
}

/// The called procedure's number as a link to its bench page; `None` where it has no page.
pub fn link(sheet: &Sheet<'_>, call: &Call) -> Option<String> {
    let number = &call.number.as_ref()?.value;
    sheet.context.register.has_page(number).then(|| {
        let mut out = format!("<a href=\"../{}/bench.html\">", html::path_segment(number));
        html::escape(&mut out, number);
        html::close(&mut out, "a");
        out
    })
}
