//! The safety messages that a drafted step needs.
use crate::ledger::hazards::{Demand, demands};
use crate::model::document::Standing;
use crate::model::message::Signal;
use crate::model::{Document, Settings};

/// Where a message is missing from the byte `from` on, and its lines: the standing message that guards the same work
/// elsewhere in the procedure, or the shop's only one of that class; else its first lines, which are refused until the
/// rest is written. By place, the most severe first.
pub fn cautions(document: &Document, settings: &Settings, from: usize) -> Vec<(usize, String)> {
    let demands = demands(document, settings);
    let mut missing: Vec<(usize, Signal, String)> = Vec::new();
    let unguarded =
        demands.iter().filter(|it| it.guarded_by.is_none() && it.step.span.start as usize >= from);
    for demand in unguarded {
        let (signal, text) = message(document, &demands, demand);
        let at = demand.step.span.start as usize;
        if !missing.iter().any(|(place, _, known)| (*place, known) == (at, &text)) {
            missing.push((at, signal, text));
        }
    }
    missing.sort_by_key(|(at, signal, _)| (*at, std::cmp::Reverse(*signal)));
    missing.into_iter().map(|(at, _, text)| (at, text)).collect()
}

fn message(document: &Document, demands: &[Demand<'_>], demand: &Demand<'_>) -> (Signal, String) {
    let class = demand.row.class();
    let mut of_class: Vec<&Standing> =
        document.standing.iter().filter(|it| std::ptr::eq(it.hazard, class)).collect();
    of_class.dedup_by_key(|it| it.name.as_str());
    let alike = demands.iter().filter(|it| std::ptr::eq(it.row, demand.row));
    let called = alike.filter_map(|it| it.guarded_by?.standing.as_ref()).next();
    let guards = called.and_then(|name| of_class.iter().find(|it| it.name.as_str() == name.as_str()));
    // Of several that nobody called, any might say what does not hold here.
    let only = if let [only] = of_class.as_slice() { Some(only) } else { None };
    if let Some(standing) = guards.or(only) {
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
