//! `procedure.json`: the procedure for other programs, with everything that its sheets are made from.
mod actions;
mod shape;
mod steps;
mod things;
mod torque;

pub use shape::{Applies, Call, FORMAT, Machine, Message, Part, Section, Step, Thing, VERSION};

use super::{Context, Sheet, SheetError, prose};
use crate::model::document;
use crate::model::quantity::{Exact, Quantity};
use crate::model::{Document, Prose};
use crate::record::{Bounds, fingerprint};
use crate::source::Text;
use schemars::generate::SchemaSettings;

/// The procedure as JSON, with a line end.
///
/// # Errors
/// When the document is no procedure.
pub fn render(document: &Document, context: &Context<'_>) -> Result<String, SheetError> {
    let machine = of(document, context)?;
    let text = serde_json::to_string_pretty(&machine);
    text.map(|text| text + "\n").map_err(|error| SheetError::Template(error.to_string()))
}

/// The JSON Schema of the machine form, as it is published.
pub fn schema() -> String {
    let settings = SchemaSettings::draft2020_12().for_serialize();
    let schema = settings.into_generator().into_root_schema_for::<Machine>();
    serde_json::to_string_pretty(&schema).unwrap_or_default() + "\n"
}

/// The machine form of a procedure.
///
/// # Errors
/// When the document is no procedure.
pub fn of(document: &Document, context: &Context<'_>) -> Result<Machine, SheetError> {
    let sheet = Sheet::of(document, context)?;
    let procedure = sheet.procedure;
    let maker = Maker { sheet: &sheet };
    let settings = context.settings;
    let due = |due: &document::Due| shape::Due { when: text(&due.when), what: text(&due.what) };
    Ok(Machine {
        format: FORMAT,
        version: VERSION,
        source: fingerprint(document),
        language: context.words.language().tag(),
        written_in: settings.written_in.tag(),
        house: settings.house.clone(),
        number: text(&procedure.number),
        title: text(&procedure.title),
        header: maker.header(&procedure.header),
        disclaimer: context.words.label("no-replacement").to_owned(),
        parts: document.declarations.parts.iter().map(|it| maker.part(it)).collect(),
        tools: document.declarations.tools.iter().map(|it| maker.tool(it)).collect(),
        supplies: document.declarations.supplies.iter().map(|it| maker.supply(it)).collect(),
        figures: document.declarations.figures.iter().map(things::figure).collect(),
        sections: maker.sections(),
        dues: procedure.dues.iter().map(due).collect(),
    })
}

/// What every part of the form is made with.
struct Maker<'a> {
    sheet: &'a Sheet<'a>,
}

impl Maker<'_> {
    fn header(&self, header: &document::Header) -> shape::Header {
        let all = |texts: &Option<Vec<Text>>| texts.iter().flatten().map(text).collect();
        let calls = |calls: &Option<Vec<document::Call>>| calls.iter().flatten().map(call).collect();
        shape::Header {
            revision: header.revision.as_ref().map(text),
            equipment: header.equipment.as_ref().map(text),
            models: all(&header.models),
            serials: header.serials.as_ref().map(text),
            sources: all(&header.sources),
            time: header.time.as_ref().map(|it| self.amount(it)),
            people_html: header.people.as_ref().map(|it| self.line(it)),
            outcome_html: header.outcome.as_ref().map(|it| self.line(it)),
            requires: calls(&header.requires),
            afterwards: calls(&header.afterwards),
            leaves: all(&header.leaves),
            approved: header.approved.as_ref().map(text),
        }
    }

    fn amount(&self, quantity: &Quantity) -> shape::Amount {
        let Bounds { unit, low, high, shown } = Bounds::of(quantity, self.sheet.quantity(quantity));
        let some = |text: String| Some(text).filter(|text| !text.is_empty());
        shape::Amount { shown, unit, low: some(low), high: some(high) }
    }

    fn perhaps(&self, quantity: Option<&Quantity>) -> Option<shape::Amount> {
        quantity.map(|it| self.amount(it))
    }

    /// Prose without tags of paragraphs.
    fn line(&self, prose: &Prose) -> String {
        let mut out = String::new();
        prose::inline(&mut out, prose, self.sheet);
        out.trim_end().to_owned()
    }

    fn block(&self, prose: &Prose) -> String {
        let mut out = String::new();
        prose::block(&mut out, prose, self.sheet);
        out.trim_end().to_owned()
    }
}

fn text(text: &Text) -> String {
    text.value.to_string()
}

fn call(call: &document::Call) -> shape::Call {
    shape::Call {
        number: call.number.as_ref().map(text),
        text: call.text.as_ref().map(text),
        title: call.title.clone(),
    }
}

/// A whole number, else a fraction.
fn number(value: Exact) -> String {
    if *value.denom() == 1 {
        value.numer().to_string()
    } else {
        format!("{}/{}", value.numer(), value.denom())
    }
}
