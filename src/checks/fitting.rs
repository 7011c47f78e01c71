//! Whether work puts its objects on or takes them off, by its verb and its places.
use crate::model::action::{Object, Work};
use crate::model::declarations::Part;
use crate::model::verb::Effect;
use crate::model::{Declarations, Name};

/// The objects go on or in: a fitting verb, or a push towards a place (`press bearing onto shaft`).
pub fn fits(work: &Work) -> bool {
    let verb = work.verb;
    verb.does(Effect::Fits) || verb.does(Effect::Connects) || pushes(work) && towards(work) && !away(work)
}

/// The objects come off or out: a removing verb, or a push away from a place (`press bearing off shaft`).
pub fn takes_off(work: &Work) -> bool {
    let verb = work.verb;
    let taken = [Effect::TakesOff, Effect::Disconnects, Effect::Discards, Effect::Renews];
    taken.into_iter().any(|effect| verb.does(effect)) || pushes(work) && away(work)
}

/// The objects that are declared parts, with their declarations.
pub fn parts<'a>(
    work: &'a Work,
    declarations: &'a Declarations,
) -> impl Iterator<Item = (u32, &'a Object, &'a Part)> {
    work.objects.iter().filter_map(|object| match object.name {
        Some(Name::Part(id)) => declarations.part(id).map(|part| (id, object, part)),
        _ => None,
    })
}

fn pushes(work: &Work) -> bool {
    [Effect::Presses, Effect::Strikes, Effect::Inserts].into_iter().any(|effect| work.verb.does(effect))
}

fn towards(work: &Work) -> bool {
    stands_at(work, &["onto", "on", "into", "in"])
}

fn away(work: &Work) -> bool {
    stands_at(work, &["off", "from", "out of"])
}

fn stands_at(work: &Work, prepositions: &[&str]) -> bool {
    work.places.iter().any(|place| prepositions.contains(&place.preposition.as_str()))
}
