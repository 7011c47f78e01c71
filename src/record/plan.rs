//! What is to be filled in at a procedure: for the page that asks for it and for the check of what it wrote.
use super::bounds::Bounds;
use super::hang::Hang;
use super::seal;
use super::turns;
use crate::model::action::Work;
use crate::model::declarations::Name;
use crate::model::quantity::{Exact, Quantity, Unit};
use crate::model::settings::Units;
use crate::model::step::When;
use crate::model::tightening::{self, Tightening};
use crate::model::verb::Effect;
use crate::model::{Action, Document, Procedure, Step};
use serde::Serialize;
use std::collections::BTreeMap;

/// Everything that a record of the procedure has a place for.
#[derive(Debug, Clone, Serialize)]
pub struct Plan {
    pub number: String,
    pub title: String,
    pub revision: String,
    /// [`fingerprint`](super::fingerprint) of the document.
    pub source: String,
    pub models: Vec<String>,
    pub steps: Vec<Planned>,
    /// In the order of the work. Where that is each step once, the page is not told.
    #[serde(skip_serializing_if = "turns::none_again")]
    pub turns: Vec<Turn>,
    /// The units that fields can be filled in with, by symbol.
    pub units: BTreeMap<&'static str, Scale>,
}

/// One way through a step: the first, or a round of a repeat for another place.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct Turn {
    pub step: u32,
    /// The place, as printed; empty on the first way through.
    #[serde(skip_serializing_if = "String::is_empty")]
    pub round: String,
    /// The step with the repeat; the step itself on the first way through.
    pub at: u32,
}

/// Fractions: a base amount is `value × factor + offset`.
#[derive(Debug, Clone, Serialize)]
pub struct Scale {
    pub factor: String,
    pub offset: String,
}

/// What a step asks for. Most steps ask for nothing: the page is told only of what there is, and its script has an empty one
/// of every other field.
#[derive(Debug, Clone, Serialize)]
pub struct Planned {
    pub step: u32,
    /// The models that have it; empty: all.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub models: Vec<String>,
    /// It hangs on the serial number, on what is fitted, or on an earlier finding that the record cannot tell.
    #[serde(skip_serializing_if = "std::ops::Not::not")]
    pub optional: bool,
    /// It is done only where all of these came true.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub hangs: Vec<Hang>,
    /// Exactly one of its branches is taken.
    #[serde(skip_serializing_if = "std::ops::Not::not")]
    pub choice: bool,
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub fields: Vec<Field>,
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub holds: Vec<Hold>,
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub branches: Vec<Branch>,
}

#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum Kind {
    Reading,
    Tightened,
    Text,
}

#[derive(Debug, Clone, Serialize)]
pub struct Field {
    /// Unique in its step.
    pub field: String,
    pub kind: Kind,
    /// What it is of: "bearing seat diameter", "Cover screw, M6 x 20"; empty where the author does not say.
    pub label: String,
    /// Which of how many pieces, from 1; 0 where there is one field for all.
    pub piece: u32,
    pub limits: Option<Bounds>,
    /// What it can be filled in with, the author's unit first.
    pub units: Vec<&'static str>,
}

#[derive(Debug, Clone, Serialize)]
pub struct Hold {
    pub hold: u32,
    pub role: String,
    /// Owed only where that branch is taken.
    pub branch: Option<u32>,
}

/// An option, an exception or an outcome, in the order in which the page shows them. What is not so is not told.
#[derive(Debug, Clone, Serialize)]
pub struct Branch {
    pub branch: u32,
    pub when: String,
    /// It says what to do with a value below, or above, its limits.
    #[serde(skip_serializing_if = "std::ops::Not::not")]
    pub below: bool,
    #[serde(skip_serializing_if = "std::ops::Not::not")]
    pub above: bool,
    /// It tells how the step is done elsewhere and is not chosen.
    #[serde(skip_serializing_if = "std::ops::Not::not")]
    pub exception: bool,
    #[serde(skip_serializing_if = "std::ops::Not::not")]
    pub stop: bool,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub skip: Option<u32>,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub redo: Option<Redo>,
}

/// The step is done again, from an earlier one on, at most so many times (none: no limit is said).
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
pub struct Redo {
    pub from: u32,
    pub most: Option<u32>,
}

impl Plan {
    /// The plan of a procedure; `None` for a catalogue. `units` says which second unit a field has.
    pub fn of(document: &Document, units: &Units) -> Option<Plan> {
        Plan::shown_by(document, units, &|quantity| match units.single {
            true => quantity.print(),
            false => quantity.print_both(&units.second),
        })
    }

