//! Procedures that follow each other round, found before any is checked.
use super::outline::Outline;
use super::{Workspace, surroundings};
use crate::model::resolve::resolve;
use crate::model::{Action, Step};
use crate::source::{FileId, SourceFile};
use rayon::prelude::*;
use std::collections::HashMap;

/// Enters them in the register.
pub fn take_in(workspace: &mut Workspace, outlines: &[(FileId, &Outline)]) {
    // Words behind `follow` may stand in a comment or in quotes: only what they lead to and back from is looked at.
    let perhaps = Calls::of(outlines.iter().filter_map(|(_, outline)| {
        let (number, _) = outline.procedure.as_ref().filter(|_| !outline.follows.is_empty())?;
        Some((number.clone(), outline.follows.clone()))
    }));
    let here = &*workspace;
    let candidates: Vec<&String> =
        perhaps.circles().into_iter().flatten().map(|(number, _)| number).collect();
    let calls: Vec<_> =
        candidates.into_par_iter().map(|number| (number.clone(), followed(here, number))).collect();
    let surely = Calls::of(calls.into_iter());
    for circle in surely.circles() {
        workspace
            .register
            .go_round(circle.into_iter().map(|(number, calls)| (number.clone(), calls)).collect());
    }
}

/// The numbers that the steps of a procedure follow; none where several files claim to be it.
fn followed(workspace: &Workspace, number: &str) -> Vec<String> {
    let source = || {
        let [entry] = workspace.register.find(number) else { return None };
        let text = workspace.read(&entry.file, &entry.file).ok()?;
        Some(SourceFile::new(workspace.id(&entry.file)?, entry.file.as_str(), text))
    };
    let Some(source) = source() else { return Vec::new() };
    let document = resolve(&source, &surroundings(workspace)).document;
    let steps = document.procedure().into_iter().flat_map(|procedure| procedure.steps());
    let calls = steps.flat_map(Step::every_action).filter_map(|action| match action {
        Action::Follow(follow) => follow.call.number.as_ref(),
        _ => None,
    });
    calls.map(|number| number.value.to_string()).collect()
}

/// Which procedure follows which.
struct Calls {
    numbers: Vec<String>,
    /// By place, the places of those that each follows.
    follows: Vec<Vec<usize>>,
}

/// Procedures each of which leads to all the others, with those of them that it follows itself.
type Circle<'c> = Vec<(&'c String, Vec<String>)>;

impl Calls {
    /// Those to others that follow something too: no circle leads over any other.
    fn of(calls: impl Iterator<Item = (String, Vec<String>)>) -> Calls {
        let (numbers, called): (Vec<String>, Vec<Vec<String>>) = calls.unzip();
        let places: HashMap<&String, usize> = numbers.iter().zip(0..).collect();
        let place = |(from, number): (usize, &String)| places.get(number).copied().filter(|to| *to != from);
        let follows = (0..)
            .zip(&called)
            .map(|(from, called)| called.iter().filter_map(|it| place((from, it))).collect());
        let follows = follows.collect();
        Calls { numbers, follows }
    }

    fn circles(&self) -> Vec<Circle<'_>> {
        let heads = heads(&self.follows);
        let mut circles: HashMap<usize, Circle<'_>> = HashMap::new();
        for ((number, follows), head) in self.numbers.iter().zip(&self.follows).zip(&heads) {
            let inside = follows.iter().filter(|to| heads.get(**to) == Some(head));
            let inside = inside.filter_map(|to| self.numbers.get(*to)).cloned().collect();
            circles.entry(*head).or_default().push((number, inside));
        }
        circles.into_values().filter(|circle| circle.len() > 1).collect()
    }
}

/// For each place one of those that it leads to and that lead back to it, the same for all of them: two walks after Kosaraju,
/// without recursion, as a chain may be as long as a shop has procedures.
fn heads(follows: &[Vec<usize>]) -> Vec<usize> {
    let mut seen = vec![false; follows.len()];
    let mut enter = |at: usize| seen.get_mut(at).is_some_and(|seen| !std::mem::replace(seen, true));
    let mut done = Vec::with_capacity(follows.len());
    for root in 0..follows.len() {
        // Each with those of its calls that were not gone after yet.
        let mut open: Vec<(usize, &[usize])> = Vec::new();
        let calls = |at: usize| follows.get(at).map_or(&[][..], Vec::as_slice);
        open.extend(Some(root).filter(|it| enter(*it)).map(|it| (it, calls(it))));
        while let Some((at, left)) = open.last_mut() {
            match left.split_first() {
                Some((next, rest)) => {
                    *left = rest;
                    open.extend(Some(*next).filter(|it| enter(*it)).map(|it| (it, calls(it))));
                }
                None => {
                    done.push(*at);
                    open.pop();
                }
            }
        }
    }
    let mut callers = vec![Vec::new(); follows.len()];
    for (from, called) in follows.iter().enumerate() {
        called
            .iter()
            .filter_map(|to| callers.get_mut(*to).map(|it: &mut Vec<usize>| it.push(from)))
            .for_each(drop);
    }
    let mut heads: Vec<Option<usize>> = vec![None; follows.len()];
    for &head in done.iter().rev() {
        let mut open = vec![head];
        while let Some(at) = open.pop() {
            if let Some(free @ None) = heads.get_mut(at) {
                *free = Some(head);
                open.extend(callers.get(at).into_iter().flatten());
            }
        }
    }
    heads.into_iter().flatten().collect()
}
