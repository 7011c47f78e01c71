//! What the declarations of one document say about its hazards, looked up once.
use super::demand::{Fact, Row, ToolKind};
use crate::model::action::{Object, Work};
use crate::model::declarations::{Facts, Supply, Tool};
use crate::model::quantity::{Dimension, Quantity, as_float};
use crate::model::settings::Limits;
use crate::model::{Declarations, Name};
use crate::source::Span;

/// Of one document.
pub struct Known<'a> {
    pub declarations: &'a Declarations,
    limits: &'a Limits,
    /// The rows that this document can bring, a bit each.
    pub rows: u32,
    /// The rows that each supply brings; empty where none has a hazard code.
    supplies: Vec<u32>,
    /// Something about a part has to be followed from step to step.
    pub follows_parts: bool,
}

/// A fact of a part: its value where it has one, and where it was declared.
#[derive(Clone, Copy)]
pub struct Declared<'a> {
    pub value: Option<&'a Quantity>,
    pub span: Span,
}

impl<'a> Known<'a> {
    pub fn of(declarations: &'a Declarations, limits: &'a Limits) -> Known<'a> {
        let hazardous = declarations.supplies.iter().any(|supply| !supply.hazards.is_empty());
        let supplies: Vec<u32> =
            if hazardous { declarations.supplies.iter().map(rows_of).collect() } else { Vec::new() };
        let of_supplies = supplies.iter().fold(0, |rows, of_one| rows | of_one);
        let facts = declarations.parts.iter().fold(0, |bits, part| bits | bits_of(&part.facts));
        let possible = |(at, row): (usize, &Row)| {
            let can = match row.fact {
                Some(fact) => facts & fact.bit() != 0,
                None => row.codes.is_empty() || of_supplies & 1 << at != 0,
            };
            u32::from(can) << at
        };
        let rows = Row::all().iter().enumerate().map(possible).fold(0, |rows, row| rows | row);
        let follows_parts = facts & !(Fact::Sharp.bit() | Fact::Pressed.bit() | Fact::Rotating.bit()) != 0;
        Known { declarations, limits, rows, supplies, follows_parts }
    }

    /// The row's fact of a part, if it has it and it is over the row's limit; `people` share the load.
    pub fn brings(&self, part: u32, row: &'static Row, fact: Fact, people: u32) -> Option<Declared<'a>> {
        let declared = declared(&self.declarations.part(part)?.facts, fact)?;
        let over = match declared.value {
            Some(value) => self.limit(row, value).is_none_or(|limit| is_over(value, limit, people)),
            None => true,
        };
        over.then_some(declared)
    }

    /// What the value is held against: the house's limit, or the one of the row that it can be compared with.
    pub fn limit(&self, row: &'static Row, value: &Quantity) -> Option<&'a Quantity> {
        let house = match value.dimension() {
            Dimension::Mass => self.limits.lift.as_ref(),
            Dimension::Temperature => self.limits.touch.as_ref(),
            _ => None,
        };
        let table = || row.above.iter().find(|limit| limit.unit().comparable(value.unit()));
        if row.above.is_empty() { None } else { house.or_else(table) }
    }

    /// What bare metal may be touched at, in the base unit of temperature.
    pub fn touch(&self) -> Option<f64> {
        let row = Row::all().iter().find(|row| row.fact == Some(Fact::Hot))?;
        let limit = self.limits.touch.as_ref().or(row.above.first())?;
        limit.upper().map(as_float)
    }

    /// Whether the supply has a code of the row.
    pub fn supply_has(&self, supply: u32, row: usize) -> bool {
        self.supplies.get(supply as usize).is_some_and(|rows| rows & 1 << row != 0)
    }

    /// The tool of that kind among what the work names.
    pub fn tool<'w>(&self, work: &'w Work, kind: ToolKind) -> Option<(&'w Object, &'a Tool)> {
        self.tools(work).find(|(_, tool)| match kind {
            ToolKind::Press => force(tool).is_some(),
            ToolKind::Hoist => hangs(tool),
        })
    }

    /// Whether a tool carries the load.
    pub fn lifts(&self, work: &Work) -> bool {
        self.tools(work).any(|(_, tool)| hangs(tool) || named(tool, &["jack", "lift", "lifter", "stacker"]))
    }

    pub fn tools<'w>(&self, work: &'w Work) -> impl Iterator<Item = (&'w Object, &'a Tool)> {
        let declarations = self.declarations;
        work.tools.iter().chain(&work.objects).filter_map(move |object| match object.name? {
            Name::Tool(id) => declarations.tool(id).map(|tool| (object, tool)),
            _ => None,
        })
    }
}

/// What the tool bears, where that is a force.
pub fn force(tool: &Tool) -> Option<&Quantity> {
    tool.capacity.as_ref().filter(|capacity| capacity.dimension() == Dimension::Force)
}

/// A load hangs from it.
fn hangs(tool: &Tool) -> bool {
    named(tool, &["hoist", "crane", "sling", "slings", "winch", "tackle"])
}

fn named(tool: &Tool, words: &[&str]) -> bool {
    tool.thing.noun.singular.split(' ').any(|word| words.iter().any(|it| word.eq_ignore_ascii_case(it)))
}

/// More than the limit, where `people` share it.
pub fn is_over(value: &Quantity, limit: &Quantity, people: u32) -> bool {
    let most = value.upper().or(value.lower()).map(as_float);
    let limit = limit.upper().map(as_float);
    most.zip(limit).is_some_and(|(most, limit)| most / f64::from(people.max(1)) > limit)
}

fn declared(facts: &Facts, fact: Fact) -> Option<Declared<'_>> {
    let flag = |span: Option<Span>| span.map(|span| Declared { value: None, span });
    match fact {
        Fact::SpringLoaded => flag(facts.spring_loaded),
        Fact::Pressed => flag(facts.pressed),
        Fact::Sharp => flag(facts.sharp),
        Fact::Rotating => flag(facts.rotating),
        Fact::Pressurised => valued(&facts.pressurised),
        Fact::Hot => valued(&facts.hot),
        Fact::Live => valued(&facts.live),
        Fact::Mass => valued(&facts.mass),
    }
}

fn valued(value: &Option<Quantity>) -> Option<Declared<'_>> {
    value.as_ref().map(|value| Declared { value: Some(value), span: value.span() })
}

fn bits_of(facts: &Facts) -> u32 {
    if *facts == Facts::default() {
        return 0;
    }
    Fact::ALL.iter().filter(|fact| declared(facts, **fact).is_some()).fold(0, |bits, fact| bits | fact.bit())
}

fn rows_of(supply: &Supply) -> u32 {
    let has = |row: &Row| supply.hazards.iter().any(|code| row.has_code(code.as_str()));
    Row::all().iter().enumerate().fold(0, |rows, (at, row)| rows | u32::from(has(row)) << at)
}
