//! `waive:` at work: hides what it names where it stands, and reports waivers that hide nothing.
use super::extents::Extents;
use super::{Rule, Subject, find, waiver_not_needed, waiver_without_reason};
use crate::model::document::Waiver;
use crate::report::Finding;
use std::collections::HashMap;

/// Takes the waived findings out and adds those about the waivers themselves. `findings` are sorted by place.
pub fn apply(subject: &Subject<'_>, findings: &mut Vec<Finding>) {
    let mut about_waivers = Vec::new();
    let mut in_force: HashMap<&'static str, Vec<&Waiver>> = HashMap::new();
    for waiver in &subject.document.waivers {
        match standing(waiver) {
            Standing::Holds(rule) => in_force.entry(rule.id).or_default().push(waiver),
            Standing::Unknown => about_waivers.push(waiver_not_needed::unknown(waiver)),
            Standing::Refused(rule) => about_waivers.push(waiver_not_needed::refused(waiver, rule)),
            Standing::NoReason => about_waivers.push(waiver_without_reason::finding(waiver)),
        }
    }
    let mut places: HashMap<&'static str, Vec<u32>> = HashMap::new();
    for finding in findings.iter().filter(|f| in_force.contains_key(f.rule)) {
        places.entry(finding.rule).or_default().push(finding.span.start);
    }
    for (id, waivers) in &in_force {
        let starts = places.get(id).map_or(&[][..], Vec::as_slice);
        let off = find(id).is_none_or(|rule| rule.level(subject.settings).is_none());
        // With holes in the file some rules wait, and what they will find is not known.
        let idle = waivers.iter().filter(|waiver| !off && !subject.has_holes() && !hides_any(waiver, starts));
        about_waivers.extend(idle.map(|waiver| waiver_not_needed::idle(waiver)));
    }
    let extents = |waivers: Vec<&Waiver>| Extents::of(waivers.into_iter().map(|waiver| waiver.extent));
    let waived: HashMap<_, _> = in_force.into_iter().map(|(id, waivers)| (id, extents(waivers))).collect();
    findings.retain(|f| !waived.get(f.rule).is_some_and(|extents| extents.hold(f.span.start)));
    findings.extend(about_waivers.into_iter().filter_map(|finding| in_house(subject, finding)));
}

enum Standing {
    Holds(&'static Rule),
    /// No rule has that name.
    Unknown,
    /// The rule may not be waived.
    Refused(&'static Rule),
    NoReason,
}

fn standing(waiver: &Waiver) -> Standing {
    let reason = waiver.why.as_ref().is_some_and(|why| !why.value.trim().is_empty());
    match find(&waiver.rule.value) {
        None => Standing::Unknown,
        Some(rule) if !rule.waivable => Standing::Refused(rule),
        Some(_) if !reason => Standing::NoReason,
        Some(rule) => Standing::Holds(rule),
    }
}

/// Whether one of the places, sorted, lies in the waiver's extent.
fn hides_any(waiver: &Waiver, starts: &[u32]) -> bool {
    let first = starts.partition_point(|&start| start < waiver.extent.start);
    starts.get(first).is_some_and(|&start| start < waiver.extent.end)
}

/// With the severity the house gives its rule; none where the rule is off.
fn in_house(subject: &Subject<'_>, mut finding: Finding) -> Option<Finding> {
    finding.severity = find(finding.rule)?.level(subject.settings)?;
    Some(finding)
}
