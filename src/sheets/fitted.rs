//! How many of each part the work fits new: what has to be ordered.
use super::Sheet;
use crate::model::action::{Object, PlaceTarget, Work};
use crate::model::declarations::{Name, Part};
use crate::model::verb::Effect;
use crate::model::{Action, Step};
use std::collections::BTreeMap;

/// What the work needs new of one part.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct Fitted {
    /// Pieces fitted new on one machine, whatever is found; 0 where none is.
    pub sure: u32,
    /// New ones are fitted after some finding or choice.
    pub perhaps: bool,
}

/// For each declared part, in the order of the declarations. Where models differ, the model that needs most counts.
pub fn of(sheet: &Sheet<'_>) -> Vec<Fitted> {
    let models: Vec<Option<&str>> = match &sheet.procedure.header.models {
        Some(models) if !models.is_empty() => models.iter().map(|model| Some(model.as_str())).collect(),
        _ => vec![None],
    };
    let mut most: BTreeMap<u32, u32> = BTreeMap::new();
    for model in models {
        for (part, count) in on_model(sheet, model) {
            let most = most.entry(part).or_default();
            *most = count.max(*most);
        }
    }
    let named = |steps: &mut dyn Iterator<Item = &Action>| -> Vec<u32> {
        steps
            .filter_map(Action::work)
            .flat_map(new_objects)
            .filter_map(|(object, _)| part_of(object))
            .collect()
    };
    let always = named(&mut sheet.procedure.steps().filter(is_sure).flat_map(|step| &step.actions));
    let conditioned = sheet.procedure.steps().filter(|step| !is_sure(step)).flat_map(|step| &step.actions);
    let perhaps = named(&mut sheet.procedure.steps().flat_map(conditional).chain(conditioned));
    let each = |(id, part): (u32, &Part)| {
        // A single-use part is owed new even where it only says so itself.
        let owed = always.contains(&id) || part.single_use.is_some() && !part.stays_off;
        let counted = most.get(&id).copied().unwrap_or(0);
        Fitted {
            sure: if owed && counted == 0 { part.count } else { counted },
            perhaps: perhaps.contains(&id),
        }
    };
    (0u32..).zip(&sheet.declarations.parts).map(each).collect()
}

/// Pieces of each part that the steps of one model fit new.
fn on_model(sheet: &Sheet<'_>, model: Option<&str>) -> BTreeMap<u32, u32> {
    let mut counts: BTreeMap<u32, u32> = BTreeMap::new();
    let applies = |step: &&Step| is_sure(step) && model.is_none_or(|model| step.applies.to_model(model));
    for (step, again) in with_rounds(sheet.procedure.steps().filter(applies)) {
        let rounds = again.saturating_add(1);
        for work in step.actions.iter().filter_map(Action::work) {
            for (object, fits) in new_objects(work) {
                let Some((id, part)) =
                    part_of(object).and_then(|id| Some((id, sheet.declarations.part(id)?)))
                else {
                    continue;
                };
                if fits && model.is_none_or(|model| part.applies.to_model(model)) {
                    let count = counts.entry(id).or_default();
                    *count = count.saturating_add(pieces(object, part).saturating_mul(rounds));
                }
            }
        }
    }
    counts
}

/// Each step with how often it is gone through again: one time for each place that a repeat names.
fn with_rounds<'a>(steps: impl Iterator<Item = &'a Step> + Clone) -> impl Iterator<Item = (&'a Step, u32)> {
    let repeats = steps.clone().flat_map(|step| &step.actions).filter_map(|action| match action {
        Action::Repeat(repeat) if !repeat.for_each.is_empty() => Some(repeat),
        _ => None,
    });
    // What begins and what ends at each number, so that many repeats over many steps stay cheap.
    let mut changes: BTreeMap<u32, (u32, u32)> = BTreeMap::new();
    for repeat in repeats {
        let Some(first) = repeat.from.step else { continue };
        let last = repeat.to.as_ref().and_then(|to| to.step).unwrap_or(first);
        let places = u32::try_from(repeat.for_each.len()).unwrap_or(u32::MAX);
        if first <= last {
            let begins = &mut changes.entry(first).or_default().0;
            *begins = begins.saturating_add(places);
            let ends = &mut changes.entry(last.saturating_add(1)).or_default().1;
            *ends = ends.saturating_add(places);
        }
    }
    let (mut changes, mut now) = (changes.into_iter().peekable(), 0u32);
    steps.map(move |step| {
        while let Some((_, (begins, ends))) = changes.next_if(|(number, _)| *number <= step.number) {
            now = now.saturating_add(begins).saturating_sub(ends);
        }
        (step, now)
    })
}

/// What an action takes new, and whether it goes on the machine with it.
pub fn new_objects(work: &Work) -> impl Iterator<Item = (&Object, bool)> {
    let renews = work.verb.does(Effect::Renews);
    let fits = renews || work.fits();
    let places = work.places.iter().filter_map(|place| match &place.what {
        PlaceTarget::Objects(objects) => Some(objects),
        _ => None,
    });
    let other = places.flatten().filter(|object| object.new.is_some()).map(|object| (object, false));
    let objects = work.objects.iter().filter(move |object| renews || object.new.is_some());
    objects.map(move |object| (object, fits)).chain(other)
}

fn pieces(object: &Object, part: &Part) -> u32 {
    let is_piece = part.pieces.iter().any(|piece| piece.value == object.word.value);
    object.count.unwrap_or(if is_piece { 1 } else { part.count })
}

fn part_of(object: &Object) -> Option<u32> {
    match object.name {
        Some(Name::Part(id)) => Some(id),
        _ => None,
    }
}

/// Done whatever was found before.
fn is_sure(step: &&Step) -> bool {
    step.conditions.is_empty()
}

/// Actions that are done only after some finding or choice.
fn conditional(step: &Step) -> impl Iterator<Item = &Action> {
    let outcomes = step.outcomes.iter().flat_map(|outcome| &outcome.then);
    outcomes.chain(step.options.iter().flat_map(|option| &option.actions))
}
