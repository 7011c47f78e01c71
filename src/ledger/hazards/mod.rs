//! Which hazards the work of each step brings, and which message in force guards it against each.
mod behind;
mod condition;
pub mod demand;
mod known;

use super::groups::Groups;
use crate::model::action::{Action, Object, PlaceTarget, Work};
use crate::model::in_force::InForce;
use crate::model::quantity::Quantity;
use crate::model::verb::{Effect, Effects};
use crate::model::{Document, Message, Name, Procedure, Settings, Step};
use crate::source::{Span, Text};
pub use behind::{Behind, behind};
use condition::{Condition, LETS_IN, part_of, places};
use demand::{Fact, Row};
use known::{Known, force};

/// A hazard that a step brings: one of each row and step, at the first action that brings it.
#[derive(Debug)]
pub struct Demand<'a> {
    pub step: &'a Step,
    pub row: &'static Row,
    /// What brings it, as written in the action: a part, a supply, a tool, or the verb.
    pub word: &'a str,
    pub span: Span,
    /// Where the fact that it follows from is declared; none where it follows from the verb alone.
    pub fact: Option<Span>,
    /// The fact's value, or the temperature that something is brought to.
    value: Option<&'a Quantity>,
    limit: Option<&'a Quantity>,
    /// The supply's own codes of the row.
    codes: &'a [Text],
    /// The models it is brought on, where they are not all that the step is for.
    pub only: Vec<&'a str>,
    /// The message in force that guards against it: the step's own, else the latest that still holds.
    pub guarded_by: Option<&'a Message>,
    /// The lists of the row's equipment of which no message in force asks for a piece, a bit each.
    unworn: u32,
}

impl Demand<'_> {
    /// "`ring` is spring-loaded and can leave its place at speed".
    pub fn why(&self) -> String {
        let print = |quantity: Option<&Quantity>| quantity.map_or_else(String::new, Quantity::print);
        let codes: Vec<&str> =
            self.codes.iter().map(|code| code.as_str()).filter(|code| self.row.has_code(code)).collect();
        let filled = self.row.why.replace("{it}", &format!("`{}`", self.word));
        let filled = filled.replace("{value}", &print(self.value)).replace("{limit}", &print(self.limit));
        filled.replace("{codes}", &codes.join(", "))
    }

    /// The first piece of each list of equipment that no message in force asks for.
    pub fn lacks(&self) -> impl Iterator<Item = &'static crate::model::hazard::Wear> + '_ {
        let lists = self.row.wear.iter().enumerate().filter(|(at, _)| self.unworn & 1 << at != 0);
        lists.filter_map(|(_, any_of)| any_of.first().copied())
    }

    /// Whether some message in force leaves out what the hazard needs.
    pub fn lacks_any(&self) -> bool {
        self.unworn != 0
    }
}

/// Effects that put hands where a raised load can fall on them.
const BENEATH: Effects = Effects::of(&[
    Effect::TakesOff,
    Effect::Fits,
    Effect::ByPlace,
    Effect::Renews,
    Effect::Loosens,
    Effect::Tightens,
    Effect::Disconnects,
    Effect::Connects,
    Effect::Cleans,
    Effect::Drains,
]);
/// What puts something under a raised load, or lets it down.
const HELD_UP: Effects = Effects::of(&[Effect::Inserts, Effect::Supports, Effect::Lowers]);
/// A supply that is the object of these is handled.
const HANDLES: Effects = Effects::of(&[
    Effect::Applies,
    Effect::Fills,
    Effect::Drains,
    Effect::Cleans,
    Effect::Moves,
    Effect::Lubricates,
    Effect::Inserts,
]);