    /// The same for a page whose language writes limits its own way.
    pub fn shown_by(document: &Document, units: &Units, shown: &dyn Fn(&Quantity) -> String) -> Option<Plan> {
        let procedure = document.procedure()?;
        let works = procedure.steps().flat_map(|step| &step.actions).filter_map(Action::work);
        let asker = Asker {
            document,
            procedure,
            units,
            shown,
            tightenings: tightening::of(works, &document.declarations),
        };
        let steps: Vec<Planned> = procedure.steps().map(|step| asker.step(step)).collect();
        let used = steps.iter().flat_map(|step| &step.fields).flat_map(|field| &field.units);
        let mut scales = BTreeMap::new();
        for &symbol in used {
            if let (false, Some(unit)) = (scales.contains_key(symbol), Unit::find(symbol)) {
                scales.insert(symbol, Scale::of(unit));
            }
        }
        let header = &procedure.header;
        let texts = |texts: &Option<Vec<crate::source::Text>>| {
            texts.iter().flatten().map(|text| text.value.to_string()).collect()
        };
        Some(Plan {
            number: procedure.number.value.to_string(),
            title: procedure.title.value.to_string(),
            revision: header.revision.as_ref().map(|it| it.value.to_string()).unwrap_or_default(),
            source: seal::fingerprint(document),
            models: texts(&header.models),
            turns: turns::of(procedure),
            steps,
            units: scales,
        })
    }

    /// What the step of that number asks for.
    pub fn step(&self, number: u32) -> Option<&Planned> {
        self.steps.iter().find(|step| step.step == number)
    }
}

impl Planned {
    /// Whether a machine of that model has the step.
    pub fn is_for(&self, model: &str) -> bool {
        model.is_empty() || self.models.is_empty() || self.models.iter().any(|it| it == model)
    }
}

impl Scale {
    fn of(unit: &Unit) -> Scale {
        let text = |value: Exact| format!("{}/{}", value.numer(), value.denom());
        Scale { factor: text(unit.factor), offset: text(unit.offset) }
    }
}

/// A set of more pieces than this gets one field for all.
const MOST_PIECES: u32 = 12;

struct Asker<'a> {
    document: &'a Document,
    procedure: &'a Procedure,
    units: &'a Units,
    shown: &'a dyn Fn(&Quantity) -> String,
    tightenings: Vec<Tightening<'a>>,
}

impl Asker<'_> {
    fn step(&self, step: &Step) -> Planned {
        let mut fields = Vec::new();
        for action in &step.actions {
            self.fields(&mut fields, action);
        }
        if let Some(record) =
            step.record.as_ref().filter(|_| fields.iter().all(|it| it.kind != Kind::Reading))
        {
            fields.push(field(Kind::Text, record.value.to_string(), None, Vec::new()));
        }
        for (number, field) in (1..).zip(&mut fields) {
            field.field = u32::to_string(&number);
        }
        let applies = &step.applies;
        let hangs: Vec<Hang> = step.conditions.iter().filter_map(|it| Hang::of(it, self.procedure)).collect();
        let untold = hangs.len() < step.conditions.len();
        Planned {
            step: step.number,
            models: applies.models.iter().map(|it| it.value.to_string()).collect(),
            optional: applies.serials.is_some() || applies.if_fitted.is_some() || untold,
            hangs,
            choice: step.actions.iter().any(|action| matches!(action, Action::Choose(_))),
            fields,
            holds: holds(step),
            branches: branches(step),
        }
    }

    fn fields(&self, fields: &mut Vec<Field>, action: &Action) {
        match action {
            Action::Calculate(it) => {
                fields.push(self.limited(Kind::Reading, it.name.value.replace('-', " "), it.limits.as_ref()));
            }
            Action::Work(work) if work.verb.does(Effect::Measures) => {
                let label = work.what.as_ref().map(|what| what.value.to_string()).unwrap_or_default();
                let reading = self.limited(Kind::Reading, label, work.quantity.as_ref());
                match self.pieces(work) {
                    1 => fields.push(reading),
                    pieces => fields.extend((1..=pieces).map(|piece| Field { piece, ..reading.clone() })),
                }
            }
            Action::Work(work) if work.verb.tightens() => {
                let of_work = self.tightenings.iter().filter(|it| std::ptr::eq(it.work, &**work));
                let mut all: Vec<&Tightening<'_>> = of_work.filter(|it| it.torque.has_value()).collect();
                let alone = work.other_torques.is_empty();
                all.dedup_by(|next, first| alone && next.torque == first.torque);
                fields.extend(all.into_iter().map(|it| self.tightened(it)));
            }
            _ => {}
        }
    }

    fn limited(&self, kind: Kind, label: String, limits: Option<&Quantity>) -> Field {
        let mut units = Vec::new();
        if let Some(quantity) = limits {
            units.push(quantity.unit().symbol);
            let counterpart = || quantity.counterpart(&self.units.second);
            let second =
                quantity.also().map(Quantity::unit).or_else(counterpart).filter(|_| !self.units.single);
            units.extend(second.map(|unit| unit.symbol).filter(|symbol| *symbol != quantity.unit().symbol));
        }
        field(kind, label, limits.map(|it| Bounds::of(it, (self.shown)(it))), units)
    }

    /// What the wrench is set to at the end: the torque, or what an adapter makes of it.
    fn tightened(&self, it: &Tightening<'_>) -> Field {
        let label =
            it.fastener.map(|fastener| fastener.part.thing.text.value.to_string()).unwrap_or_default();
        let torque = &*it.torque;
        let wanted = torque.value.as_ref().or_else(|| match self.is_new(it) {
            true => torque.new.as_ref().or(torque.reused.as_ref()),
            false => torque.reused.as_ref().or(torque.new.as_ref()),
        });
        let set = wanted.and_then(|value| {
            let setting = tightening::setting(it.work, value, &self.document.declarations)?;
            (setting.share != Exact::from_integer(1)).then_some(setting.value)
        });
        let mut field = self.limited(Kind::Tightened, label, set.as_ref().or(wanted));
        if let Some(limits) = field.limits.as_mut().filter(|_| torque.plus_drag.is_some()) {
            // The running torque that is added is known at the bench only.
            limits.high.clear();
            limits.shown = format!("{} + drag", limits.shown);
        }
        field
    }

    /// Whether the fastener went in new in this procedure: then its torque for a new one holds.
    fn is_new(&self, it: &Tightening<'_>) -> bool {
        let Some(fastener) = it.fastener else { return false };
        let works = self.procedure.steps().flat_map(|step| &step.actions).filter_map(Action::work);
        let mut objects = works.flat_map(|work| &work.objects);
        objects.any(|object| object.name == Some(Name::Part(fastener.id)) && object.new.is_some())
    }

    /// One field a piece where the reading is taken of each.
    fn pieces(&self, work: &Work) -> u32 {
        let of_object = |object: &crate::model::action::Object| match object.name {
            Some(Name::Part(id)) if object.each => {
                let declared = || self.document.declarations.part(id).map(|part| part.count);
                object.count.or_else(declared).unwrap_or(1)
            }
            _ => 1,
        };
        let most = work.objects.iter().map(of_object).max().unwrap_or(1);
        if most > MOST_PIECES { 1 } else { most.max(1) }
    }
}

