//! Rounding in one step, from the exact value, on the decimal numeral.
use super::exact::{self, Exact};

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
    let below = exact::floor(value);
    let rest = exact::sub(value, Exact::from_integer(below))?;
    let half = exact::ratio(1, 2);
    let up = match direction {
        Direction::Down => false,
        Direction::Up => *rest.numer() > 0,
        Direction::Nearest => rest > half || (rest == half && below % 2 != 0),
    };
    if up { below.checked_add(1) } else { Some(below) }
}

/// The fewest figures after the point whose last figure is worth no more than `worth` (above zero).
pub(super) fn place_worth(worth: Exact) -> i32 {
    (-15..=24).find(|&place| ten_to(-place).is_some_and(|step| step <= worth)).unwrap_or(24)
}

/// The place at which `value` shows that many significant figures.
pub(super) fn place_of_figures(value: Exact, figures: u32) -> Option<i32> {
    let value = exact::magnitude(value)?;
    let leading = if *value.numer() == 0 { 0 } else { place_worth(value) };
    leading.checked_add(i32::try_from(figures.max(1)).ok()?.checked_sub(1)?)
}

fn ten_to(power: i32) -> Option<Exact> {
    let ten = exact::power_of_ten(power.unsigned_abs())?;
    Some(if power < 0 { exact::ratio(1, ten) } else { Exact::from_integer(ten) })
}