/// Every hazard that the steps bring, in order. None of a catalogue.
pub fn demands<'a>(document: &'a Document, settings: &'a Settings) -> Vec<Demand<'a>> {
    let Some(procedure) = document.procedure() else { return Vec::new() };
    let known = Known::of(&document.declarations, &settings.limits);
    let groups = Groups::of(procedure, &document.declarations);
    let mut walk = Walk {
        procedure,
        groups,
        condition: known.follows_parts.then(|| Condition::at_start(procedure)),
        raised: None,
        known,
        demands: Vec::new(),
    };
    let mut in_force = InForce::new(procedure);
    for section in &procedure.sections {
        let last = section.steps.last().map_or(0, |step| step.number);
        for step in &section.steps {
            let from = walk.demands.len();
            walk.step(step);
            if walk.demands.len() > from {
                let held = in_force.enter(step).iter().map(|held| held.message);
                let messages = || step.messages.iter().chain(held.clone().rev());
                walk.demands.iter_mut().skip(from).for_each(|demand| guard(demand, &messages));
                walk.follow_raised(from);
            }
            in_force.leave(step, last);
        }
    }
    walk.demands
}

/// Looks for a message of the row's classes, and for the equipment in all that is in force.
fn guard<'a, M: Iterator<Item = &'a Message>>(demand: &mut Demand<'a>, messages: &impl Fn() -> M) {
    let row = demand.row;
    // A class that is not known has its finding; it may well be the right one.
    let unknown = |message: &&Message| message.hazard.is_none() && message.standing.is_none();
    demand.guarded_by = messages().find(|message| fits(row, message));
    if demand.guarded_by.as_ref().is_some_and(unknown) {
        return;
    }
    for (at, any_of) in row.wear.iter().enumerate() {
        let worn = |message: &Message| message.wear.iter().any(|wear| any_of.contains(&wear.value));
        demand.unworn |= u32::from(!messages().any(worn)) << at;
    }
}

/// A class that is not known may be any.
fn fits(row: &Row, message: &Message) -> bool {
    let class = message.hazard.as_ref().map(|it| it.value);
    message.guards_people() && class.is_none_or(|class| row.classes.contains(&class))
}

struct Walk<'a> {
    procedure: &'a Procedure,
    groups: Groups<'a>,
    known: Known<'a>,
    /// None where nothing about a part has to be followed.
    condition: Option<Condition>,
    raised: Option<Raised<'a>>,
    demands: Vec<Demand<'a>>,
}

/// A load that stands on nothing but what raised it.
#[derive(Clone, Copy)]
struct Raised<'a> {
    row: &'static Row,
    word: &'a str,
    fact: Option<Span>,
    value: Option<&'a Quantity>,
    on: u64,
}

/// What brings a row's hazard.
struct Cause<'a> {
    word: &'a str,
    span: Span,
    fact: Option<Span>,
    value: Option<&'a Quantity>,
    limit: Option<&'a Quantity>,
    codes: &'a [Text],
    on: u64,
}

impl<'a> Walk<'a> {
    fn step(&mut self, step: &'a Step) {
        let on = self.groups.mask(&step.applies) & self.groups.all();
        let from = self.demands.len();
        for action in &step.actions {
            self.action(step, action, on, from);
            if let Some(condition) = &mut self.condition {
                condition.after(action, on, &self.known);
            }
        }
        // What a branch leaves behind is not carried on: most of them end the work or repeat it.
        let outcomes = step.outcomes.iter().flat_map(|outcome| &outcome.then);
        let options = step.options.iter().flat_map(|option| &option.actions);
        let exceptions = step.exceptions.iter().flat_map(|exception| &exception.actions);
        outcomes.chain(options).chain(exceptions).for_each(|action| self.action(step, action, on, from));
    }