fn field(kind: Kind, label: String, limits: Option<Bounds>, units: Vec<&'static str>) -> Field {
    Field { field: String::new(), kind, label, piece: 0, limits, units }
}

fn holds(step: &Step) -> Vec<Hold> {
    let is_hold = |action: &Action| matches!(action, Action::Hold(_));
    if !step.every_action().any(is_hold) {
        return Vec::new();
    }
    let of_step = step.actions.iter().map(|action| (action, None));
    let of_branches = (1..).zip(actions_of_branches(step));
    let of_branches =
        of_branches.flat_map(|(branch, actions)| actions.iter().map(move |it| (it, Some(branch))));
    let holds = of_step.chain(of_branches).filter_map(|(action, branch)| match action {
        Action::Hold(hold) => Some((hold.role.value.to_string(), branch)),
        _ => None,
    });
    (1..).zip(holds).map(|(hold, (role, branch))| Hold { hold, role, branch }).collect()
}

fn actions_of_branches(step: &Step) -> impl Iterator<Item = &[Action]> {
    let options = step.options.iter().map(|it| it.actions.as_slice());
    let exceptions = step.exceptions.iter().map(|it| it.actions.as_slice());
    options.chain(exceptions).chain(step.outcomes.iter().map(|it| it.then.as_slice()))
}

fn branches(step: &Step) -> Vec<Branch> {
    if !step.has_branches() {
        return Vec::new();
    }
    let none: &[crate::source::Spanned<When>] = &[];
    let options = step.options.iter().map(|it| (it.name.value.to_string(), none, false));
    let exceptions = step.exceptions.iter().map(|it| {
        let places = it.places.iter().map(|place| place.value.to_string()).collect::<Vec<_>>();
        (places.join(", "), none, true)
    });
    let outcomes = step.outcomes.iter().map(|it| {
        let words = it.when.iter().map(|when| when.value.word()).collect::<Vec<_>>();
        (words.join(", "), it.when.as_slice(), false)
    });
    let heads = options.chain(exceptions).chain(outcomes);
    let all = (1..).zip(heads.zip(actions_of_branches(step)));
    all.map(|(branch, ((when, words, exception), actions))| {
        let covers = |side: When| {
            let of_side =
                |when: &When| *when == side || matches!(when, When::Outside | When::NotOk | When::Otherwise);
            words.iter().any(|when| of_side(&when.value))
        };
        Branch {
            branch,
            when,
            below: covers(When::Below),
            above: covers(When::Above),
            exception,
            stop: actions.iter().any(|it| matches!(it, Action::Stop(_))),
            skip: actions.iter().find_map(|it| match it {
                Action::Skip(skip) => skip.to.step,
                _ => None,
            }),
            redo: actions.iter().find_map(|it| match it {
                Action::Repeat(repeat) if repeat.for_each.is_empty() => {
                    Some(Redo { from: repeat.from.step?, most: repeat.times.map(|times| times.count) })
                }
                _ => None,
            }),
        }
    })
    .collect()
}
