//! A quantity: what the author allows, in the author's unit.
use super::conversion::Kept;
use super::dimension::Dimension;
use super::exact::{self, Exact};
use super::number::Number;
use super::unit::Unit;
use super::units::length;
use crate::source::Span;
use std::sync::Arc;

/// What the author wrote about an amount, in the author's unit.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Form {
    /// `8 N.m`
    Exact(Number),
    /// `8 to 10 N.m`
    Between(Number, Number),
    /// `9 ± 1 N.m`, `500 +1/-0 N.m`; `plus` and `minus` are distances, neither below zero.
    Tolerance { nominal: Number, plus: Number, minus: Number },
    /// `max 0.5 mm`
    Max(Number),
    /// `min 22 mm`
    Min(Number),
    /// `none`: nothing at all is allowed, as of play.
    None,
    /// `new 2.0 mm, worn 1.6 mm`: what a new one has, and where it is worn out. The limit is a lower one where
    /// `worn` is below `new`, else an upper one.
    NewWorn { new: Number, worn: Number },
}

impl Form {
    /// Its numbers in the order they are written.
    pub fn numbers(&self) -> impl Iterator<Item = Number> + use<> {
        let (a, b, c) = match *self {
            Form::Exact(n) | Form::Max(n) | Form::Min(n) => (Some(n), None, None),
            Form::Between(low, high) => (Some(low), Some(high), None),
            Form::Tolerance { nominal, plus, minus } => (Some(nominal), Some(plus), Some(minus)),
            Form::None => (None, None, None),
            Form::NewWorn { new, worn } => (Some(new), Some(worn), None),
        };
        [a, b, c].into_iter().flatten()
    }

    /// The limits it sets, in its own unit. The outer `None` is an overflow.
    pub(super) fn limits(&self) -> Option<Limits> {
        let both = |low: Exact, high: Exact| Limits { lower: Some(low), upper: Some(high) };
        Some(match *self {
            Form::Exact(n) => both(n.value(), n.value()),
            Form::Between(low, high) => both(low.value(), high.value()),
            Form::Tolerance { nominal, plus, minus } => {
                both(exact::sub(nominal.value(), minus.value())?, exact::add(nominal.value(), plus.value())?)
            }
            Form::Max(n) => Limits { lower: None, upper: Some(n.value()) },
            Form::Min(n) => Limits { lower: Some(n.value()), upper: None },
            Form::None => both(Exact::from_integer(0), Exact::from_integer(0)),
            Form::NewWorn { new, worn } if worn.value() <= new.value() => {
                Limits { lower: Some(worn.value()), upper: None }
            }
            Form::NewWorn { worn, .. } => Limits { lower: None, upper: Some(worn.value()) },
        })
    }
}

/// A lower and an upper bound, either of which may be missing.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) struct Limits {
    pub lower: Option<Exact>,
    pub upper: Option<Exact>,
}

/// Why numbers and a unit make no quantity.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum QuantityError {
    /// Too large, or too finely divided, to be held exactly.
    TooLarge,
    /// `9 ± -1`
    NegativeTolerance,
}

impl std::fmt::Display for QuantityError {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.write_str(match self {
            QuantityError::TooLarge => "this quantity is too large to be held exactly",
            QuantityError::NegativeTolerance => "a tolerance is a distance and cannot be below zero",
        })
    }
}

impl std::error::Error for QuantityError {}

/// An amount with its unit, its limits already worked out. Small to hold and to clone.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Quantity(Arc<Amount>);

#[derive(Debug, Clone, PartialEq, Eq)]
struct Amount {
    form: Form,
    unit: &'static Unit,
    also: Option<Quantity>,
    span: Span,
    own: Limits,
    base: Limits,
    kept: Kept,
}

impl Quantity {
    /// A quantity of that form. A range the wrong way round is kept: see [`Quantity::is_empty_range`].
    ///
    /// # Errors
    /// Where the limits cannot be held exactly, or a tolerance is negative.
    pub fn new(form: Form, unit: &'static Unit, span: Span) -> Result<Quantity, QuantityError> {
        if let Form::Tolerance { plus, minus, .. } = form
            && (plus.is_negative() || minus.is_negative())
        {
            return Err(QuantityError::NegativeTolerance);
        }
        let own = form.limits().ok_or(QuantityError::TooLarge)?;
        let to_base = |limit: Option<Exact>| {
            limit.map(|value| in_base(value, unit).ok_or(QuantityError::TooLarge)).transpose()
        };
        let lower = to_base(own.lower)?;
        let upper = if matches!(form, Form::Exact(_)) { lower } else { to_base(own.upper)? };
        let base = Limits { lower, upper };
        Ok(Quantity(Arc::new(Amount { form, unit, also: None, span, own, base, kept: Kept::default() })))
    }

