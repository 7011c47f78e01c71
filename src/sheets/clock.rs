//! How long each section takes, and what the clock says at its start and end.
use super::{Sheet, html};
use crate::model::document::Section;
use crate::model::quantity::{Exact, Quantity};
use crate::model::{Action, Step};

/// One section's time. All times are whole seconds of work; waits stand beside them.
pub struct Part<'a> {
    pub section: &'a Section,
    /// As in the section's anchor, from 1.
    pub number: usize,
    /// What the section says, or else what its steps add up to; none where neither says anything.
    pub work: Option<u64>,
    /// Some step of the section has no time, and the section has none of its own.
    pub at_least: bool,
    /// The clock at its start and end, from 0 at the first section.
    pub start: u64,
    pub end: u64,
    /// Some time up to its start or its end is not known.
    pub starts_about: bool,
    pub ends_about: bool,
    /// Each wait with its step.
    pub waits: Vec<(u32, &'a Quantity)>,
}

/// The sections in order.
pub fn of<'a>(sheet: &Sheet<'a>) -> Vec<Part<'a>> {
    let (mut clock, mut about) = (0u64, false);
    let part = |(number, section): (usize, &'a Section)| {
        let (work, at_least) = work(section);
        let (start, starts_about) = (clock, about);
        clock = clock.saturating_add(work.unwrap_or(0));
        about |= at_least;
        Part {
            section,
            number,
            work,
            at_least,
            start,
            end: clock,
            starts_about,
            ends_about: about,
            waits: section.steps.iter().flat_map(waits).collect(),
        }
    };
    sheet.headed_sections().map(part).collect()
}

fn work(section: &Section) -> (Option<u64>, bool) {
    if let Some(time) = section.time.as_ref().and_then(seconds) {
        return (Some(time), false);
    }
    let times: Vec<u64> =
        section.steps.iter().filter_map(|step| step.time.as_ref()).filter_map(seconds).collect();
    let sum = times.iter().fold(0u64, |sum, time| sum.saturating_add(*time));
    ((!times.is_empty()).then_some(sum), times.len() < section.steps.len())
}

fn waits(step: &Step) -> impl Iterator<Item = (u32, &Quantity)> {
    step.actions.iter().filter_map(|action| match action {
        Action::Wait(wait) => wait.time.as_ref().map(|time| (step.number, time)),
        _ => None,
    })
}

/// The longest that it may take, in whole seconds.
pub fn seconds(time: &Quantity) -> Option<u64> {
    let longest: Exact = time.upper().or(time.lower())?;
    u64::try_from(longest.ceil().to_integer()).ok()
}

/// "0:40": hours and minutes, begun minutes counted.
pub fn face(seconds: u64) -> String {
    let minutes = seconds.div_ceil(60);
    format!("{}:{:02}", minutes / 60, minutes % 60)
}

/// "1 h 25 min".
pub fn duration(seconds: u64) -> String {
    let minutes = seconds.div_ceil(60);
    match (minutes / 60, minutes % 60) {
        (0, minutes) => format!("{minutes} min"),
        (hours, 0) => format!("{hours} h"),
        (hours, minutes) => format!("{hours} h {minutes} min"),
    }
}

/// The line under a section's heading: its clock, its time, its waits.
pub fn line(out: &mut String, sheet: &Sheet<'_>, part: &Part<'_>) {
    let Some(work) = part.work else { return };
    html::open(out, "p", "clock");
    html::element(out, "b", "", &between(sheet, part));
    let time = duration(work);
    html::element(out, "span", "", &if part.at_least { at_least(sheet, &time) } else { time });
    if !part.waits.is_empty() {
        html::element(out, "span", "", &sheet.say("and-waits", &[("waits", waited(sheet, part).into())]));
    }
    html::close(out, "p");
}

/// "0:40 to 1:10".
pub fn between(sheet: &Sheet<'_>, part: &Part<'_>) -> String {
    let at = |seconds: u64, about: bool| if about { at_least(sheet, &face(seconds)) } else { face(seconds) };
    let (from, to) = (at(part.start, part.starts_about), at(part.end, part.ends_about));
    sheet.say("clock-from-to", &[("from", from.into()), ("to", to.into())])
}

pub fn at_least(sheet: &Sheet<'_>, time: &str) -> String {
    sheet.say("at-least", &[("time", time.into())])
}

/// "5 min, 24 h".
pub fn waited(sheet: &Sheet<'_>, part: &Part<'_>) -> String {
    part.waits.iter().map(|(_, time)| sheet.words.print(time)).collect::<Vec<_>>().join(", ")
}
