//! What fasteners are tightened to.
use super::shape::{self, Pass};
use super::things::condition;
use super::{Maker, number, text};
use crate::model::torque::{AlignWay, PassTarget, Pattern, Torque, numbers};

impl Maker<'_> {
    pub(super) fn torque(&self, torque: &Torque) -> shape::Torque {
        let align = torque.align.as_ref().map(|align| shape::Align {
            feature: text(&align.feature),
            way: way(align.way),
            not_above: self.perhaps(align.not_above.as_ref()),
        });
        shape::Torque {
            value: self.perhaps(torque.value.as_ref()),
            new: self.perhaps(torque.new.as_ref()),
            reused: self.perhaps(torque.reused.as_ref()),
            passes: torque.passes.iter().map(|it| self.pass(it)).collect(),
            pattern: torque.pattern.as_ref().map(|it| pattern(&it.value)),
            condition: torque.condition.as_ref().map(|it| condition(it.value)),
            plus_drag: torque.plus_drag.is_some(),
            not_specified: torque.not_specified.is_some(),
            check: self.perhaps(torque.check.as_ref()),
            align,
        }
    }

    fn pass(&self, pass: &crate::model::torque::Pass) -> Pass {
        let amount = |quantity| Some(self.amount(quantity));
        let target = match &pass.target {
            PassTarget::Torque(it) => Pass { torque: amount(it), ..Pass::default() },
            PassTarget::Percent(it) => Pass { percent: Some(number(it.value())), ..Pass::default() },
            PassTarget::Angle(it) => Pass { angle: amount(it), ..Pass::default() },
            PassTarget::LoosenToFeel(it) => Pass { loosen_to_feel: Some(it.name()), ..Pass::default() },
            PassTarget::LoosenTo(it) => Pass { loosen_to: amount(it), ..Pass::default() },
            PassTarget::BackOff(it) => Pass { back_off: amount(it), ..Pass::default() },
            PassTarget::Feel(it) => Pass { feel: Some(it.name()), ..Pass::default() },
            PassTarget::Length(it) => Pass { stretch: amount(it), ..Pass::default() },
        };
        Pass {
            during: pass.during.as_ref().map(text),
            pattern: pass.pattern.as_ref().map(|it| pattern(&it.value)),
            ..target
        }
    }
}

fn pattern(pattern: &Pattern) -> String {
    match pattern {
        Pattern::Order(order) => numbers(order),
        other => other.written(),
    }
}

fn way(way: AlignWay) -> &'static str {
    match way {
        AlignWay::Tightening => "tightening",
        AlignWay::Loosening => "loosening",
        AlignWay::Either => "either",
        AlignWay::NeverMoved => "never moved",
        AlignWay::Unsaid => "unsaid",
    }
}
