//! Adds up what procedures need, merged by part number, else by the words on the list.
use super::{Heading, Line, OnCondition};
use crate::model::declarations::Part;
use crate::model::hazard::Wear;
use crate::model::{Document, Prose};
use crate::sheets::{Context, Sheet, SheetError, fitted, lay_out};
use crate::source::Text;
use serde::Serialize;
use std::collections::{BTreeMap, HashMap};

/// What to order and to lay out.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct List {
    /// How many benches do the work at the same time.
    pub benches: u32,
    pub procedures: Vec<Heading>,
    /// Fitted new: added up over the procedures.
    pub order: Vec<Line>,
    /// Parts that are used again: they lie on the machine. Procedures on one machine share them.
    pub have: Vec<Line>,
    /// The procedures are done one after the other: a bench needs each tool as often as the one that needs most.
    pub tools: Vec<Line>,
    pub supplies: Vec<Line>,
    /// Protective equipment, a set for each person.
    pub wear: Vec<Line>,
    #[serde(skip)]
    found: Found,
}

/// Where each line stands, so that what comes later is added to it.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
struct Found {
    order: HashMap<String, usize>,
    have: HashMap<String, usize>,
    /// Pieces of each line of `have`, by machine.
    machines: BTreeMap<(usize, String), u64>,
    tools: HashMap<String, usize>,
    supplies: HashMap<String, usize>,
    wear: HashMap<String, usize>,
}

impl List {
    pub fn new(benches: u32) -> List {
        List {
            benches: benches.max(1),
            procedures: Vec::new(),
            order: Vec::new(),
            have: Vec::new(),
            tools: Vec::new(),
            supplies: Vec::new(),
            wear: Vec::new(),
            found: Found::default(),
        }
    }

    /// Adds a procedure of a house.
    ///
    /// # Errors
    /// When the document is no procedure.
    pub fn add_document(&mut self, document: &Document, context: &Context<'_>) -> Result<(), SheetError> {
        self.add(&Sheet::of(document, context)?);
        Ok(())
    }

    pub(in crate::sheets) fn add(&mut self, sheet: &Sheet<'_>) {
        let header = &sheet.procedure.header;
        let text = |text: &Option<Text>| text.as_ref().map(|it| it.value.to_string()).unwrap_or_default();
        let heading = Heading {
            number: sheet.procedure.number.value.to_string(),
            title: sheet.procedure.title.value.to_string(),
            equipment: text(&header.equipment),
            revision: text(&header.revision),
        };
        let declared = sheet.declarations;
        // Reused parts and tools of one number, over the declarations of this procedure.
        let mut have = BTreeMap::new();
        for (fitted, part) in fitted::of(sheet).iter().zip(&declared.parts) {
            self.part(sheet, &heading, part, *fitted, &mut have);
        }
        for (at, count) in have {
            self.on_machine(at, &heading.equipment, count);
        }
        let (number, benches) = (&heading.number, self.benches);
        let mut tools = BTreeMap::new();
        for tool in &declared.tools {
            let row = lay_out::tool_row(sheet, tool);
            let here = tools.entry(key(&row)).or_insert(0u64);
            *here = here.saturating_add(u64::from(row.count));
            let line = most(&mut self.tools, &mut self.found.tools, &row, *here, number);
            line.total(benches);
        }
        for supply in &declared.supplies {
            let row = lay_out::supply_row(sheet, supply);
            let at = at(&mut self.supplies, &mut self.found.supplies, &row);
            if let Some(line) = self.supplies.get_mut(at) {
                line.take(&row.notes, number);
            }
        }
        let asked: Vec<&Wear> =
            sheet.procedure.messages().flat_map(|(message, _)| &message.wear).map(|it| it.value).collect();
        let persons = persons(sheet);
        for wear in Wear::all().iter().filter(|wear| asked.contains(wear)) {
            let text = sheet.context.words.equipment(wear);
            let row = lay_out::Row { text: &text, count: 1, number: "", notes: Vec::new() };
            most(&mut self.wear, &mut self.found.wear, &row, persons, number).total(benches);
        }
        self.procedures.push(heading);
    }

