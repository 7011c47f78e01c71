//! Whether an amount written in two units is the same amount.
use super::conversion::{ConversionError, Scale};
use super::dimension::Dimension;
use super::exact::{self, Exact};
use super::number::Number;
use super::value::{Form, Quantity};

/// Which of a quantity's numbers is meant.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Landmark {
    Value,
    Lower,
    Upper,
    New,
    Worn,
}

/// What comparing two ways of writing one amount gives.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Agreement {
    Agrees,
    /// The first number that does not; `expected` is the exact value of the first in the unit of the second.
    Disagrees {
        at: Landmark,
        expected: Exact,
        printed: String,
    },
    /// A torque beside a force, say.
    OtherDimension {
        first: Dimension,
        second: Dimension,
    },
    /// AC beside DC.
    OtherWaveform,
    /// A range beside a single value: there is nothing to compare number by number.
    OtherForm,
    /// Too large to compare exactly.
    TooLarge,
}

impl Quantity {
    /// Whether `other` is this amount in another unit. Each number must agree within 3 % or half the last printed
    /// figure of either, whichever is larger; points of temperature within 1 K in place of the 3 %.
    pub fn agrees_with(&self, other: &Quantity) -> Agreement {
        if self.dimension() != other.dimension() {
            return Agreement::OtherDimension { first: self.dimension(), second: other.dimension() };
        }
        let scale = match Scale::between(self.unit(), other.unit()) {
            Ok(scale) => scale,
            Err(ConversionError::NotComparable) => return Agreement::OtherWaveform,
            Err(_) => return Agreement::TooLarge,
        };
        compare(self, other, &scale).unwrap_or(Agreement::TooLarge)
    }
}

fn compare(first: &Quantity, second: &Quantity, scale: &Scale) -> Option<Agreement> {
    let (ours, theirs) = (landmarks(first)?, landmarks(second)?);
    let same_form = ours.iter().map(|mark| mark.0).eq(theirs.iter().map(|mark| mark.0));
    if !same_form {
        return Some(Agreement::OtherForm);
    }
    for ((at, value, figure), (_, written, their_figure)) in ours.into_iter().zip(theirs) {
        let expected = scale.apply(value)?;
        let apart = exact::magnitude(exact::sub(written, expected)?)?;
        let half = exact::ratio(1, 2);
        let last = exact::mul(exact::mul(figure, scale.factor)?.max(their_figure), half)?;
        if apart > last.max(share(second, expected)?) {
            let printed = nearest(expected, their_figure)?;
            return Some(Agreement::Disagrees { at, expected, printed });
        }
    }
    Some(Agreement::Agrees)
}

/// 3 % of the expected value; a share of a point of temperature has no meaning, so 1 K there.
fn share(quantity: &Quantity, expected: Exact) -> Option<Exact> {
    if quantity.unit().is_point() {
        exact::div(Exact::from_integer(1), quantity.unit().factor)
    } else {
        exact::mul(exact::magnitude(expected)?, exact::ratio(3, 100))
    }
}

/// The expected value with one figure more than the author gave, for a message.
fn nearest(expected: Exact, figure: Exact) -> Option<String> {
    let place = super::rounding::place_worth(figure).max(super::rounding::place_of_figures(expected, 3)?);
    Some(Number::rounded(expected, place, super::rounding::Direction::Nearest)?.to_string())
}

/// The numbers to compare, each with the worth of its last printed figure, in the quantity's own unit.
fn landmarks(quantity: &Quantity) -> Option<Vec<(Landmark, Exact, Exact)>> {
    let mark = |at, number: Number| (at, number.value(), number.meant_figure());
    Some(match *quantity.form() {
        Form::Exact(n) => vec![mark(Landmark::Value, n)],
        Form::Between(low, high) => vec![mark(Landmark::Lower, low), mark(Landmark::Upper, high)],
        Form::Max(n) => vec![mark(Landmark::Upper, n)],
        Form::Min(n) => vec![mark(Landmark::Lower, n)],
        Form::NewWorn { new, worn } => vec![mark(Landmark::New, new), mark(Landmark::Worn, worn)],
        Form::None => Vec::new(),
        Form::Tolerance { nominal, plus, minus } => {
            let figure = nominal.meant_figure().max(plus.last_figure()).max(minus.last_figure());
            let limits = quantity.own_limits();
            vec![(Landmark::Lower, limits.lower?, figure), (Landmark::Upper, limits.upper?, figure)]
        }
    })
}
