//! The safety messages that a drafted step needs.
use crate::ledger::hazards::{Demand, demands};
use crate::model::document::Standing;
use crate::model::message::Signal;
use crate::model::{Document, Settings};

/// Where a message is missing from the byte `from` on, and its lines: the shop's standing message of that class where
/// there is one, else its first lines, which are refused until the rest is written. By place, the most severe first.
pub fn cautions(document: &Document, settings: &Settings, from: usize) -> Vec<(usize, String)> {
    let demands = demands(document, settings);
    let mut missing: Vec<(usize, Signal, String)> = Vec::new();
    let unguarded =
        demands.iter().filter(|it| it.guarded_by.is_none() && it.step.span.start as usize >= from);
    for demand in unguarded {
        let (signal, text) = message(document, demand);
        let at = demand.step.span.start as usize;
        if !missing.iter().any(|(place, _, known)| (*place, known) == (at, &text)) {
            missing.push((at, signal, text));
        }
    }
    missing.sort_by_key(|(at, signal, _)| (*at, std::cmp::Reverse(*signal)));
    missing.into_iter().map(|(at, _, text)| (at, text)).collect()
}

fn message(document: &Document, demand: &Demand<'_>) -> (Signal, String) {
    let class = demand.row.class();
    let of_class = |it: &&Standing| std::ptr::eq(it.hazard, class);
    if let Some(standing) = document.standing.iter().find(of_class) {
        return (standing.signal, format!("{} {}\n", standing.signal.word(), standing.name.as_str()));
    }
    let mut wear: Vec<&str> = demand.lacks().map(|wear| wear.name.as_str()).collect();
    wear.sort_unstable();
    let mut text = format!(
        "warning {}\n    # Say what can happen in `hazard:`, what it does in `harm:`, how to keep clear in `avoid:`.\n",
        class.name
    );
    if !wear.is_empty() {
        text.push_str(&format!("    wear: {}\n", wear.join(", ")));
    }
    (Signal::Warning, text)
}
