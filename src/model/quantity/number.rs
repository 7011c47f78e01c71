//! A number as the author wrote it: exact value and printed digits.
use super::exact::{self, Exact};
use super::rounding::{self, Direction};

/// Digits before and after the point; within them no calculation of this module overflows on ordinary units.
const MAX_WHOLE: usize = 12;
const MAX_DECIMALS: usize = 9;
/// Digits of either side of a fraction.
const MAX_FRACTION: usize = 4;
/// Fractions of a unit stand for a graduation of at least this fineness.
const GRADUATION: i128 = 64;

/// An exact number that prints as it was written.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub struct Number {
    value: Exact,
    shape: Shape,
}

#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
enum Shape {
    /// With that many figures after the point.
    Decimal { places: u8 },
    /// `1 7/16`; `whole` is 0 in `7/16`.
    Fraction { whole: i64, numerator: u16, denominator: u16 },
}

/// Why a text is not a number.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum NumberError {
    Empty,
    /// `8..10`, `abc`, `1e5`, `5.`
    NotANumber,
    /// `1,500`, `1 500`: write 1500.
    ThousandsSeparator,
    /// `1,5`: write 1.5.
    DecimalComma,
    ZeroDenominator,
    /// `1 9/8`: the fraction of a mixed number must be below one.
    ImproperFraction,
    /// More than 12 figures before the point, 9 after it, or 4 in a fraction.
    TooLong,
}

impl std::fmt::Display for NumberError {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.write_str(match self {
            NumberError::Empty => "there is no number",
            NumberError::NotANumber => "this is not a number",
            NumberError::ThousandsSeparator => "a number is written without thousands separators",
            NumberError::DecimalComma => "decimals are written with a point",
            NumberError::ZeroDenominator => "a fraction cannot be over zero",
            NumberError::ImproperFraction => "the fraction of a mixed number must be below one",
            NumberError::TooLong => "a number has at most 12 figures before the point and 9 after it",
        })
    }
}

impl std::error::Error for NumberError {}

impl Number {
    /// Reads `8`, `0.50`, `.5`, `-5`, `1/2`, `1 7/16`, `1-7/16`.
    ///
    /// # Errors
    /// Says in which way the text is not a number; nothing is guessed.
    pub fn parse(text: &str) -> Result<Number, NumberError> {
        if let Some(number) = plain(text) {
            return Ok(number);
        }
        let text = text.trim();
        let minus = text.strip_prefix(['-', '\u{2212}']);
        let number = unsigned(minus.unwrap_or(text))?;
        Ok(if minus.is_some() { number.negated() } else { number })
    }

    /// A whole number of at most 12 digits; `None` past that.
    pub fn whole(value: i64) -> Option<Number> {
        (value.unsigned_abs() < 1_000_000_000_000).then(|| Number {
            value: Exact::from_integer(i128::from(value)),
            shape: Shape::Decimal { places: 0 },
        })
    }

    /// `value` rounded once to `place` figures after the point (negative: to tens, hundreds). `None` on overflow.
    pub(super) fn rounded(value: Exact, place: i32, direction: Direction) -> Option<Number> {
        let value = rounding::to_place(value, place, direction)?;
        Some(Number { value, shape: Shape::Decimal { places: u8::try_from(place).unwrap_or(0) } })
    }

    /// The exact value, in whatever unit stands behind it.
    pub fn value(&self) -> Exact {
        self.value
    }

    /// Figures after the point; `None` for a fraction.
    pub fn decimal_places(&self) -> Option<u32> {
        match self.shape {
            Shape::Decimal { places } => Some(u32::from(places)),
            Shape::Fraction { .. } => None,
        }
    }

    /// Significant figures as printed: 3 for `0.500`, 1 for `8`. `None` for a fraction.
    pub fn significant_figures(&self) -> Option<u32> {
        self.decimal_places()?;
        let printed = self.to_string();
        let digits = printed.chars().filter(char::is_ascii_digit).skip_while(|&digit| digit == '0').count();
        u32::try_from(digits.max(1)).ok()
    }

