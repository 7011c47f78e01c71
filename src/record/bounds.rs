//! Limits of a field, and on which side of them a typed value lies. Exact, as everything that is held against a limit.
use crate::model::quantity::{Exact, Form, Number, Quantity, Unit, as_float};
use crate::source::Span;
use serde::Serialize;

/// What a value may be, in the author's unit: decimal numbers, or fractions such as `1/3`; empty for no limit.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct Bounds {
    pub unit: String,
    pub low: String,
    pub high: String,
    /// As it is printed, in both units.
    pub shown: String,
}

/// Where a value lies.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Side {
    Below,
    Within,
    Above,
}

impl Bounds {
    /// The limits that a quantity sets.
    pub fn of(quantity: &Quantity, shown: String) -> Bounds {
        let text = |limit: Option<Exact>| limit.map(decimal).unwrap_or_default();
        let (low, high) = quantity.limits_in_own_unit();
        Bounds { unit: quantity.unit().symbol.to_owned(), low: text(low), high: text(high), shown }
    }

    /// Where the value typed in `unit` lies; `None` where it is no number, or of another kind.
    pub fn side(&self, typed: &str, unit: &str) -> Option<Side> {
        let (own, typed_in) = (Unit::find(&self.unit)?, Unit::find(unit)?);
        let number = Number::parse(&plain(typed)?).ok()?;
        if !own.comparable(typed_in) {
            return None;
        }
        let in_base =
            |number: Number, unit| Quantity::new(Form::Exact(number), unit, Span::default()).ok()?.lower();
        let limit = |text: &str| match text {
            "" => Some(None),
            text => in_base(Number::parse(text).ok()?, own).map(Some),
        };
        let (value, low, high) = (in_base(number, typed_in)?, limit(&self.low)?, limit(&self.high)?);
        if low == high && low.is_some_and(|set| own != typed_in && stands_for(number, typed_in, set)) {
            return Some(Side::Within);
        }
        Some(match () {
            () if low.is_some_and(|low| value < low) => Side::Below,
            () if high.is_some_and(|high| value > high) => Side::Above,
            () => Side::Within,
        })
    }
}

/// Whether a value that was typed in another unit than the set one stands for it: no number of that unit may meet it.
/// Half the last figure is allowed, and 3 % at the most: what the language allows two units of one value to differ.
fn stands_for(number: Number, unit: &'static Unit, set: Exact) -> bool {
    let places = number.decimal_places().unwrap_or(0);
    let Some(half) = 10_i128.checked_pow(places).and_then(|ten| ten.checked_mul(2)) else { return false };
    let Ok(half) = Number::parse(&decimal(Exact::new(1, half))) else { return false };
    let form = Form::Tolerance { nominal: number, plus: half, minus: half };
    let room = Quantity::new(form, unit, Span::default());
    let exact = Quantity::new(Form::Exact(number), unit, Span::default());
    let (Ok(room), Some(value)) = (room, exact.ok().and_then(|it| it.lower())) else { return false };
    let (value, whole) = (as_float(value), as_float(set));
    room.contains(set) && (value - whole).abs() <= MOST_OFF * whole.abs()
}

const MOST_OFF: f64 = 0.03;

/// A typed number with a point: figures, one point or comma with figures around it, a sign before it. `None` for all else.
pub fn plain(typed: &str) -> Option<String> {
    let typed = typed.trim().replace(',', ".").replace('\u{2212}', "-");
    let figures = typed.strip_prefix('-').unwrap_or(&typed);
    let (whole, parts) = figures.split_once('.').unwrap_or((figures, "0"));
    let fits =
        |part: &str, most| (1..=most).contains(&part.len()) && part.bytes().all(|byte| byte.is_ascii_digit());
    (fits(whole, MOST_WHOLE) && fits(parts, MOST_PARTS)).then_some(typed)
}

/// Figures before the point and after it that a field takes.
const MOST_WHOLE: usize = 9;
const MOST_PARTS: usize = 6;

/// Exactly: a decimal number where it ends, else a fraction.
pub fn decimal(value: Exact) -> String {
    let (numerator, denominator) = (*value.numer(), *value.denom());
    let ends = (0..=9_u32).find_map(|places| {
        let ten = 10_i128.checked_pow(places)?;
        (ten % denominator == 0).then_some((places, ten / denominator))
    });
    match ends.and_then(|(places, times)| Some((places, numerator.checked_mul(times)?))) {
        None => format!("{numerator}/{denominator}"),
        Some((0, whole)) => whole.to_string(),
        Some((places, whole)) => {
            let figures = format!("{:0>width$}", whole.unsigned_abs(), width = places as usize + 1);
            let (before, after) = figures.split_at(figures.len() - places as usize);
            format!("{}{before}.{after}", if whole < 0 { "-" } else { "" })
        }
    }
}
