//! Tightening lists: torque items and `stage:` lines to passes in order.
use super::Resolver;
use super::quantities::Want;
use crate::model::declarations::{Condition, Name};
use crate::model::quantity::{Dimension, Quantity};
use crate::model::slip::Slip;
use crate::model::torque::{Align, AlignWay, Feel, Pass, PassTarget, Pattern, Torque};
use crate::source::{Span, Spanned, Text};
use crate::syntax::ast::{self, Attribute, Stage, StageKind, TorqueItem, TorqueItemKind, Value};

/// A fastener is tightened to a torque, through an angle, or until it has stretched.
const TIGHTNESS: Want<'static> = Want {
    dimensions: &[Dimension::Torque, Dimension::Angle, Dimension::Length],
    context: "how tight a fastener is",
};
/// After `then` an angle is the likeliest.
const FURTHER: Want<'static> =
    Want { dimensions: &[Dimension::Angle, Dimension::Torque, Dimension::Length], ..TIGHTNESS };
const TORQUE: Want<'static> = Want { dimensions: &[Dimension::Torque], context: "a torque" };
const ANGLE: Want<'static> = Want { dimensions: &[Dimension::Angle], context: "an angle to turn through" };

impl Resolver<'_> {
    /// The list that items and stages make together; `None` where there are neither.
    pub(super) fn torque(&mut self, items: &[TorqueItem], stages: &[Stage], span: Span) -> Option<Torque> {
        if items.is_empty() && stages.is_empty() {
            return None;
        }
        let mut torque = Torque { span, ..Torque::default() };
        let mut not_above = None;
        for item in items {
            if let TorqueItemKind::NotAbove(limit) = &item.kind {
                not_above = self.quantity(limit, TORQUE).map(|limit| (limit, item.span));
            } else {
                self.torque_item(&mut torque, item);
            }
        }
        for stage in stages {
            self.stage(&mut torque, stage);
        }
        self.limit_aligning(&mut torque, not_above);
        passes_of_percents(&mut torque);
        Some(torque)
    }

    fn torque_item(&mut self, torque: &mut Torque, item: &TorqueItem) {
        let span = item.span;
        match &item.kind {
            TorqueItemKind::Value(value) => {
                if let Some(quantity) = self.quantity(value, TIGHTNESS) {
                    push_value(torque, quantity, span);
                }
            }
            TorqueItemKind::Then(angle) => {
                if let Some(quantity) = self.quantity(angle, FURTHER) {
                    push_value(torque, quantity, span);
                }
            }
            TorqueItemKind::Check(least) => torque.check = self.quantity(least, TORQUE),
            TorqueItemKind::New(value) => torque.new = self.quantity(value, TORQUE),
            TorqueItemKind::Reused(value) => torque.reused = self.quantity(value, TORQUE),
            TorqueItemKind::Percents(amounts) => {
                for amount in amounts {
                    if let Some(number) = self.number(&amount.number) {
                        push(torque, PassTarget::Percent(number), amount.span);
                    }
                }
            }
            TorqueItemKind::PlusDrag => torque.plus_drag = Some(span),
            TorqueItemKind::Pattern(word) => torque.pattern = pattern(word).map(|p| Spanned::new(p, span)),
            TorqueItemKind::Order(order) => {
                torque.pattern = Some(Spanned::new(Pattern::Order(order.clone()), span));
            }
            TorqueItemKind::Condition(word) => {
                torque.condition = condition(word).map(|c| Spanned::new(c, span));
            }
            TorqueItemKind::Align { feature, way } => {
                torque.align =
                    Some(Align { span, feature: feature.clone(), way: align_way(way), not_above: None });
            }
            TorqueItemKind::NeverMoved => {
                let feature = Text::new("", span);
                torque.align = Some(Align { span, feature, way: AlignWay::NeverMoved, not_above: None });
            }
            TorqueItemKind::Feel(words) => match feel(words) {
                Some(feel) => push(torque, PassTarget::Feel(feel), span),
                None => torque.not_specified = Some(span),
            },
            // Held back by the caller: it belongs to `align`, which may follow it.
            TorqueItemKind::NotAbove(_) => {}
        }
    }

    fn limit_aligning(&mut self, torque: &mut Torque, limit: Option<(Quantity, Span)>) {
        match (&mut torque.align, limit) {
            (Some(align), Some((limit, _))) => align.not_above = Some(limit),
            (None, Some((_, span))) => {
                let verb = Text::new("not above".to_owned(), span);
                self.slip(Slip::UnusedRole { verb, span, given: "a limit without `align … by …`" });
            }
            (_, None) => {}
        }
    }

    fn stage(&mut self, torque: &mut Torque, stage: &Stage) {
        if let Some(during) = &stage.during {
            self.use_plain_words(during);
        }
        let target = match &stage.kind {
            StageKind::Value(value) => self.quantity(value, TIGHTNESS).map(|q| target_of(torque, q)),
            StageKind::Percent(amount) => self.number(&amount.number).map(PassTarget::Percent),
            StageKind::LoosenToFeel(words) => feel(words.as_str()).map(PassTarget::LoosenToFeel),
            StageKind::LoosenTo(value) => self.quantity(value, TORQUE).map(PassTarget::LoosenTo),
            StageKind::BackOff(value) => self.quantity(value, ANGLE).map(PassTarget::BackOff),
            StageKind::Feel(words) => {
                let feel = feel(words.as_str());
                if feel.is_none() {
                    torque.not_specified = Some(words.span);
                }
                feel.map(PassTarget::Feel)
            }
        };
        if let (None, Some(word)) = (torque.condition, &stage.condition) {
            torque.condition = condition(word.as_str()).map(|c| Spanned::new(c, word.span));
        }
        let pattern =
            stage.pattern.as_ref().and_then(|word| Some(Spanned::new(pattern(word.as_str())?, word.span)));
        if let Some(target) = target {
            torque.passes.push(Pass { target, during: stage.during.clone(), pattern, span: stage.span });
        }
    }

    /// `torque 8 to 10 N.m crosswise`, or `torque NAME`.
    pub(super) fn torque_attribute(&mut self, attribute: &Attribute) -> Option<Torque> {
        match attribute.values.as_slice() {
            [Value::Torque(items)] => self.torque(items, &[], attribute.span),
            [Value::Word(name)] => self.named_torque(name).map(|(_, torque)| torque),
            // A bare quantity reads as an ordinary value.
            [Value::Quantity(quantity)] => {
                let kind = TorqueItemKind::Value((**quantity).clone());
                self.torque(&[TorqueItem { kind, span: quantity.span }], &[], attribute.span)
            }
            _ => {
                let wanted = "torque 8 to 10 N.m crosswise".to_owned();
                self.slip(Slip::MalformedAttribute {
                    key: attribute.key.clone(),
                    span: attribute.span,
                    wanted,
                });
                None
            }
        }
    }

    /// The list of that name under `torques`.
    pub(super) fn named_torque(&mut self, name: &Text) -> Option<(u32, Torque)> {
        if let Some(found @ Name::Torque(id)) = self.find(name.as_str()) {
            self.touch(found);
            return self.declarations.torques.get(id as usize).map(|named| (id, named.torque.clone()));
        }
        self.dangling(name, "a tightening list");
        None
    }

    /// Quantities that a step's line gives to a verb that tightens.
    pub(super) fn as_item(quantity: &ast::Quantity) -> TorqueItem {
        TorqueItem { kind: TorqueItemKind::Value(quantity.clone()), span: quantity.span }
    }
}

