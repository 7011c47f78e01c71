//! Conversion to another unit: limits inwards, single values to the nearest, figures by what the author's are worth.
//!
//! Limits are rounded towards each other so that the original ones are never violated (ASME A112.18.1-2018,
//! Annex A, A.2(e)); single values by NIST SP 811 (2008) B.7.1, to the figures of B.7.2.
use super::exact::{self, Exact};
use super::number::Number;
use super::rounding::{self, Direction};
use super::unit::Unit;
use super::value::{Form, Limits, Quantity};
use crate::source::Span;
use std::sync::OnceLock;

/// Why a quantity is not converted.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum ConversionError {
    /// Another dimension, or AC for DC.
    NotComparable,
    /// The limits stand the wrong way round.
    EmptyRange,
    /// The result cannot be held exactly.
    TooLarge,
}

impl std::fmt::Display for ConversionError {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.write_str(match self {
            ConversionError::NotComparable => "the units measure different things",
            ConversionError::EmptyRange => "the range is empty",
            ConversionError::TooLarge => "the result is too large to be held exactly",
        })
    }
}

impl std::error::Error for ConversionError {}

/// The conversion to the unit first asked for: sheets say most amounts more than once, in one and the same unit.
#[derive(Debug, Default)]
pub(super) struct Kept(OnceLock<(&'static Unit, Result<Quantity, ConversionError>)>);

/// A copy starts without.
impl Clone for Kept {
    fn clone(&self) -> Kept {
        Kept::default()
    }
}

/// What has been worked out makes no difference between amounts.
impl PartialEq for Kept {
    fn eq(&self, _: &Kept) -> bool {
        true
    }
}

impl Eq for Kept {}

/// Figures tried beyond the first choice before giving up.
const MORE_FIGURES: i32 = 12;

impl Quantity {
    /// In another unit, with as many figures as the author's are worth; more where fewer would give away over a
    /// fifth of a range or move a lone number by over 5 %. What comes back allows nothing this one does not.
    ///
    /// # Errors
    /// Where the units do not compare, the range is empty, or the numbers grow too large.
    pub fn converted(&self, unit: &'static Unit) -> Result<Quantity, ConversionError> {
        let (kept, converted) = self.kept().0.get_or_init(|| (unit, self.worked_out_in(unit)));
        if *kept == unit { converted.clone() } else { self.worked_out_in(unit) }
    }

    fn worked_out_in(&self, unit: &'static Unit) -> Result<Quantity, ConversionError> {
        let scale = Scale::between(self.unit(), unit)?;
        let finest = self.form().numbers().map(|number| number.meant_figure()).min();
        let figure = finest.unwrap_or(Exact::from_integer(1));
        let worth = exact::mul(figure, scale.factor).ok_or(ConversionError::TooLarge)?;
        let place = rounding::place_worth(worth);
        let same = || rounding::place_worth(figure);
        let whole = Some(unit).filter(|unit| unit.is_degree()).map(|_| same());
        let whole = whole.filter(|&same| same < place && self.lands_on(&scale, same));
        self.at_first_fitting(&scale, unit, whole.unwrap_or(place), true)
    }

    /// This amount times `factor` (above zero), in its own unit, its limits rounded inwards: what a torque wrench
    /// with an adapter is set to. No more figures than it needs.
    ///
    /// # Errors
    /// As [`Quantity::converted`]; a point of temperature has no multiple.
    pub fn scaled(&self, factor: Exact) -> Result<Quantity, ConversionError> {
        if self.unit().is_point() || *factor.numer() <= 0 {
            return Err(ConversionError::NotComparable);
        }
        let scale = Scale { factor, shift: Exact::from_integer(0) };
        let finest = self.form().numbers().map(|number| number.meant_figure()).min();
        let figure = finest.unwrap_or(Exact::from_integer(1));
        let worth = exact::mul(figure, factor).ok_or(ConversionError::TooLarge)?;
        let (same, place) = (rounding::place_worth(figure), rounding::place_worth(worth));
        let place = if same < place && self.lands_on(&scale, same) { same } else { place };
        self.at_first_fitting(&scale, self.unit(), place, true)
    }

    /// A lone value worked out elsewhere, given in the dimension's base unit, to that many significant figures.
    ///
    /// # Errors
    /// Where it cannot be held exactly.
    pub fn from_base(
        base: Exact,
        unit: &'static Unit,
        figures: u32,
        span: Span,
    ) -> Result<Quantity, ConversionError> {
        let number = || {
            let value = exact::div(exact::sub(base, unit.offset)?, unit.factor)?;
            Number::rounded(value, rounding::place_of_figures(value, figures)?, Direction::Nearest)
        };
        let form = Form::Exact(number().ok_or(ConversionError::TooLarge)?);
        Quantity::new(form, unit, span).map_err(|_| ConversionError::TooLarge)
    }

    /// Whether every limit has an exact numeral with that many figures: 212 °F is 100 °C, not 100.0 °C.
    fn lands_on(&self, scale: &Scale, place: i32) -> bool {
        let Limits { lower, upper } = self.own_limits();
        let lands = |value: Exact| {
            let exact = scale.apply(value)?;
            Some(rounding::to_place(exact, place, Direction::Down)? == exact)
        };
        [lower, upper].into_iter().flatten().all(|limit| lands(limit) == Some(true))
    }

    /// In another unit, with that many significant figures (of the smallest number that is not zero); more only
    /// where a range would collapse.
    ///
    /// # Errors
    /// As [`Quantity::converted`].
    pub fn converted_to_figures(
        &self,
        unit: &'static Unit,
        figures: u32,
    ) -> Result<Quantity, ConversionError> {
        let scale = Scale::between(self.unit(), unit)?;
        let Limits { lower, upper } = self.own_limits();
        let sizes =
            [lower, upper].into_iter().flatten().filter_map(|limit| exact::magnitude(scale.apply(limit)?));
        let smallest = sizes.filter(|size| *size.numer() > 0).min().unwrap_or(Exact::from_integer(1));
        let place = rounding::place_of_figures(smallest, figures).ok_or(ConversionError::TooLarge)?;
        self.at_first_fitting(&scale, unit, place, false)
    }

    fn at_first_fitting(
        &self,
        scale: &Scale,
        unit: &'static Unit,
        first: i32,
        faithful: bool,
    ) -> Result<Quantity, ConversionError> {
        if self.is_empty_range() {
            return Err(ConversionError::EmptyRange);
        }
        let rounding = Rounding { scale, faithful, point: unit.is_point() };
        let form = (first..=first.saturating_add(MORE_FIGURES))
            .find_map(|place| rounding.form(self, place))
            .ok_or(ConversionError::TooLarge)?;
        Quantity::new(form, unit, self.span()).map_err(|_| ConversionError::TooLarge)
    }
}

/// The straight line from one unit to another: `y = factor·x + shift`.
pub(super) struct Scale {
    pub factor: Exact,
    shift: Exact,
}

impl Scale {
    pub(super) fn between(from: &Unit, to: &Unit) -> Result<Scale, ConversionError> {
        if !from.comparable(to) {
            return Err(ConversionError::NotComparable);
        }
        let line = || {
            let factor = exact::div(from.factor, to.factor)?;
            let shift = exact::div(exact::sub(from.offset, to.offset)?, to.factor)?;
            Some(Scale { factor, shift })
        };
        line().ok_or(ConversionError::TooLarge)
    }

    pub(super) fn apply(&self, value: Exact) -> Option<Exact> {
        exact::add(exact::mul(value, self.factor)?, self.shift)
    }
}

/// One attempt at a conversion, to a given place.
struct Rounding<'a> {
    scale: &'a Scale,
    /// Whether figures are added until little is given away.
    faithful: bool,
    /// Whether a share of a lone value means nothing, as of 20 °C.
    point: bool,
}

impl Rounding<'_> {
    /// `None` where that place loses too much, or on overflow.
    fn form(&self, quantity: &Quantity, place: i32) -> Option<Form> {
        Some(match *quantity.form() {
            Form::None => Form::None,
            Form::Exact(n) => Form::Exact(self.lone(n.value(), place, Direction::Nearest)?),
            Form::Max(n) => Form::Max(self.lone(n.value(), place, Direction::Down)?),
            Form::Min(n) => Form::Min(self.lone(n.value(), place, Direction::Up)?),
            Form::NewWorn { new, worn } => self.new_and_worn(new, worn, place)?,
            Form::Between(low, high) => self.range(low.value(), high.value(), place)?,
            Form::Tolerance { nominal, plus, minus } if plus.value() == minus.value() => {
                let Limits { lower, upper } = quantity.own_limits();
                self.plus_minus(nominal.value(), lower?, upper?, place)
                    .or_else(|| self.range(lower?, upper?, place))?
            }
            Form::Tolerance { .. } => {
                let Limits { lower, upper } = quantity.own_limits();
                self.range(lower?, upper?, place)?
            }
        })
    }

    fn lone(&self, value: Exact, place: i32, direction: Direction) -> Option<Number> {
        let exact = self.scale.apply(value)?;
        let rounded = Number::rounded(exact, place, direction)?;
        let moved = exact::magnitude(exact::sub(rounded.value(), exact)?)?;
        let allowed = exact::mul(exact::magnitude(exact)?, exact::ratio(1, 20))?;
        (!self.faithful || self.point || exact::at_most(moved, allowed)).then_some(rounded)
    }

    fn range(&self, low: Exact, high: Exact, place: i32) -> Option<Form> {
        if low == high {
            return Some(Form::Exact(self.lone(low, place, Direction::Nearest)?));
        }
        let (low, high) = (self.scale.apply(low)?, self.scale.apply(high)?);
        let inner_low = Number::rounded(low, place, Direction::Up)?;
        let inner_high = Number::rounded(high, place, Direction::Down)?;
        let kept = exact::sub(inner_high.value(), inner_low.value())?;
        self.keeps(kept, exact::sub(high, low)?).then_some(Form::Between(inner_low, inner_high))
    }

    /// As ± where the rounded middle and distance stay inside the limits without giving away much.
    fn plus_minus(&self, nominal: Exact, low: Exact, high: Exact, place: i32) -> Option<Form> {
        let (low, high) = (self.scale.apply(low)?, self.scale.apply(high)?);
        let middle = Number::rounded(self.scale.apply(nominal)?, place, Direction::Nearest)?;
        let room = exact::sub(middle.value(), low)?.min(exact::sub(high, middle.value())?);
        let distance = Number::rounded(room, place, Direction::Down)?;
        let kept = exact::mul(distance.value(), Exact::from_integer(2))?;
        let form = Form::Tolerance { nominal: middle, plus: distance, minus: distance };
        (*distance.value().numer() > 0 && self.keeps(kept, exact::sub(high, low)?)).then_some(form)
    }

    fn new_and_worn(&self, new: Number, worn: Number, place: i32) -> Option<Form> {
        let inwards = if worn.value() < new.value() { Direction::Up } else { Direction::Down };
        let rounded_new = self.lone(new.value(), place, Direction::Nearest)?;
        let rounded_worn = self.lone(worn.value(), place, inwards)?;
        let same_side = (rounded_worn.value() < rounded_new.value()) == (worn.value() < new.value());
        let apart = rounded_worn.value() != rounded_new.value();
        (same_side && apart).then_some(Form::NewWorn { new: rounded_new, worn: rounded_worn })
    }

    /// Whether a range rounded inwards is still one: never collapsed and, if asked, at least four fifths as wide.
    fn keeps(&self, kept: Exact, whole: Exact) -> bool {
        let enough =
            || exact::mul(whole, exact::ratio(4, 5)).is_some_and(|least| exact::at_most(least, kept));
        *kept.numer() > 0 && (!self.faithful || enough())
    }
}
