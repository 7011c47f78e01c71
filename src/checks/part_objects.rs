//! The declared parts among what an action works on.
use crate::model::action::{Object, Work};
use crate::model::declarations::Part;
use crate::model::{Declarations, Name};

/// The objects of `work` that are declared parts: number of the part, as written, declaration.
pub fn of<'a>(
    work: &'a Work,
    declarations: &'a Declarations,
) -> impl Iterator<Item = (u32, &'a Object, &'a Part)> {
    work.objects.iter().filter_map(|object| match object.name {
        Some(Name::Part(id)) => declarations.part(id).map(|part| (id, object, part)),
        _ => None,
    })
}