    fn part(
        &mut self,
        sheet: &Sheet<'_>,
        heading: &Heading,
        part: &Part,
        fitted: fitted::Fitted,
        have: &mut BTreeMap<usize, u64>,
    ) {
        // What the work itself makes is neither ordered nor laid out.
        if part.made_from.is_some() {
            return;
        }
        let mut row = lay_out::row(&part.thing, part.count, Vec::new());
        row.notes.extend(lay_out::applies(sheet, &part.applies));
        let benches = self.benches;
        if fitted.sure > 0 {
            let at = at(&mut self.order, &mut self.found.order, &row);
            let Some(line) = self.order.get_mut(at) else { return };
            line.each = Some(line.each.unwrap_or(0).saturating_add(u64::from(fitted.sure)));
            line.on_condition(&row.notes, &heading.number);
            line.total(benches);
            return;
        }
        row.notes.extend(fitted.perhaps.then(|| sheet.label("only-if-faulty").to_owned()));
        let at = at(&mut self.have, &mut self.found.have, &row);
        let here = have.entry(at).or_default();
        *here = here.saturating_add(u64::from(part.count));
        if let Some(line) = self.have.get_mut(at) {
            line.on_condition(&row.notes, &heading.number);
        }
    }

    /// A procedure on that machine uses so many of a line of `have` again.
    fn on_machine(&mut self, at: usize, equipment: &str, count: u64) {
        let machine = self.found.machines.entry((at, equipment.to_owned())).or_default();
        *machine = count.max(*machine);
        let of_line = (at, String::new())..(at + 1, String::new());
        let each =
            self.found.machines.range(of_line).fold(0u64, |sum, (_, count)| sum.saturating_add(*count));
        if let Some(line) = self.have.get_mut(at) {
            line.each = Some(each);
            line.total(self.benches);
        }
    }
}

impl Line {
    fn total(&mut self, benches: u32) {
        self.all = self.each.map(|each| each.saturating_mul(u64::from(benches)));
    }

    /// A declaration needs it on those conditions. What does not hold for all of the line says of which procedure it is.
    fn on_condition(&mut self, notes: &[String], procedure: &str) {
        self.declared += 1;
        for note in notes {
            match self.conditions.iter_mut().find(|it| it.note == *note) {
                Some(condition) => {
                    condition.declared += 1;
                    condition.procedures.push(procedure.to_owned());
                    condition.procedures.dedup();
                }
                None => self.conditions.push(OnCondition {
                    note: note.clone(),
                    declared: 1,
                    procedures: vec![procedure.to_owned()],
                }),
            }
        }
        self.take(&[], procedure);
        let all = self.declared;
        let said = |it: &OnCondition| match it.declared == all {
            true => vec![it.note.clone()],
            false => it.procedures.iter().map(|procedure| format!("{procedure}: {}", it.note)).collect(),
        };
        self.notes = self.conditions.iter().flat_map(said).collect();
    }

    fn take(&mut self, notes: &[String], procedure: &str) {
        for note in notes {
            if !self.notes.contains(note) {
                self.notes.push(note.clone());
            }
        }
        if self.procedures.last().is_none_or(|last| last != procedure) {
            self.procedures.push(procedure.to_owned());
        }
    }
}

/// What two rows of one line have in common.
fn key(row: &lay_out::Row<'_>) -> String {
    match row.number.trim() {
        "" => format!("text {}", row.text.trim().to_lowercase()),
        number => format!("number {}", number.to_lowercase()),
    }
}

/// The place of a row's line, which is made where there is none.
fn at(lines: &mut Vec<Line>, found: &mut HashMap<String, usize>, row: &lay_out::Row<'_>) -> usize {
    *found.entry(key(row)).or_insert_with(|| {
        lines.push(Line {
            number: row.number.trim().to_owned(),
            text: row.text.to_owned(),
            each: None,
            all: None,
            notes: Vec::new(),
            procedures: Vec::new(),
            declared: 0,
            conditions: Vec::new(),
        });
        lines.len() - 1
    })
}

/// The row's line, holding the larger count.
fn most<'l>(
    lines: &'l mut Vec<Line>,
    found: &mut HashMap<String, usize>,
    row: &lay_out::Row<'_>,
    count: u64,
    procedure: &str,
) -> &'l mut Line {
    let at = at(lines, found, row);
    let line = lines.get_mut(at).expect("the line was just found or made");
    line.each = Some(line.each.unwrap_or(0).max(count));
    line.take(&row.notes, procedure);
    line
}

/// How many work at one bench at the same time, as far as the head and the steps say it in figures.
fn persons(sheet: &Sheet<'_>) -> u64 {
    let figure = |prose: &Prose| {
        let digits: String = prose.source.trim_start().chars().take_while(char::is_ascii_digit).collect();
        digits.parse::<u64>().ok()
    };
    let steps = sheet.procedure.steps().filter_map(|step| step.people.as_ref());
    sheet.procedure.header.people.iter().chain(steps).filter_map(figure).max().unwrap_or(1).max(1)
}
