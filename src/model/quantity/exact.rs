//! Exact rational arithmetic: constants for the unit tables, checked operations for everything read from a file.
use num_integer::Integer;
use num_rational::Ratio;
use num_traits::{CheckedAdd, CheckedDiv, CheckedMul, CheckedSub};

/// An exact value, always in lowest terms with a positive denominator.
pub type Exact = Ratio<i128>;

/// `numerator / denominator` in lowest terms, for constants; both positive.
pub(super) const fn ratio(numerator: i128, denominator: i128) -> Exact {
    let (mut a, mut b) = (numerator, denominator);
    while b != 0 {
        (a, b) = (b, a % b);
    }
    Ratio::new_raw(numerator / a, denominator / a)
}

/// `a × b` for constants.
pub(super) const fn times(a: Exact, b: Exact) -> Exact {
    ratio(*a.numer() * *b.numer(), *a.denom() * *b.denom())
}

/// `a ÷ b` for constants.
pub(super) const fn over(a: Exact, b: Exact) -> Exact {
    ratio(*a.numer() * *b.denom(), *a.denom() * *b.numer())
}

pub(super) fn add(a: Exact, b: Exact) -> Option<Exact> {
    a.checked_add(&b)
}

pub(super) fn sub(a: Exact, b: Exact) -> Option<Exact> {
    a.checked_sub(&b)
}

pub(super) fn mul(a: Exact, b: Exact) -> Option<Exact> {
    a.checked_mul(&b)
}

/// `None` where `b` is zero too.
pub(super) fn div(a: Exact, b: Exact) -> Option<Exact> {
    if *b.numer() == 0 { None } else { a.checked_div(&b) }
}

/// The distance from zero; `None` only for the one value that has no opposite.
pub(super) fn magnitude(a: Exact) -> Option<Exact> {
    if *a.numer() < 0 { sub(Ratio::new_raw(0, 1), a) } else { Some(a) }
}

/// Ten to the power `places`; `None` past what an i128 holds.
pub(super) fn power_of_ten(places: u32) -> Option<i128> {
    10_i128.checked_pow(places)
}

/// The largest whole number not above `a`.
pub(super) fn floor(a: Exact) -> i128 {
    a.numer().div_floor(a.denom())
}
