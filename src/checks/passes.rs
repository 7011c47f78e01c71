//! The torques of a tightening list in the order they are gone through.
use super::Subject;
use crate::model::fastener::wrench::aim;
use crate::model::quantity::Exact;
use crate::model::tightening::Tightening;
use crate::model::torque::{Pass, PassTarget, Torque, percent_of};
use crate::source::Span;

/// A pass with a torque.
pub struct Step<'t> {
    pub pass: &'t Pass,
    /// Its middle, in base units; of passes that are shares of an unknown torque, the share.
    pub aim: Exact,
}

impl Step<'_> {
    /// "10–12 N·m", "50 %".
    pub fn said(&self) -> String {
        match &self.pass.target {
            PassTarget::Torque(value) => value.print(),
            PassTarget::Percent(percent) => format!("{percent} %"),
            _ => String::new(),
        }
    }
}

/// The torques between one loosening and the next, at least two, list by list.
pub fn climbs(torque: &Torque) -> Vec<Vec<Step<'_>>> {
    if torque.passes.len() < 2 {
        return Vec::new();
    }
    let mut climbs = vec![Vec::new()];
    for pass in &torque.passes {
        match &pass.target {
            PassTarget::Torque(value) => push(&mut climbs, pass, aim(value)),
            PassTarget::Percent(percent) => {
                let whole = torque.value.as_ref().and_then(|whole| percent_of(whole, percent));
                let aim = whole.as_ref().map_or(Some(percent.value()), aim);
                push(&mut climbs, pass, aim);
            }
            // From here on the fastener is looser, or tighter than any of the torques before says.
            PassTarget::LoosenToFeel(_)
            | PassTarget::LoosenTo(_)
            | PassTarget::BackOff(_)
            | PassTarget::Angle(_) => {
                climbs.push(Vec::new());
            }
            PassTarget::Feel(_) | PassTarget::Length(_) => {}
        }
    }
    climbs.retain(|climb| climb.len() > 1);
    climbs
}

fn push<'t>(climbs: &mut [Vec<Step<'t>>], pass: &'t Pass, aim: Option<Exact>) {
    if let (Some(climb), Some(aim)) = (climbs.last_mut(), aim) {
        climb.push(Step { pass, aim });
    }
}

/// Where a finding about `place` of a list points: there, or at the fastener where the list is a catalogue's.
pub fn place(subject: &Subject<'_>, place: Span, tightening: &Tightening<'_>) -> Span {
    if subject.owns(place) { place } else { tightening.span() }
}