    /// `23 kg`, from a table or from settings: one number and its unit. `None` where it is no such thing.
    pub fn read(text: &str) -> Option<Quantity> {
        let (number, unit) = text.trim().split_once(' ')?;
        Quantity::new(Form::Exact(Number::parse(number).ok()?), Unit::find(unit)?, Span::default()).ok()
    }

    /// `none` written without a unit: no play, so a length of zero.
    pub fn none(span: Span) -> Quantity {
        let nothing = Limits { lower: Some(Exact::from_integer(0)), upper: Some(Exact::from_integer(0)) };
        Quantity(Arc::new(Amount {
            form: Form::None,
            unit: &length::MILLIMETRE,
            also: None,
            span,
            own: nothing,
            base: nothing,
            kept: Kept::default(),
        }))
    }

    /// With the same amount in the unit the author wrote beside it; the span grows to hold both.
    #[must_use]
    pub fn with_also(mut self, also: Quantity) -> Quantity {
        let amount = Arc::make_mut(&mut self.0);
        amount.span = amount.span.to(also.span());
        amount.also = Some(also);
        self
    }

    /// Whether one is a copy of the other, with the same place; two that only say the same are none.
    pub fn is_copy_of(&self, other: &Quantity) -> bool {
        Arc::ptr_eq(&self.0, &other.0)
    }

    /// The same where a lone number is the most that is allowed: in another unit it is rounded downwards.
    #[must_use]
    pub fn as_most(self) -> Quantity {
        let Form::Exact(number) = *self.form() else { return self };
        let most = Quantity::new(Form::Max(number), self.unit(), self.span());
        match (most, self.also()) {
            (Ok(most), Some(also)) => most.with_also(also.clone().as_most()),
            (Ok(most), None) => most,
            (Err(_), _) => self,
        }
    }

    pub fn form(&self) -> &Form {
        &self.0.form
    }

    pub fn unit(&self) -> &'static Unit {
        self.0.unit
    }

    /// The same amount as the author wrote it in a second unit.
    pub fn also(&self) -> Option<&Quantity> {
        self.0.also.as_ref()
    }

    pub fn span(&self) -> Span {
        self.0.span
    }

    pub fn dimension(&self) -> Dimension {
        self.0.unit.dimension
    }

    /// The least amount allowed, in the dimension's base unit.
    pub fn lower(&self) -> Option<Exact> {
        self.0.base.lower
    }

    /// The greatest amount allowed, in the dimension's base unit.
    pub fn upper(&self) -> Option<Exact> {
        self.0.base.upper
    }

    pub(super) fn kept(&self) -> &Kept {
        &self.0.kept
    }

    /// The least and the greatest amount allowed, in the author's unit.
    pub fn limits_in_own_unit(&self) -> (Option<Exact>, Option<Exact>) {
        (self.0.own.lower, self.0.own.upper)
    }

    pub(super) fn own_limits(&self) -> Limits {
        self.0.own
    }

    /// Whether an amount in the base unit is allowed.
    pub fn contains(&self, base: Exact) -> bool {
        self.lower().is_none_or(|low| low <= base) && self.upper().is_none_or(|high| base <= high)
    }

    /// Whether all that `other` allows is allowed here: a tool's scale covers a torque. Never across dimensions.
    pub fn covers(&self, other: &Quantity) -> bool {
        let above = self.lower().is_none_or(|low| other.lower().is_some_and(|theirs| low <= theirs));
        let below = self.upper().is_none_or(|high| other.upper().is_some_and(|theirs| theirs <= high));
        self.unit().comparable(other.unit()) && above && below
    }

    /// Whether it allows nothing: its limits stand the wrong way round, or worn is as good as new.
    pub fn is_empty_range(&self) -> bool {
        match self.0.form {
            Form::NewWorn { new, worn } => new.value() == worn.value(),
            Form::Exact(_) | Form::Max(_) | Form::Min(_) | Form::None => false,
            Form::Between(..) | Form::Tolerance { .. } => {
                matches!((self.lower(), self.upper()), (Some(low), Some(high)) if !exact::at_most(low, high))
            }
        }
    }

    /// The largest of its limits, without sign, in the base unit: what a choice by size goes by.
    pub(super) fn size(&self) -> Exact {
        let zero = Exact::from_integer(0);
        let sizes = [self.lower(), self.upper()].into_iter().flatten().filter_map(exact::magnitude);
        sizes.fold(zero, Exact::max)
    }
}

/// `value` of `unit` in the base unit.
fn in_base(value: Exact, unit: &Unit) -> Option<Exact> {
    let is_base = *unit.factor.numer() == 1 && *unit.factor.denom() == 1;
    let scaled = if is_base { value } else { exact::mul(value, unit.factor)? };
    exact::add(scaled, unit.offset)
}
