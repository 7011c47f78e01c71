//! What is left to be filled in at a step: readings, tightened values, records, signatures.
use crate::model::action::Work;
use crate::model::declarations::Name;
use crate::model::quantity::{Form, Quantity};
use crate::model::tightening::Tightening;
use crate::model::verb::{Effect, Quantities};
use crate::model::{Action, Step};
use crate::sheets::{Sheet, html, torques};

/// One line to write on.
pub struct Blank {
    /// What is to be written: "Bearing seat diameter", "Set to", "Instructor".
    pub label: String,
    /// Of what, where the label says only that: "4 × Cover screw, M6 x 20".
    pub subject: String,
    /// Printed behind the line; may be empty.
    pub unit: &'static str,
    /// The limits beside it, in both units; may be empty.
    pub limits: Vec<String>,
    /// How many lines, one a piece.
    pub lines: u32,
    pub kind: Kind,
}

#[derive(Clone, Copy, PartialEq, Eq)]
pub enum Kind {
    Reading,
    Tightened,
    Initials,
    Record,
}

/// A set of more pieces than this gets one line with room for all.
const MOST_LINES: u32 = 12;

/// Everything to be written down at a step.
pub fn of(sheet: &Sheet<'_>, step: &Step) -> Vec<Blank> {
    let mut blanks: Vec<Blank> = Vec::new();
    for action in &step.actions {
        match action {
            Action::Work(work) if work.verb.tightens() => blanks.extend(tightened(sheet, work)),
            _ => blanks.extend(of_action(sheet, action)),
        }
    }
    // A signature may be owed after one outcome alone.
    let after = step.outcomes.iter().flat_map(|outcome| &outcome.then);
    blanks.extend(
        after.filter(|action| matches!(action, Action::Hold(_))).filter_map(|it| of_action(sheet, it)),
    );
    if let Some(record) = &step.record
        && !blanks.iter().any(|blank| blank.kind == Kind::Reading)
    {
        blanks.push(plain(html::sentence_case(&record.value), Kind::Record));
    }
    blanks
}

fn of_action(sheet: &Sheet<'_>, action: &Action) -> Option<Blank> {
    match action {
        Action::Hold(hold) => {
            let role = html::sentence_case(&hold.role.value);
            Some(plain(sheet.say("initials", &[("role", role.into())]), Kind::Initials))
        }
        Action::Calculate(calculate) => {
            let label = html::sentence_case(&calculate.name.value.replace('-', " "));
            Some(reading(sheet, label, calculate.limits.as_ref(), 1))
        }
        Action::Work(work) if work.verb.does(Effect::Measures) || has_limit(work) => {
            let label = work.what.as_ref().map_or_else(|| sheet.label("reading"), |what| what.value.as_str());
            let lines = pieces(sheet, work);
            Some(reading(sheet, html::sentence_case(label), work.quantity.as_ref(), lines))
        }
        _ => None,
    }
}

/// A finding is held against a quantity, so that it is worth writing down.
fn has_limit(work: &Work) -> bool {
    let some = |limit: &Quantity| *limit.form() != Form::None;
    work.verb.quantity == Quantities::Limit && work.quantity.as_ref().is_some_and(some)
}

fn reading(sheet: &Sheet<'_>, label: String, limits: Option<&Quantity>, lines: u32) -> Blank {
    let nothing = |q: &&Quantity| *q.form() == Form::None;
    let unit = limits.filter(|q| !nothing(q)).map_or("", |q| sheet.words.figures().unit(q.unit().symbol));
    // `none` alone would read as if there were no limit.
    let none = || sheet.label("none-allowed").to_owned();
    let said = |q: &Quantity| if nothing(&q) { none() } else { sheet.quantity(q) };
    let limits = limits.map(said).into_iter().collect();
    Blank { subject: label.clone(), label, unit, limits, lines, kind: Kind::Reading }
}

/// One line for each torque: what the wrench was set to.
fn tightened(sheet: &Sheet<'_>, work: &Work) -> Vec<Blank> {
    let each = work.other_torques.is_empty();
    let mut all: Vec<&Tightening<'_>> =
        sheet.tightenings_of(work).filter(|it| it.torque.has_value()).collect();
    all.dedup_by(|next, first| each && next.torque == first.torque);
    all.into_iter().map(|it| of_tightening(sheet, it, each)).collect()
}

fn of_tightening(sheet: &Sheet<'_>, it: &Tightening<'_>, alone: bool) -> Blank {
    let torque = &it.torque;
    let value = torque.value.as_ref().or(torque.new.as_ref()).or(torque.reused.as_ref());
    let unit = value.map_or("", |q| sheet.words.figures().unit(q.unit().symbol));
    let mut limits = torques::values(sheet, torque);
    let at = |set: String| sheet.say("wrench-at", &[("torque", set.into())]);
    limits.extend(torques::set_to(sheet, it).into_iter().map(at));
    let name = it.fastener.map(|fastener| fastener.part.thing.noun.singular.as_str());
    let label = match name.filter(|_| !alone) {
        Some(name) => sheet.say("part-set-to", &[("part", html::sentence_case(name).into())]),
        None => sheet.label("set-to").to_owned(),
    };
    Blank { subject: torques::fastener(sheet, it), label, unit, limits, lines: 1, kind: Kind::Tightened }
}

fn plain(label: String, kind: Kind) -> Blank {
    Blank { subject: label.clone(), label, unit: "", limits: Vec::new(), lines: 1, kind }
}

/// One line a piece where the reading is taken of each.
fn pieces(sheet: &Sheet<'_>, work: &Work) -> u32 {
    let of_object = |object: &crate::model::action::Object| match object.name {
        Some(Name::Part(id)) if object.each => {
            object.count.or_else(|| sheet.declarations.part(id).map(|part| part.count)).unwrap_or(1)
        }
        _ => 1,
    };
    work.objects.iter().map(of_object).max().unwrap_or(1).clamp(1, MOST_LINES)
}
