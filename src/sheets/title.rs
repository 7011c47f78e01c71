//! The block at the head of a sheet: what the procedure is, for which machine, in which issue.
use super::{Sheet, html, prose};
use crate::model::Prose;
use crate::model::document::Call;
use serde::Serialize;

/// Fields named `*_html` are markup already.
#[derive(Serialize)]
pub struct Title {
    pub house: String,
    pub number: String,
    pub title: String,
    pub fields: Vec<Field>,
    pub outcome_html: String,
}

/// One cell of the block.
#[derive(Serialize)]
pub struct Field {
    pub label: &'static str,
    pub value_html: String,
}

impl Title {
    pub fn of(sheet: &Sheet<'_>) -> Title {
        let procedure = sheet.procedure;
        let header = &procedure.header;
        Title {
            house: sheet.settings().house.clone(),
            number: procedure.number.value.clone(),
            title: procedure.title.value.clone(),
            fields: fields(sheet),
            outcome_html: header.outcome.as_ref().map(|p| inline(sheet, p)).unwrap_or_default(),
        }
    }
}

fn fields(sheet: &Sheet<'_>) -> Vec<Field> {
    let header = &sheet.procedure.header;
    let plain = |text: &str| html::escaped(text);
    let joined = |texts: &[crate::source::Text]| {
        plain(&texts.iter().map(|t| t.value.as_str()).collect::<Vec<_>>().join(", "))
    };
    let cells = [
        ("Revision", header.revision.as_ref().map(|t| plain(&t.value))),
        ("Equipment", header.equipment.as_ref().map(|t| plain(&t.value))),
        ("Models", header.models.as_deref().filter(|m| !m.is_empty()).map(joined)),
        ("Serial numbers", header.serials.as_ref().map(|t| plain(&t.value))),
        ("Time", header.time.as_ref().map(|q| plain(&q.print()))),
        ("People", header.people.as_ref().map(|p| inline(sheet, p))),
        ("Approved", header.approved.as_ref().map(|t| plain(&t.value))),
        ("Issued", sheet.context.date.map(plain)),
    ];
    cells
        .into_iter()
        .filter_map(|(label, value)| {
            value.filter(|v| !v.is_empty()).map(|value_html| Field { label, value_html })
        })
        .collect()
}

fn inline(sheet: &Sheet<'_>, text: &Prose) -> String {
    let mut out = String::new();
    prose::inline(&mut out, text, sheet);
    out
}

/// A call of another procedure: its number (a link where the workspace has it), title, and the state wanted.
pub fn call(sheet: &Sheet<'_>, call: &Call) -> String {
    let mut out = String::new();
    if let Some(number) = &call.number {
        out.push_str(&link(sheet, call).unwrap_or_else(|| html::escaped(&number.value)));
        if let Some(title) = &call.title {
            out.push_str(", ");
            html::escape(&mut out, title);
        }
    }
    if let Some(text) = &call.text {
        out.push_str(if call.number.is_some() { ": " } else { "" });
        html::escape(&mut out, &text.value);
    }
    out
}

/// The called procedure's number as a link to its bench page; `None` where the workspace has no such procedure.
pub fn link(sheet: &Sheet<'_>, call: &Call) -> Option<String> {
    let number = &call.number.as_ref()?.value;
    let known = !sheet.context.register.find(number).is_empty();
    known.then(|| {
        let mut out = format!("<a href=\"../{}/bench.html\">", html::path_segment(number));
        html::escape(&mut out, number);
        html::close(&mut out, "a");
        out
    })
}

/// Number and revision as they stand at the foot of each printed page.
pub fn footer(sheet: &Sheet<'_>) -> String {
    let number = &sheet.procedure.number.value;
    match &sheet.procedure.header.revision {
        Some(revision) => format!("{number}  Rev. {}", revision.value),
        None => number.clone(),
    }
}