    /// The worth of the last printed figure: 0.01 for `0.50`, 1 for `8`. A fraction counts as read off a scale
    /// of 64ths, or finer where its own denominator is.
    pub fn last_figure(&self) -> Exact {
        match self.shape {
            Shape::Decimal { places } => {
                Exact::new_raw(1, exact::power_of_ten(u32::from(places)).unwrap_or(i128::MAX))
            }
            Shape::Fraction { denominator, .. } => Exact::new_raw(1, i128::from(denominator).max(GRADUATION)),
        }
    }

    /// [`Number::last_figure`], except that the zeros which end a whole number past its third figure only hold
    /// its place: 100 for `12000`.
    pub(super) fn meant_figure(&self) -> Exact {
        let mut figure = self.last_figure();
        if self.decimal_places() != Some(0) {
            return figure;
        }
        let mut digits = self.value.numer().unsigned_abs();
        while digits >= 1000 && digits.is_multiple_of(10) {
            digits /= 10;
            figure *= Exact::from_integer(10);
        }
        figure
    }

    fn negated(self) -> Number {
        Number { value: -self.value, shape: self.shape }
    }

    /// Whether it stands below zero.
    pub fn is_negative(&self) -> bool {
        *self.value.numer() < 0
    }
}

impl Number {
    /// As written, with a real minus sign.
    pub(super) fn print_to(&self, out: &mut String, decimal: char) {
        out.push_str(if self.is_negative() { "\u{2212}" } else { "" });
        match self.shape {
            Shape::Fraction { whole, numerator, denominator } => {
                if whole != 0 {
                    digits_to(out, u128::from(whole.unsigned_abs()), 1);
                    out.push(' ');
                }
                digits_to(out, u128::from(numerator), 1);
                out.push('/');
                digits_to(out, u128::from(denominator), 1);
            }
            Shape::Decimal { places } => {
                let scale = exact::power_of_ten(u32::from(places)).unwrap_or(1);
                let digits = self.value.numer().saturating_mul(scale / self.value.denom()).unsigned_abs();
                let scale = scale.unsigned_abs();
                // Nearly all fit into 64 bits, where a division is many times as fast.
                let (whole, rest) = match (u64::try_from(digits), u64::try_from(scale)) {
                    (Ok(digits), Ok(scale)) => ((digits / scale).into(), (digits % scale).into()),
                    _ => (digits / scale, digits % scale),
                };
                digits_to(out, whole, 1);
                if places > 0 {
                    out.push(decimal);
                    digits_to(out, rest, places);
                }
            }
        }
    }
}

/// The figures of a whole number, with zeros before them up to `least`.
fn digits_to(out: &mut String, value: u128, least: u8) {
    if let Ok(small) = u64::try_from(value) {
        return small_digits_to(out, small, least);
    }
    digits_to(out, value / 10, least.saturating_sub(1));
    let last = u8::try_from(value % 10).unwrap_or(0);
    out.push(char::from(b'0' + last));
}

fn small_digits_to(out: &mut String, value: u64, least: u8) {
    if value >= 10 || least > 1 {
        small_digits_to(out, value / 10, least.saturating_sub(1));
    }
    let last = u8::try_from(value % 10).unwrap_or(0);
    out.push(char::from(b'0' + last));
}

impl std::fmt::Display for Number {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        let mut text = String::new();
        self.print_to(&mut text, '.');
        f.write_str(&text)
    }
}

/// `8`, `20.05`: figures, perhaps a point and more, as nearly every number is written.
fn plain(text: &str) -> Option<Number> {
    let mut digits = 0_u64;
    let mut point = None;
    for (at, byte) in text.bytes().enumerate() {
        match byte {
            // Past what is allowed it may as well overflow.
            b'0'..=b'9' => digits = digits.wrapping_mul(10).wrapping_add(u64::from(byte - b'0')),
            b'.' if point.is_none() => point = Some(at),
            _ => return None,
        }
    }
    let whole = point.unwrap_or(text.len());
    let places = point.map_or(0, |point| text.len() - point - 1);
    let allowed =
        (1..=MAX_WHOLE).contains(&whole) && places <= MAX_DECIMALS && (places > 0 || point.is_none());
    let fits = allowed && whole + places <= 19;
    let shape = Shape::Decimal { places: u8::try_from(places).ok().filter(|_| fits)? };
    let scale = 10_u64.pow(u32::try_from(places).ok()?);
    let value = if digits.is_multiple_of(scale) {
        Exact::from_integer(i128::from(digits / scale))
    } else {
        exact::fraction(i128::from(digits), i128::from(scale))
    };
    Some(Number { value, shape })
}

