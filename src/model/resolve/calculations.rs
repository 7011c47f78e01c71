//! `calculate`: readings looked up, dimensions compared.
use super::Resolver;
use super::control::Phrases;
use super::quantities::Want;
use crate::model::action::{Action, Calculate, Expression, Work};
use crate::model::quantity::{Dimension, Form, Number, Quantity};
use crate::model::slip::Slip;
use crate::source::{Span, Text};
use crate::syntax::ast::{self, Amount};
use compact_str::CompactString;
use std::collections::HashMap;

/// Terms a calculation may nest; a longer one is no workshop sum.
const DEEPEST: u32 = 100;

/// What earlier readings measured, as far as their limits tell.
#[derive(Debug, Default)]
pub(super) struct Readings {
    dimensions: HashMap<CompactString, Dimension>,
}

/// What a part of an expression is an amount of.
#[derive(Debug, Clone, Copy, PartialEq)]
enum Kind {
    Unknown,
    /// Without a unit.
    Plain,
    Of(Dimension),
}

impl Resolver<'_> {
    /// Notes what a labelled reading measures.
    pub(super) fn remember_reading(&mut self, work: &Work) {
        let Some(quantity) = work.quantity.as_ref().filter(|_| work.verb.finds) else { return };
        // `none` has no unit, so that it tells nothing.
        if *quantity.form() == Form::None {
            return;
        }
        for label in &work.labels {
            self.readings.dimensions.insert(label.value.clone(), quantity.dimension());
        }
    }

    pub(super) fn calculate(&mut self, written: &ast::Action, calculation: &ast::Calculation) -> Action {
        let mut phrases = Phrases::of(written);
        let text = phrases.text();
        let _labels = phrases.labels();
        self.left_over(written, &phrases);
        let (expression, kind) = self.expression(&calculation.expression, written.span, 0);
        let limits = calculation.limits.as_ref().and_then(|limits| {
            let found = match kind {
                Kind::Of(dimension) => vec![dimension],
                _ => Vec::new(),
            };
            self.quantity(limits, Want { dimensions: &found, context: "the limits of this calculation" })
        });
        let result = limits.as_ref().map(Quantity::dimension).or(match kind {
            Kind::Of(dimension) => Some(dimension),
            _ => None,
        });
        if let Some(dimension) = result {
            self.readings.dimensions.insert(calculation.name.value.clone(), dimension);
        }
        let (name, span) = (calculation.name.clone(), written.span);
        Action::Calculate(Box::new(Calculate { name, expression, limits, text, span }))
    }

    fn expression(&mut self, written: &ast::Expression, within: Span, depth: u32) -> (Expression, Kind) {
        match written {
            ast::Expression::Reading(label) => {
                let jump = self.jump(label, "an earlier reading");
                let kind = self.readings.dimensions.get(label.as_str());
                let kind = kind.map_or(Kind::Unknown, |&dimension| Kind::Of(dimension));
                (Expression::Reading { label: label.clone(), step: jump.step }, kind)
            }
            ast::Expression::Amount(amount) => self.operand(amount),
            ast::Expression::Binary { .. } if depth > DEEPEST => {
                self.unusable(within, "this calculation has too many terms");
                (unknown(within), Kind::Unknown)
            }
            ast::Expression::Binary { operator, left, right, span } => {
                let (left, first) = self.expression(left, within, depth + 1);
                let (right, second) = self.expression(right, within, depth + 1);
                let kind = self.combine(*operator, first, second, *span);
                let operator = *operator;
                (Expression::Binary { operator, left: Box::new(left), right: Box::new(right) }, kind)
            }
        }
    }

    fn operand(&mut self, amount: &Amount) -> (Expression, Kind) {
        if amount.unit.is_none() {
            return match self.number(&amount.number) {
                Some(number) => (Expression::Number(number), Kind::Plain),
                None => (unknown(amount.span), Kind::Unknown),
            };
        }
        let form = ast::QuantityForm::Exact(amount.clone());
        let written = ast::Quantity { form, also: None, span: amount.span };
        match self.quantity(&written, Want::ANYTHING) {
            Some(quantity) => {
                let kind = Kind::Of(quantity.dimension());
                (Expression::Quantity(quantity), kind)
            }
            None => (unknown(amount.span), Kind::Unknown),
        }
    }

    /// Only like is added to like.
    fn combine(&mut self, operator: char, first: Kind, second: Kind, span: Span) -> Kind {
        match (operator, first, second) {
            (_, Kind::Unknown, _) | (_, _, Kind::Unknown) => Kind::Unknown,
            ('+' | '-', Kind::Of(a), Kind::Of(b)) if alike(a, b) => Kind::Of(a),
            ('+' | '-', Kind::Plain, Kind::Plain) => Kind::Plain,
            ('+' | '-', Kind::Of(a), Kind::Of(b)) => {
                let context = "this sum".to_owned();
                self.slip(Slip::WrongDimension { span, found: b, expected: vec![a], context });
                Kind::Unknown
            }
            ('+' | '-', Kind::Of(known), Kind::Plain) | ('+' | '-', Kind::Plain, Kind::Of(known)) => {
                let number = Text::new(self.source.slice(span), span);
                let likely = crate::model::quantity::Unit::likely_for(known);
                let likely = likely.iter().map(|unit| unit.source.to_owned()).collect();
                self.slip(Slip::MissingUnit { number, likely });
                Kind::Unknown
            }
            ('/', Kind::Of(a), Kind::Of(b)) if a == b => Kind::Plain,
            ('*', kind, Kind::Plain) | ('*', Kind::Plain, kind) | ('/', kind, Kind::Plain) => kind,
            _ => Kind::Unknown,
        }
    }
}

fn alike(a: Dimension, b: Dimension) -> bool {
    let heat = |d| matches!(d, Dimension::Temperature | Dimension::TemperatureDifference);
    a == b || (heat(a) && heat(b))
}

/// Stands for what could not be read.
fn unknown(span: Span) -> Expression {
    match Number::parse("0") {
        Ok(zero) => Expression::Number(zero),
        Err(_) => Expression::Reading { label: Text::new("", span), step: None },
    }
}
