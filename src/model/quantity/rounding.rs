//! Rounding in one step, from the exact value, on the decimal numeral.
use super::exact::{self, Exact};
use std::cmp::Ordering;

/// Which way the figures after the kept ones are dropped.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Direction {
    Down,
    Up,
    /// To the nearest, ties to the even figure: NIST SP 811 (2008) B.7.1.
    Nearest,
}

/// `value` rounded to `place` figures after the point; a negative place rounds to tens, hundreds. `None` on overflow.
pub(super) fn to_place(value: Exact, place: i32, direction: Direction) -> Option<Exact> {
    let scale = Exact::from_integer(exact::power_of_ten(place.unsigned_abs())?);
    let scaled = if place < 0 { exact::div(value, scale)? } else { exact::mul(value, scale)? };
    let whole = Exact::from_integer(to_whole(scaled, direction)?);
    if place < 0 { exact::mul(whole, scale) } else { exact::div(whole, scale) }
}

fn to_whole(value: Exact, direction: Direction) -> Option<i128> {
    let (below, rest) = exact::split(value);
    let up = match direction {
        Direction::Down => false,
        Direction::Up => rest > 0,
        Direction::Nearest => match rest.cmp(&(value.denom() - rest)) {
            Ordering::Less => false,
            Ordering::Equal => below % 2 != 0,
            Ordering::Greater => true,
        },
    };
    if up { below.checked_add(1) } else { Some(below) }
}

/// The fewest figures after the point whose last figure is worth no more than `worth` (above zero).
pub(super) fn place_worth(worth: Exact) -> i32 {
    let (whole, _) = exact::split(worth);
    if whole > 0 {
        return -i32::try_from(whole.ilog10()).unwrap_or(i32::MAX).min(15);
    }
    // What is too large to be held is above any denominator.
    let shifted = |place| exact::power_of_ten(place).and_then(|power| worth.numer().checked_mul(power));
    let reaches = |place: &u32| shifted(*place).is_none_or(|it| it >= *worth.denom());
    (1..24).find(reaches).map_or(24, u32::cast_signed)
}

/// The place at which `value` shows that many significant figures.
pub(super) fn place_of_figures(value: Exact, figures: u32) -> Option<i32> {
    let value = exact::magnitude(value)?;
    let leading = if *value.numer() == 0 { 0 } else { place_worth(value) };
    leading.checked_add(i32::try_from(figures.max(1)).ok()?.checked_sub(1)?)
}
