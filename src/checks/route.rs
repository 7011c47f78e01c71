//! How the work comes to a broken order: the steps on the way, where it turns off, and what is left out on it.
use super::Subject;
use crate::ledger::{Breach, Kind, Models, Way};
use crate::model::action::Action;
use crate::model::{Name, Procedure, Step};
use crate::source::Span;
use std::collections::BTreeSet;

/// In words, for the sentence of a finding and its further places.
#[derive(Debug, Default)]
pub struct Route {
    /// `, by way of `if worn` (steps 4 → 7 → 9)`; empty where one step leads straight to the other.
    pub told: String,
    pub labels: Vec<(Span, String)>,
}

/// Steps that are left out on the way are named up to this many.
const MOST: usize = 3;

pub fn of(subject: &Subject<'_>, breach: &Breach) -> Route {
    let Some(procedure) = subject.procedure() else { return Route::default() };
    let places = || breach.since.into_iter().chain([breach.at]).filter(|span| subject.owns(*span));
    let ends = || places().filter_map(|span| step_at(procedure, span).map(|step| (span, step)));
    let mut labels: Vec<(Span, String)> =
        breach.only_if.iter().filter_map(|way| taken(procedure, way)).collect();
    let mut numbers: BTreeSet<u32> = ends().map(|(_, step)| step.number).collect();
    let turn =
        ends().filter_map(|(span, step)| branch(subject, step, span)).last().filter(|_| numbers.len() > 1);
    let turns = turn.is_some() || !breach.only_if.is_empty();
    numbers.extend(breach.only_if.iter().map(|way| way.step));
    labels.extend(left_out(procedure, breach, ends().map(|(_, step)| step.number)));
    let by = turn.map_or_else(String::new, |turn| format!(", by way of `{turn}`"));
    let mut stations: Vec<String> = numbers.iter().map(u32::to_string).collect();
    if stays_open(breach.kind) && breach.since.is_none() {
        stations.push("end".to_owned());
    }
    let steps = if turns && stations.len() > 1 {
        format!(" (steps {})", stations.join(" → "))
    } else {
        String::new()
    };
    Route { told: format!("{by}{steps}"), labels }
}

/// The step that the place lies in.
pub(super) fn step_at(procedure: &Procedure, span: Span) -> Option<&Step> {
    let before = |step: &Step| step.extent.start <= span.start;
    let begun = procedure.sections.partition_point(|it| it.title.is_none() || it.span.start <= span.start);
    let steps = &procedure.sections.get(begun.checked_sub(1)?)?.steps;
    let step = steps.get(steps.partition_point(before).checked_sub(1)?)?;
    step.extent.range().contains(&(span.start as usize)).then_some(step)
}

/// Where an earlier finding came out so that the work takes this way.
fn taken(procedure: &Procedure, way: &Way) -> Option<(Span, String)> {
    let step = procedure.step(way.step)?;
    let text = format!("this way: `{}` came out `{}`", way.label, way.state);
    let outcome = match way.state.as_str() {
        "ok" => None,
        "failed" => step.outcomes.first(),
        state => step.outcomes.iter().find(|outcome| outcome.when.iter().any(|when| when.value.is(state))),
    };
    Some((outcome.map_or(step.span, |outcome| outcome.span), text))
}

/// The head of the outcome, option or exception that the place lies in: `if worn`.
fn branch<'s>(subject: &'s Subject<'_>, step: &Step, place: Span) -> Option<&'s str> {
    let outcomes = step.outcomes.iter().map(|outcome| outcome.span);
    let options = step.options.iter().map(|option| option.span);
    let exceptions = step.exceptions.iter().map(|exception| exception.span);
    let around = |span: &Span| span.range().contains(&(place.start as usize));
    let span = outcomes.chain(options).chain(exceptions).find(around)?;
    let written = subject.source.slice(span);
    Some(written.split(':').next().unwrap_or(written).trim())
}

/// Steps between the two that touch the part, and are not done on this way.
fn left_out<'p>(
    procedure: &'p Procedure,
    breach: &'p Breach,
    ends: impl Iterator<Item = u32>,
) -> impl Iterator<Item = (Span, String)> + 'p {
    let numbers: Vec<u32> = ends.collect();
    let last = numbers.iter().max().copied().unwrap_or(0);
    let (from, to) = match numbers.iter().min() {
        Some(&first) if first < last => (first, last),
        _ if stays_open(breach.kind) => (last, u32::MAX),
        _ => (0, last),
    };
    // Where every way and every model comes by, none is.
    let asked = !breach.only_if.is_empty() || matches!(breach.models, Models::Some(_));
    let steps = Some(procedure).filter(|_| asked).into_iter().flat_map(Procedure::steps);
    let between = steps.filter(move |step| from < step.number && step.number < to);
    let touching =
        between.filter(|step| touches(step, breach.what) || breach.other.is_some_and(|it| touches(step, it)));
    touching.filter_map(|step| Some((step.span, why_not(procedure, breach, step)?))).take(MOST)
}

fn touches(step: &Step, name: Name) -> bool {
    let works = step.actions.iter().filter_map(Action::work);
    works.flat_map(|work| &work.objects).any(|object| object.name == Some(name))
}

/// Why the step is not done where the breach shows.
fn why_not(procedure: &Procedure, breach: &Breach, step: &Step) -> Option<String> {
    let unmet = |way: &&Way| {
        let mut asked = step.conditions.iter().filter(|condition| condition.step == Some(way.step));
        asked.any(|condition| condition.state != way.state)
    };
    if let Some(way) = breach.only_if.iter().find(unmet) {
        return Some(format!("not done where `{}` came out `{}`", way.label, way.state));
    }
    let Models::Some(some) = &breach.models else { return None };
    let known = procedure.header.models.as_deref().unwrap_or(&[]);
    let mine = || some.iter().filter_map(|&at| known.get(at as usize)).map(|model| model.as_str());
    let skipped = !step.applies.models.is_empty() && mine().all(|model| !step.applies.to_model(model));
    skipped.then(|| format!("not done on {}", mine().collect::<Vec<_>>().join(", ")))
}

/// Whether it is about what nothing settles up to the end.
fn stays_open(kind: Kind) -> bool {
    use Kind::*;
    matches!(
        kind,
        LeftOff
            | LeftDisconnected
            | LeftLoose
            | NeverTightened
            | NeverTightenedFully
            | LeftIn
            | LeftDrained
            | LeftIsolated
            | LeftRaised
            | LeftOpen
            | UnalignedFit
            | MarkNeverUsed
            | NotTested
    )
}
