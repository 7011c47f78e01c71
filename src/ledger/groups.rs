//! Models that the procedure treats alike are walked together.
use super::breach::Models;
use crate::model::declarations::Applies;
use crate::model::{Declarations, Procedure};
use crate::source::Text;
use std::collections::HashMap;

/// Models for which every part and every step is there or not there alike.
pub(super) struct Group<'a> {
    /// The header's.
    all: &'a [Text],
    /// One of them; `None` where the header names none.
    pub model: Option<String>,
    pub models: Models,
}

impl Group<'_> {
    /// Whether they have it, or do it. What depends on a serial number or on what is fitted is taken to be there.
    pub(super) fn has(&self, applies: &Applies) -> bool {
        if applies.models.is_empty() || self.model.as_deref().is_none_or(|model| applies.to_model(model)) {
            return true;
        }
        // Models that the header does not know have their finding.
        applies.models.iter().all(|model| self.all.iter().all(|known| known.value != model.value))
    }
}

pub(super) fn of<'a>(procedure: &'a Procedure, declarations: &Declarations) -> Vec<Group<'a>> {
    let models = procedure.header.models.as_deref().unwrap_or(&[]);
    if models.len() < 2 {
        let model = models.first().map(|model| model.value.to_string());
        return vec![Group { all: models, model, models: Models::All }];
    }
    let of_parts = declarations.parts.iter().map(|part| &part.applies);
    let of_steps = procedure.steps().map(|step| &step.applies);
    let apart: Vec<&Applies> = of_parts.chain(of_steps).filter(|it| !it.models.is_empty()).collect();
    let mut groups: Vec<(Vec<bool>, Vec<u32>)> = Vec::new();
    let mut known: HashMap<Vec<bool>, usize> = HashMap::new();
    for (index, model) in (0..).zip(models) {
        let like: Vec<bool> = apart.iter().map(|applies| applies.to_model(&model.value)).collect();
        let at = *known.entry(like.clone()).or_insert(groups.len());
        match groups.get_mut(at) {
            Some((_, members)) => members.push(index),
            None => groups.push((like, vec![index])),
        }
    }
    let alone = groups.len() == 1;
    let group = |(_, members): (Vec<bool>, Vec<u32>)| Group {
        all: models,
        model: members.first().and_then(|&at| models.get(at as usize)).map(|model| model.value.to_string()),
        models: if alone { Models::All } else { Models::Some(members) },
    };
    groups.into_iter().map(group).collect()
}
