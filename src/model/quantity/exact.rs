//! Exact rational arithmetic: constants for the unit tables, checked operations for everything read from a file.
use num_integer::Integer;
use num_rational::Ratio;

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

pub(in crate::model) fn add(a: Exact, b: Exact) -> Option<Exact> {
    if *b.numer() == 0 {
        return Some(a);
    }
    let shared = gcd(*a.denom(), *b.denom());
    let (of_a, of_b) = (parts(*b.denom(), shared), parts(*a.denom(), shared));
    let numerator = a.numer().checked_mul(of_a)?.checked_add(b.numer().checked_mul(of_b)?)?;
    let denominator = a.denom().checked_mul(of_a)?;
    let common = gcd(numerator, denominator);
    Some(Ratio::new_raw(parts(numerator, common), parts(denominator, common)))
}

pub(super) fn sub(a: Exact, b: Exact) -> Option<Exact> {
    add(a, Ratio::new_raw(b.numer().checked_neg()?, *b.denom()))
}

/// Both are in lowest terms: what is divided out crosswise first need not be looked for in the product.
pub(in crate::model) fn mul(a: Exact, b: Exact) -> Option<Exact> {
    if *b.numer() == *b.denom() {
        return Some(a);
    }
    let (down, up) = (gcd(*a.numer(), *b.denom()), gcd(*b.numer(), *a.denom()));
    let numerator = parts(*a.numer(), down).checked_mul(parts(*b.numer(), up))?;
    let denominator = parts(*a.denom(), up).checked_mul(parts(*b.denom(), down))?;
    Some(Ratio::new_raw(numerator, denominator))
}

/// `None` where `b` is zero too.
pub(in crate::model) fn div(a: Exact, b: Exact) -> Option<Exact> {
    let (numerator, denominator) = (*b.numer(), *b.denom());
    match numerator.signum() {
        0 => None,
        1 => mul(a, Ratio::new_raw(denominator, numerator)),
        _ => mul(a, Ratio::new_raw(denominator.checked_neg()?, numerator.checked_neg()?)),
    }
}

/// Nearly all that is met at a bench fits into 64 bits, where the search is ten times as fast.
fn gcd(a: i128, b: i128) -> i128 {
    if a == 1 || b == 1 {
        return 1;
    }
    match (u64::try_from(a.unsigned_abs()), u64::try_from(b.unsigned_abs())) {
        (Ok(a), Ok(b)) => i128::from(a.gcd(&b)),
        _ => a.gcd(&b),
    }
}

fn parts(whole: i128, size: i128) -> i128 {
    if size == 1 { whole } else { whole / size }
}

/// `numerator / denominator` in lowest terms; `denominator` is above zero.
pub(in crate::model) fn fraction(numerator: i128, denominator: i128) -> Exact {
    let common = gcd(numerator, denominator);
    Ratio::new_raw(parts(numerator, common), parts(denominator, common))
}

/// The distance from zero; `None` only for the one value that has no opposite.
pub(super) fn magnitude(a: Exact) -> Option<Exact> {
    Some(Ratio::new_raw(a.numer().checked_abs()?, *a.denom()))
}

/// The nearest machine number: for what is only an estimate, or a sine.
pub fn as_float(value: Exact) -> f64 {
    *value.numer() as f64 / *value.denom() as f64
}

/// Ten to the power `places`; `None` past what an i128 holds.
pub(super) fn power_of_ten(places: u32) -> Option<i128> {
    match places {
        0..=19 => Some(i128::from(10_u64.pow(places))),
        _ => 10_i128.checked_pow(places),
    }
}

/// `a ≤ b`, without the divisions of a general comparison.
pub(in crate::model) fn at_most(a: Exact, b: Exact) -> bool {
    match (a.numer().checked_mul(*b.denom()), b.numer().checked_mul(*a.denom())) {
        (Some(left), Some(right)) => left <= right,
        _ => a <= b,
    }
}

/// The largest whole number not above `a`, and how many parts of its denominator are left.
pub(super) fn split(a: Exact) -> (i128, i128) {
    match (u64::try_from(*a.numer()), u64::try_from(*a.denom())) {
        (Ok(numerator), Ok(denominator)) => {
            (i128::from(numerator / denominator), i128::from(numerator % denominator))
        }
        _ => a.numer().div_mod_floor(a.denom()),
    }
}