/// Puts what a step says over what the list or the part says. A value of its own stands alone; how it is gone
/// about (pattern, condition, drag, aligning) stays unless the step says otherwise.
/// With `goes_on` the step only adds passes (`then 90 deg`) to those of the list.
pub(super) fn overlay(base: Torque, own: Torque, goes_on: bool) -> Torque {
    // A check tightens nothing, so nothing of the list goes with it.
    if own.is_check() {
        return own;
    }
    let own_value = own.value.is_some() || own.new.is_some() || own.reused.is_some();
    let own_passes = !own.passes.is_empty();
    let keep_values = goes_on || !own.says_how_tight();
    let own_not_specified = own.not_specified;
    let (value, new, reused) =
        if keep_values { (base.value, base.new, base.reused) } else { (own.value, own.new, own.reused) };
    Torque {
        passes: match (goes_on, own_passes || own_value) {
            (true, _) => base.passes.into_iter().chain(own.passes).collect(),
            (false, true) => own.passes,
            (false, false) => base.passes,
        },
        value,
        new,
        reused,
        pattern: own.pattern.or(base.pattern),
        condition: own.condition.or(base.condition),
        plus_drag: own.plus_drag.or(base.plus_drag),
        align: own.align.or(base.align),
        check: own.check.or(base.check),
        not_specified: own_not_specified.or(base.not_specified.filter(|_| !own_value && !own_passes)),
        span: own.span,
    }
}

