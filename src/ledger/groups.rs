//! Models that the procedure treats alike go together: they are walked once, and are one bit where only what holds
//! on which of them is followed.
use super::breach::Models;
use crate::model::declarations::Applies;
use crate::model::net::Net;
use crate::model::{Action, Declarations, Procedure, Register};
use crate::source::Text;
use std::collections::HashMap;

/// The models of one procedure in groups; one group where the header names no more than one.
pub struct Groups<'a> {
    /// The header's.
    models: &'a [Text],
    groups: Vec<Group<'a>>,
    /// By the number of the model: its group.
    group_of: Vec<usize>,
}

/// Models for which every part and every step is there or not there alike.
pub(super) struct Group<'a> {
    all: &'a [Text],
    /// One of them; `None` where the header names none.
    pub model: Option<&'a str>,
    pub models: Models,
}

impl Group<'_> {
    /// Whether they have it, or do it. What depends on a serial number or on what is fitted is taken to be there.
    pub(super) fn has(&self, applies: &Applies) -> bool {
        if applies.models.is_empty() || self.model.is_none_or(|model| applies.to_model(model)) {
            return true;
        }
        // Models that the header does not know have their finding.
        applies.models.iter().all(|model| self.all.iter().all(|known| known.value != model.value))
    }
}

impl<'a> Groups<'a> {
    /// By what stands in the procedure itself.
    pub fn of(procedure: &'a Procedure, declarations: &Declarations) -> Groups<'a> {
        Groups::apart(procedure, declarations, Vec::new)
    }

    /// Models are apart too where a procedure that is called leaves them differently.
    pub(super) fn with_called(
        procedure: &'a Procedure,
        declarations: &Declarations,
        register: &Register,
    ) -> Groups<'a> {
        Groups::apart(procedure, declarations, || called(procedure, register))
    }

    fn apart<'r>(
        procedure: &'a Procedure,
        declarations: &Declarations,
        called: impl FnOnce() -> Vec<&'r Net>,
    ) -> Groups<'a> {
        let models = procedure.header.models.as_deref().unwrap_or(&[]);
        let members =
            if models.len() < 2 { Vec::new() } else { alike(models, procedure, declarations, &called()) };
        if members.len() < 2 {
            let model = models.first().map(Text::as_str);
            let groups = vec![Group { all: models, model, models: Models::All }];
            return Groups { models, groups, group_of: vec![0; models.len()] };
        }
        let mut group_of = vec![0; models.len()];
        for (group, members) in members.iter().enumerate() {
            for &model in members {
                if let Some(place) = group_of.get_mut(model as usize) {
                    *place = group;
                }
            }
        }
        let group = |members: Vec<u32>| Group {
            all: models,
            model: members.first().and_then(|&at| models.get(at as usize)).map(Text::as_str),
            models: Models::Some(members),
        };
        Groups { models, groups: members.into_iter().map(group).collect(), group_of }
    }

    pub(super) fn iter(&self) -> impl Iterator<Item = &Group<'a>> {
        self.groups.iter()
    }

    /// The groups that have it, a bit each; past 63 they share the last.
    pub fn mask(&self, applies: &Applies) -> u64 {
        if applies.models.is_empty() {
            return self.all();
        }
        let having = self.groups.iter().enumerate().filter(|(_, group)| group.has(applies));
        having.fold(0, |mask, (at, _)| mask | bit(at))
    }

    /// Every group there is, so that what holds on each of them holds everywhere.
    pub fn all(&self) -> u64 {
        (0..self.groups.len().min(63)).fold(0, |mask, at| mask | bit(at))
    }

    /// The names of the models in these groups, as the header has them in order.
    pub fn names(&self, mask: u64) -> impl Iterator<Item = &'a str> {
        let models = self.models.iter().zip(&self.group_of);
        models.filter(move |(_, group)| mask & bit(**group) != 0).map(|(model, _)| model.as_str())
    }
}

fn bit(group: usize) -> u64 {
    1 << group.min(62)
}

/// What the procedures leave behind that come before, within and after this one, where models differ in it.
fn called<'r>(procedure: &Procedure, register: &'r Register) -> Vec<&'r Net> {
    let header = [&procedure.header.requires, &procedure.header.afterwards];
    let around = header.into_iter().flatten().flatten();
    let steps = procedure.steps().flat_map(|step| {
        let outcomes = step.outcomes.iter().flat_map(|outcome| &outcome.then);
        let options = step.options.iter().flat_map(|option| &option.actions);
        let exceptions = step.exceptions.iter().flat_map(|exception| &exception.actions);
        step.actions.iter().chain(outcomes).chain(options).chain(exceptions)
    });
    let within = steps.filter_map(|action| match action {
        Action::Follow(follow) => Some(&follow.call),
        _ => None,
    });
    let calls = around.chain(within);
    let nets = calls.filter_map(|call| register.net(call.number.as_ref()?.as_str()));
    nets.filter(|net| net.groups.len() > 1).collect()
}

/// The numbers of the models, those together for which nothing differs.
fn alike(
    models: &[Text],
    procedure: &Procedure,
    declarations: &Declarations,
    called: &[&Net],
) -> Vec<Vec<u32>> {
    let of_parts = declarations.parts.iter().map(|part| &part.applies);
    let of_steps = procedure.steps().map(|step| &step.applies);
    let apart: Vec<&Applies> = of_parts.chain(of_steps).filter(|it| !it.models.is_empty()).collect();
    let mut groups: Vec<Vec<u32>> = Vec::new();
    let mut known: HashMap<(Vec<bool>, Vec<Option<usize>>), usize> = HashMap::new();
    for (index, model) in (0..).zip(models) {
        let like: Vec<bool> = apart.iter().map(|applies| applies.to_model(&model.value)).collect();
        let left: Vec<Option<usize>> = called.iter().map(|net| net.group_of(Some(&model.value))).collect();
        let at = *known.entry((like, left)).or_insert(groups.len());
        match groups.get_mut(at) {
            Some(members) => members.push(index),
            None => groups.push(vec![index]),
        }
    }
    groups
}