    /// `from`: where the step's own demands begin.
    fn action(&mut self, step: &'a Step, action: &'a Action, on: u64, from: usize) {
        let Action::Work(work) = action else { return };
        self.beneath(step, work, on, from);
        let mut left = self.known.rows & Row::of_verb(work.verb);
        while left != 0 {
            let at = left.trailing_zeros() as usize;
            left &= left - 1;
            let Some(row) = Row::all().get(at) else { break };
            if let Some(cause) = self.cause(step, work, row, at, on) {
                if row.effects.is_some() && work.verb.does(Effect::Raises) && row.tool.is_none() {
                    let Cause { word, fact, value, on, .. } = cause;
                    self.raised = Some(Raised { row, word, fact, value, on });
                }
                self.push(step, row, cause, on, from);
            }
        }
    }

    fn push(&mut self, step: &'a Step, row: &'static Row, cause: Cause<'a>, on: u64, from: usize) {
        let told = |demand: &Demand<'_>| std::ptr::eq(demand.row, row);
        if self.demands.iter().skip(from).any(told) {
            return;
        }
        let Cause { word, span, fact, value, limit, codes, .. } = cause;
        let only = if cause.on == on { Vec::new() } else { self.groups.names(cause.on).collect() };
        self.demands.push(Demand {
            step,
            row,
            word,
            span,
            fact,
            value,
            limit,
            codes,
            only,
            guarded_by: None,
            unworn: 0,
        });
    }

