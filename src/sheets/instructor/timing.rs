//! The table of times: each section, what the clock says, and what is waited for.
use crate::model::quantity::Quantity;
use crate::sheets::clock::{self, Part};
use crate::sheets::{Sheet, html};

/// The table, and how it agrees with the head; empty where nothing has a time.
pub fn section(sheet: &Sheet<'_>) -> String {
    let parts = clock::of(sheet);
    let said = sheet.procedure.header.time.as_ref();
    if said.is_none() && parts.iter().all(|part| part.work.is_none()) {
        return String::new();
    }
    let waits = parts.iter().any(|part| !part.waits.is_empty());
    let mut out = String::new();
    // Rows without a time, or with nothing but waits, would tell nothing.
    if parts.iter().all(|part| part.work.is_none_or(|work| work == 0)) {
        note(&mut out, sheet, &parts, said, waits);
        return out;
    }
    out.push_str("<table class=\"times\">\n<thead><tr>");
    let heads = ["head-section", "head-time", "head-clock", "head-waits"];
    for head in heads.into_iter().filter(|head| waits || *head != "head-waits") {
        out.push_str("<th scope=\"col\">");
        html::escape(&mut out, sheet.label(head));
        out.push_str("</th>");
    }
    out.push_str("</tr></thead>\n<tbody>\n");
    for part in &parts {
        row(&mut out, sheet, part, waits);
    }
    out.push_str("</tbody>\n");
    total(&mut out, sheet, &parts, waits);
    out.push_str("</table>\n");
    note(&mut out, sheet, &parts, said, waits);
    out
}

fn row(out: &mut String, sheet: &Sheet<'_>, part: &Part<'_>, waits: bool) {
    out.push_str("<tr><th scope=\"row\"><a href=\"#section-");
    out.push_str(&part.number.to_string());
    out.push_str("\">");
    match &part.section.title {
        Some(title) => html::author(out, sheet.context.own(), title.as_str()),
        None => html::escape(out, sheet.label("steps")),
    }
    out.push_str("</a></th>");
    let time = part.work.map(clock::duration);
    let time = match time {
        Some(time) if part.at_least => clock::at_least(sheet, &time),
        Some(time) => time,
        None => sheet.label("time-not-given").to_owned(),
    };
    html::element(out, "td", "", &time);
    html::element(out, "td", "values", &clock::between(sheet, part));
    if waits {
        out.push_str("<td>");
        for (index, (step, time)) in part.waits.iter().enumerate() {
            out.push_str(if index > 0 { ", " } else { "" });
            html::step_link(out, *step, &sheet.words.print(time));
        }
        out.push_str("</td>");
    }
    out.push_str("</tr>\n");
}

fn total(out: &mut String, sheet: &Sheet<'_>, parts: &[Part<'_>], waits: bool) {
    let Some(last) = parts.last() else { return };
    out.push_str("<tfoot><tr><th scope=\"row\">");
    html::escape(out, sheet.label("in-all"));
    out.push_str("</th>");
    let (time, face) = (clock::duration(last.end), clock::face(last.end));
    let said = |it: &str| if last.ends_about { clock::at_least(sheet, it) } else { it.to_owned() };
    html::element(out, "td", "values", &said(&time));
    html::element(out, "td", "values", &said(&face));
    if waits {
        let seconds = parts.iter().flat_map(|part| &part.waits).filter_map(|(_, time)| clock::seconds(time));
        let sum = seconds.fold(0u64, u64::saturating_add);
        html::element(out, "td", "values", &clock::duration(sum));
    }
    out.push_str("</tr></tfoot>\n");
}

fn note(out: &mut String, sheet: &Sheet<'_>, parts: &[Part<'_>], said: Option<&Quantity>, waits: bool) {
    if waits {
        html::element(out, "p", "", sheet.label("waits-not-counted"));
    }
    let (sum, about) = parts.last().map_or((0, true), |last| (last.end, last.ends_about));
    let Some(said) = said else { return };
    let differs = clock::seconds(said).is_none_or(|seconds| about || seconds != sum);
    if differs {
        html::element(
            out,
            "p",
            "differs",
            &sheet.say("head-says-time", &[("time", sheet.words.print(said).into())]),
        );
    }
}
