//! Parts that are easily mistaken for each other, side by side with what tells them apart.
use super::{Sheet, lay_out, sketch};
use crate::model::declarations::{Name, Part};
use serde::Serialize;

#[derive(Serialize)]
pub struct Pair {
    pub left: Side,
    pub right: Side,
}

#[derive(Serialize)]
pub struct Side {
    pub text: String,
    /// Markup.
    pub outline: &'static str,
    /// What tells it from the other; may be empty.
    pub by: String,
    pub number: String,
    /// Which machines have it; may be empty.
    pub applies: String,
}

/// Each pair once, in the order of the declarations.
pub fn pairs(sheet: &Sheet<'_>) -> Vec<Pair> {
    let parts = &sheet.declarations.parts;
    let mut seen: Vec<(u32, u32)> = Vec::new();
    let mut pairs = Vec::new();
    for (id, part) in (0u32..).zip(parts) {
        for look in &part.looks_like {
            let Name::Part(other_id) = look.other.value else { continue };
            let Some(other) = sheet.declarations.part(other_id) else { continue };
            let key = (id.min(other_id), id.max(other_id));
            if !seen.contains(&key) {
                seen.push(key);
                pairs.push(Pair { left: side(sheet, part, other_id), right: side(sheet, other, id) });
            }
        }
    }
    pairs
}

fn side(sheet: &Sheet<'_>, part: &Part, other: u32) -> Side {
    let look = part.looks_like.iter().find(|look| look.other.value == Name::Part(other));
    Side {
        text: part.thing.text.value.to_string(),
        outline: sketch::ALIKE,
        by: look.and_then(|l| l.by.as_ref()).map(|t| t.value.to_string()).unwrap_or_default(),
        number: part.thing.number.as_ref().map(|n| n.value.to_string()).unwrap_or_default(),
        applies: lay_out::applies(sheet, &part.applies).unwrap_or_default(),
    }
}