/// Whether what the part says of tightness does not count beside it.
pub(super) fn stands_alone(torque: &Torque) -> bool {
    torque.says_how_tight() || torque.is_check()
}

fn is_percent(pass: &Pass) -> bool {
    matches!(pass.target, PassTarget::Percent(_))
}

/// Where passes are percents, the plain value is what they are of and no pass of its own.
fn passes_of_percents(torque: &mut Torque) {
    if torque.passes.iter().any(is_percent) {
        let value = torque.value.clone();
        torque.passes.retain(|pass| match &pass.target {
            PassTarget::Torque(quantity) => Some(quantity) != value.as_ref(),
            _ => true,
        });
    }
}

fn push_value(torque: &mut Torque, quantity: Quantity, span: Span) {
    let target = target_of(torque, quantity);
    push(torque, target, span);
}

fn push(torque: &mut Torque, target: PassTarget, span: Span) {
    torque.passes.push(Pass { target, during: None, pattern: None, span });
}

/// The pass a quantity makes; a torque becomes the value of the list too, the last one in force.
fn target_of(torque: &mut Torque, quantity: Quantity) -> PassTarget {
    match quantity.dimension() {
        Dimension::Angle => PassTarget::Angle(quantity),
        Dimension::Length => PassTarget::Length(quantity),
        _ => {
            torque.value = Some(quantity.clone());
            PassTarget::Torque(quantity)
        }
    }
}

fn pattern(word: &str) -> Option<Pattern> {
    let words: Vec<&str> = word.split_whitespace().collect();
    match words.as_slice() {
        ["crosswise"] => Some(Pattern::Crosswise),
        ["clockwise"] => Some(Pattern::Clockwise),
        ["from", "centre" | "center"] => Some(Pattern::FromCentre),
        ["from", "ends"] => Some(Pattern::FromEnds),
        ["order", rest @ ..] => {
            let order: Result<Vec<u32>, _> = rest.iter().map(|number| number.parse()).collect();
            order.ok().map(Pattern::Order)
        }
        _ => None,
    }
}

fn condition(word: &str) -> Option<Condition> {
    match word.trim() {
        "dry" => Some(Condition::Dry),
        "oiled" => Some(Condition::Oiled),
        "plated" => Some(Condition::Plated),
        _ => None,
    }
}

fn feel(words: &str) -> Option<Feel> {
    match words.split_whitespace().collect::<Vec<_>>().as_slice() {
        ["finger", "tight"] => Some(Feel::FingerTight),
        ["hand", "tight"] => Some(Feel::HandTight),
        ["snug"] => Some(Feel::Snug),
        _ => None,
    }
}

fn align_way(way: &str) -> AlignWay {
    match way.split_whitespace().next_back() {
        Some("tightening") => AlignWay::Tightening,
        Some("loosening") => AlignWay::Loosening,
        Some(_) => AlignWay::Either,
        None => AlignWay::Unsaid,
    }
}