fn unsigned(text: &str) -> Result<Number, NumberError> {
    if text.is_empty() {
        Err(NumberError::Empty)
    } else if text.bytes().all(|byte| byte.is_ascii_digit() || byte == b'.') {
        decimal(text)
    } else if text.contains(',') {
        Err(comma(text))
    } else if text.contains('/') {
        fraction(text)
    } else if text.contains([' ', '\u{a0}', '\u{202f}', '\'']) {
        Err(separated(text, [' ', '\u{a0}', '\u{202f}', '\'']))
    } else {
        decimal(text)
    }
}

fn comma(text: &str) -> NumberError {
    match separated(text, [',']) {
        NumberError::NotANumber if text.matches(',').count() == 1 && all_digits(&text.replace(',', "")) => {
            NumberError::DecimalComma
        }
        other => other,
    }
}

/// Groups of three figures are a thousands separator; anything else is no number.
fn separated<const N: usize>(text: &str, marks: [char; N]) -> NumberError {
    let whole = text.split('.').next().unwrap_or("");
    let mut groups = whole.split(marks);
    let first = groups.next().is_some_and(|group| all_digits(group) && group.len() <= 3);
    let mut others = 0;
    let grouped =
        first && groups.all(|group| (group.len() == 3 && all_digits(group)).then(|| others += 1).is_some());
    if grouped && others > 0 { NumberError::ThousandsSeparator } else { NumberError::NotANumber }
}

fn decimal(text: &str) -> Result<Number, NumberError> {
    let (whole, decimals) = match text.split_once('.') {
        Some((_, "")) => return Err(NumberError::NotANumber),
        Some(("", decimals)) => ("0", decimals),
        Some(parts) => parts,
        None => (text, ""),
    };
    let whole: u64 = digits(whole, MAX_WHOLE)?;
    let fraction: u64 = if decimals.is_empty() { 0 } else { digits(decimals, MAX_DECIMALS)? };
    let places = u8::try_from(decimals.len()).map_err(|_| NumberError::TooLong)?;
    let shape = Shape::Decimal { places };
    if fraction == 0 {
        return Ok(Number { value: Exact::from_integer(i128::from(whole)), shape });
    }
    let scale = exact::power_of_ten(u32::from(places)).ok_or(NumberError::TooLong)?;
    Ok(Number { value: exact::fraction(i128::from(whole) * scale + i128::from(fraction), scale), shape })
}

fn fraction(text: &str) -> Result<Number, NumberError> {
    let (front, denominator) = text.split_once('/').ok_or(NumberError::NotANumber)?;
    let denominator: u16 = digits(denominator.trim(), MAX_FRACTION)?;
    let front = front.trim();
    let (whole, numerator): (i64, u16) = match front.rsplit_once([' ', '-', '\u{a0}']) {
        Some((whole, numerator)) => (digits(whole.trim(), MAX_WHOLE)?, digits(numerator, MAX_FRACTION)?),
        None => (0, digits(front, MAX_FRACTION)?),
    };
    if denominator == 0 {
        return Err(NumberError::ZeroDenominator);
    }
    if whole > 0 && numerator >= denominator {
        return Err(NumberError::ImproperFraction);
    }
    let parts = i128::from(whole) * i128::from(denominator) + i128::from(numerator);
    let value = exact::ratio(parts, i128::from(denominator));
    Ok(Number { value, shape: Shape::Fraction { whole, numerator, denominator } })
}

fn digits<T: std::str::FromStr>(text: &str, most: usize) -> Result<T, NumberError> {
    if !all_digits(text) {
        return Err(NumberError::NotANumber);
    }
    if text.len() > most {
        return Err(NumberError::TooLong);
    }
    text.parse().map_err(|_| NumberError::TooLong)
}

fn all_digits(text: &str) -> bool {
    !text.is_empty() && text.bytes().all(|byte| byte.is_ascii_digit())
}