    fn cause(
        &self,
        step: &'a Step,
        work: &'a Work,
        row: &'static Row,
        at: usize,
        on: u64,
    ) -> Option<Cause<'a>> {
        let plain = |word, span| Cause { word, span, fact: None, value: None, limit: None, codes: &[], on };
        if let Some(fact) = row.fact {
            return self.fact(step, work, row, fact, on);
        }
        if !row.codes.is_empty() {
            return self.supply(work, at, on);
        }
        if let Some(kind) = row.tool {
            let (object, tool) = self.known.tool(work, kind)?;
            let capacity = force(tool);
            let fact = capacity.map(Quantity::span);
            return Some(Cause { value: capacity, fact, ..plain(object.word.as_str(), object.word.span) });
        }
        if row.heated {
            let value = heated_to(work)?;
            let limit = self.known.limit(row, value).filter(|limit| known::is_over(value, limit, 1))?;
            let (word, span) = match work.objects.first().or_else(|| places(work).next()) {
                Some(object) => (object.word.as_str(), object.word.span),
                None => (work.verb.name.as_str(), work.verb_span),
            };
            return Some(Cause { value: Some(value), limit: Some(limit), ..plain(word, span) });
        }
        Some(plain(work.verb.name.as_str(), work.verb_span))
    }

    /// The first part of the work that has the fact, on some model on which nothing has put an end to it.
    fn fact(&self, step: &Step, work: &'a Work, row: &'static Row, fact: Fact, on: u64) -> Option<Cause<'a>> {
        match row.tool {
            Some(kind) => drop(self.known.tool(work, kind)?),
            None if fact == Fact::Mass && !work.verb.does(Effect::Raises) && self.known.lifts(work) => {
                return None;
            }
            None => {}
        }
        let places = row.places.then(|| places(work)).into_iter().flatten();
        let holder = |object| self.known.declarations.part(part_of(object)?);
        let held = |object| holder(object).into_iter().flat_map(|part| &part.holds).map(|it| it.value);
        let bearers = |object: &'a Object| {
            let own = object.name.filter(|_| !row.holders);
            let held = row.holders.then(|| held(object)).into_iter().flatten();
            own.into_iter().chain(held).map(move |name| (object, name))
        };
        work.objects.iter().chain(places).flat_map(bearers).find_map(|(object, name)| {
            let Name::Part(id) = name else { return None };
            let people =
                if fact == Fact::Mass && row.name == "heavy" { people(step, self.procedure) } else { 1 };
            let declared = self.known.brings(id, row, fact, people)?;
            let part = self.known.declarations.part(id)?;
            let on = on & self.groups.mask(&part.applies) & !self.over(id, row, fact, work);
            let limit = declared.value.and_then(|value| self.known.limit(row, value));
            let word = if row.holders { part.thing.name.as_str() } else { object.word.as_str() };
            let cause = Cause {
                word,
                span: object.word.span,
                fact: Some(declared.span),
                value: declared.value,
                limit,
                codes: &[],
                on,
            };
            (on != 0).then_some(cause)
        })
    }

    /// The models on which the part's fact harms nobody any more.
    fn over(&self, part: u32, row: &Row, fact: Fact, work: &Work) -> u64 {
        let Some(condition) = &self.condition else { return 0 };
        let part = condition.part(part);
        match fact {
            // What is fitted or compressed is put under load only now.
            Fact::SpringLoaded if !work.fits() && !work.verb.does(Effect::Presses) => part.relaxed,
            Fact::Pressurised if !work.verb.does(Effect::Fills) => part.vented,
            Fact::Hot => part.cold & !part.heated,
            Fact::Live if !work.verb.does_any(LETS_IN) => part.dead,
            Fact::Mass if row.tool.is_none() => part.slung,
            Fact::SpringLoaded | Fact::Pressurised | Fact::Live => 0,
            Fact::Pressed | Fact::Sharp | Fact::Rotating | Fact::Mass => 0,
        }
    }

    fn supply(&self, work: &'a Work, row: usize, on: u64) -> Option<Cause<'a>> {
        let handled = work.verb.does_any(HANDLES).then_some(&work.objects).into_iter().flatten();
        work.supplies.iter().chain(places(work)).chain(handled).find_map(|object| {
            let Some(Name::Supply(id)) = object.name else { return None };
            let supply = self.known.declarations.supply(id).filter(|_| self.known.supply_has(id, row))?;
            Some(Cause {
                word: object.word.as_str(),
                span: object.word.span,
                fact: supply.hazards.first().map(|code| code.span),
                value: None,
                limit: None,
                codes: &supply.hazards,
                on,
            })
        })
    }

    /// Work goes on under a load that nothing but its jack holds up.
    fn beneath(&mut self, step: &'a Step, work: &'a Work, on: u64, from: usize) {
        let Some(raised) = self.raised else { return };
        if work.verb.does_any(HELD_UP) {
            self.raised = None;
        } else if work.verb.does_any(BENEATH) && on & raised.on != 0 {
            let Raised { row, word, fact, value, .. } = raised;
            let on = on & raised.on;
            let cause = Cause { word, span: work.verb_span, fact, value, limit: None, codes: &[], on };
            self.push(step, row, cause, on, from);
        }
    }

    /// Once it was said that a raised load is not warned of, the steps after it are not blamed as well.
    fn follow_raised(&mut self, from: usize) {
        let Some(raised) = self.raised else { return };
        let told = |demand: &Demand<'_>| std::ptr::eq(demand.row, raised.row) && demand.guarded_by.is_none();
        if self.demands.iter().skip(from).any(told) {
            self.raised = None;
        }
    }
}

/// The temperature that the work brings something to.
fn heated_to(work: &Work) -> Option<&Quantity> {
    let cools = work.verb.does(Effect::Cools) || work.verb.does(Effect::Measures);
    let mut to = work.places.iter().filter(|place| place.preposition.as_str() == "to" && !cools);
    to.find_map(|place| match &place.what {
        PlaceTarget::Quantity(value) => {
            (value.dimension() == crate::model::quantity::Dimension::Temperature).then_some(value)
        }
        PlaceTarget::Objects(_) | PlaceTarget::Text(_) => None,
    })
}

/// How many do the step together: its `people:`, else the header's.
fn people(step: &Step, procedure: &Procedure) -> u32 {
    let prose = step.people.as_ref().or(procedure.header.people.as_ref());
    let digits =
        prose.map(|prose| prose.source.trim().split(|c: char| !c.is_ascii_digit()).next().unwrap_or(""));
    digits.and_then(|digits| digits.parse().ok()).unwrap_or(1)
}
