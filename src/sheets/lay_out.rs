//! What to lay out before the work: parts to have new, other parts, tools, supplies.
use super::{Sheet, fitted, html};
use crate::model::declarations::{Applies, Part, Supply, Thing, Tool};
use crate::source::Text;

pub struct Kit<'a> {
    pub new_parts: Vec<Row<'a>>,
    pub parts: Vec<Row<'a>>,
    pub tools: Vec<Row<'a>>,
    pub supplies: Vec<Row<'a>>,
}

pub struct Row<'a> {
    pub text: &'a str,
    pub count: u32,
    /// Part or stock number; empty where there is none.
    pub number: &'a str,
    pub notes: Vec<String>,
}

/// The rows as list items.
pub fn items(sheet: &Sheet<'_>, rows: &[Row<'_>]) -> String {
    let mut out = String::with_capacity(64 * rows.len());
    for row in rows {
        html::open(&mut out, "li", "");
        if row.count > 1 {
            html::open(&mut out, "b", "count");
            html::number(&mut out, row.count);
            out.push_str(" ×</b> ");
        }
        html::author(&mut out, sheet.context.own(), row.text);
        let number = Some(row.number).filter(|number| !number.is_empty()).map(|number| ("part-no", number));
        for (class, text) in number.into_iter().chain(row.notes.iter().map(|note| ("fact", note.as_str()))) {
            out.push(' ');
            html::element(&mut out, "span", class, text);
        }
        out.push_str("</li>\n");
    }
    out
}

impl<'a> Kit<'a> {
    pub fn of(sheet: &Sheet<'a>) -> Kit<'a> {
        let declared = sheet.declarations;
        let (mut new_parts, mut parts) = (Vec::new(), Vec::new());
        for (fitted, part) in fitted::of(sheet).iter().zip(&declared.parts) {
            let mut row = part_row(sheet, part);
            if fitted.sure > 0 {
                row.count = fitted.sure;
                new_parts.push(row);
            } else {
                row.notes.extend(fitted.perhaps.then(|| sheet.label("only-if-faulty").to_owned()));
                parts.push(row);
            }
        }
        Kit {
            new_parts,
            parts,
            tools: declared.tools.iter().map(|tool| tool_row(sheet, tool)).collect(),
            supplies: declared.supplies.iter().map(|supply| supply_row(sheet, supply)).collect(),
        }
    }
}

fn part_row<'a>(sheet: &Sheet<'a>, part: &'a Part) -> Row<'a> {
    let mut notes = Vec::new();
    notes.extend(applies(sheet, &part.applies));
    for callout in &part.callouts {
        let figure = callout.figure.as_ref().and_then(|f| sheet.declarations.thing(f.value));
        notes.push(match figure {
            Some(figure) => {
                let figure = figure.name.value.replace('-', " ");
                sheet.say("item-in", &[("number", callout.number.value.into()), ("figure", figure.into())])
            }
            None => sheet.say("item", &[("number", callout.number.value.into())]),
        });
    }
    notes.extend(part.facts.mass.as_ref().map(|mass| sheet.quantity(mass)));
    row(&part.thing, part.count, notes)
}

pub(super) fn tool_row<'a>(sheet: &Sheet<'a>, tool: &'a Tool) -> Row<'a> {
    let mut notes = Vec::new();
    notes.extend(tool.range.as_ref().map(|q| sheet.quantity(q)));
    notes.extend(tool.adapter.as_ref().map(|q| sheet.say("offset", &[("length", sheet.quantity(q).into())])));
    notes.extend(tool.capacity.as_ref().map(|q| sheet.say("carries", &[("load", sheet.quantity(q).into())])));
    notes.extend(tool.temporary.map(|_| sheet.label("comes-out-again").to_owned()));
    row(&tool.thing, tool.count, notes)
}

pub(super) fn supply_row<'a>(sheet: &Sheet<'a>, supply: &'a Supply) -> Row<'a> {
    let mut notes = Vec::new();
    if !supply.hazards.is_empty() {
        let codes: Vec<&str> = supply.hazards.iter().map(|code| code.value.as_str()).collect();
        notes.push(codes.join(", "));
    }
    if let Some(cure) = &supply.cure {
        let time = ("time", sheet.words.print(&cure.time).into());
        notes.push(match &cure.at {
            Some(at) => sheet.say("cures-in-at", &[time, ("temperature", sheet.quantity(at).into())]),
            None => sheet.say("cures-in", &[time]),
        });
    }
    row(&supply.thing, 1, notes)
}

pub(super) fn row(thing: &Thing, count: u32, notes: Vec<String>) -> Row<'_> {
    let number = thing.number.as_ref().map_or("", |number| number.as_str());
    Row { text: thing.text.as_str(), count, number, notes }
}

/// "F40S only", "serial 300000 and up only", "if fitted"; none for all machines.
pub fn applies(sheet: &Sheet<'_>, applies: &Applies) -> Option<String> {
    let mut words = Vec::new();
    if !applies.models.is_empty() {
        let models: Vec<&str> = applies.models.iter().map(|m| m.value.as_str()).collect();
        words.push(sheet.say("these-only", &[("models", models.join(", ").into())]));
    }
    let serial = |it: &Text| sheet.say("serial-only", &[("serial", it.as_str().into())]);
    words.extend(applies.serials.as_ref().map(serial));
    words.extend(applies.if_fitted.map(|_| sheet.label("if-fitted").to_owned()));
    (!words.is_empty()).then(|| words.join(", "))
}
