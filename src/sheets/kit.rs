//! What to lay out before the work: parts to have new, other parts, tools, supplies.
use super::Sheet;
use crate::model::action::PlaceTarget;
use crate::model::declarations::{Applies, Name, Part, Supply, Thing, Tool};
use crate::model::verb::Effect;
use crate::model::{Action, Step};
use serde::Serialize;
use std::collections::BTreeSet;

#[derive(Serialize)]
pub struct Kit {
    pub new_parts: Vec<Row>,
    pub parts: Vec<Row>,
    pub tools: Vec<Row>,
    pub supplies: Vec<Row>,
}

#[derive(Serialize)]
pub struct Row {
    pub text: String,
    /// Empty for one.
    pub count: String,
    /// Part or stock number.
    pub number: String,
    pub notes: Vec<String>,
}

impl Kit {
    pub fn of(sheet: &Sheet<'_>) -> Kit {
        let declared = sheet.declarations;
        let always = fitted_new(sheet.procedure.steps().flat_map(|step| &step.actions));
        let perhaps = fitted_new(sheet.procedure.steps().flat_map(conditional));
        let (mut new_parts, mut parts) = (Vec::new(), Vec::new());
        for (id, part) in (0u32..).zip(&declared.parts) {
            let new = always.contains(&id) || (part.single_use.is_some() && !part.stays_off);
            let mut row = part_row(sheet, part);
            if !new && perhaps.contains(&id) {
                row.notes.push("new one only if found faulty".to_owned());
            }
            if new { new_parts.push(row) } else { parts.push(row) }
        }
        Kit {
            new_parts,
            parts,
            tools: declared.tools.iter().map(|tool| tool_row(sheet, tool)).collect(),
            supplies: declared.supplies.iter().map(|supply| supply_row(sheet, supply)).collect(),
        }
    }
}

/// Parts that these actions take `new` or renew, whether or not they are single-use.
fn fitted_new<'a>(actions: impl Iterator<Item = &'a Action>) -> BTreeSet<u32> {
    let mut found = BTreeSet::new();
    for work in actions.filter_map(Action::work) {
        let renews = work.verb.does(Effect::Renews);
        let places = work.places.iter().filter_map(|place| match &place.what {
            PlaceTarget::Objects(objects) => Some(objects),
            _ => None,
        });
        let other = places.flatten().filter(|object| object.new.is_some());
        let objects = work.objects.iter().filter(|object| renews || object.new.is_some());
        found.extend(objects.chain(other).filter_map(|object| match object.name {
            Some(Name::Part(id)) => Some(id),
            _ => None,
        }));
    }
    found
}

/// Actions that are done only after some finding or choice.
fn conditional(step: &Step) -> impl Iterator<Item = &Action> {
    let outcomes = step.outcomes.iter().flat_map(|outcome| &outcome.then);
    outcomes.chain(step.options.iter().flat_map(|option| &option.actions))
}

fn part_row(sheet: &Sheet<'_>, part: &Part) -> Row {
    let mut notes = Vec::new();
    notes.extend(applies(&part.applies));
    for callout in &part.callouts {
        let figure = callout.figure.as_ref().and_then(|f| sheet.declarations.thing(f.value));
        notes.push(match figure {
            Some(figure) => {
                format!("item {} in {}", callout.number.value, figure.name.value.replace('-', " "))
            }
            None => format!("item {}", callout.number.value),
        });
    }
    notes.extend(part.facts.mass.as_ref().map(|mass| sheet.quantity(mass)));
    row(&part.thing, part.count, notes)
}

fn tool_row(sheet: &Sheet<'_>, tool: &Tool) -> Row {
    let mut notes = Vec::new();
    notes.extend(tool.range.as_ref().map(|q| sheet.quantity(q)));
    notes.extend(tool.adapter.as_ref().map(|q| format!("offset {}", sheet.quantity(q))));
    notes.extend(tool.capacity.as_ref().map(|q| format!("carries {}", sheet.quantity(q))));
    notes.extend(tool.temporary.map(|_| "comes out again".to_owned()));
    row(&tool.thing, tool.count, notes)
}

fn supply_row(sheet: &Sheet<'_>, supply: &Supply) -> Row {
    let mut notes = Vec::new();
    if !supply.hazards.is_empty() {
        let codes: Vec<&str> = supply.hazards.iter().map(|code| code.value.as_str()).collect();
        notes.push(codes.join(", "));
    }
    if let Some(cure) = &supply.cure {
        let at = cure.at.as_ref().map(|at| format!(" at {}", sheet.quantity(at))).unwrap_or_default();
        notes.push(format!("cures in {}{at}", cure.time.print()));
    }
    row(&supply.thing, 1, notes)
}

fn row(thing: &Thing, count: u32, notes: Vec<String>) -> Row {
    Row {
        text: thing.text.value.clone(),
        count: if count > 1 { format!("{count} ×") } else { String::new() },
        number: thing.number.as_ref().map(|n| n.value.clone()).unwrap_or_default(),
        notes,
    }
}

/// "F40S only", "serial 300000 and up only", "if fitted"; none for all machines.
pub fn applies(applies: &Applies) -> Option<String> {
    let mut words = Vec::new();
    if !applies.models.is_empty() {
        let models: Vec<&str> = applies.models.iter().map(|m| m.value.as_str()).collect();
        words.push(format!("{} only", models.join(", ")));
    }
    words.extend(applies.serials.as_ref().map(|s| format!("serial {} only", s.value)));
    words.extend(applies.if_fitted.map(|_| "if fitted".to_owned()));
    (!words.is_empty()).then(|| words.join(", "))
}
