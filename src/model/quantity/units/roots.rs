//! The exact definitions every other factor follows from (NIST SP 811 (2008), App. B): SI base units in one of each.
use super::super::exact::{Exact, over, ratio, times};

pub(super) const ONE: Exact = ratio(1, 1);
/// 1 in = 0.0254 m.
pub(super) const INCH: Exact = ratio(254, 10_000);
pub(super) const FOOT: Exact = times(INCH, ratio(12, 1));
/// 1 lb = 0.453 592 37 kg.
pub(super) const POUND: Exact = ratio(45_359_237, 100_000_000);
pub(super) const OUNCE: Exact = over(POUND, ratio(16, 1));
/// Standard acceleration of free fall, 9.806 65 m/s².
pub(super) const GRAVITY: Exact = ratio(980_665, 100_000);
/// N in 1 lbf.
pub(super) const POUND_FORCE: Exact = times(POUND, GRAVITY);
pub(super) const OUNCE_FORCE: Exact = times(OUNCE, GRAVITY);
/// m³ in 1 L.
pub(super) const LITRE: Exact = ratio(1, 1000);
pub(super) const CUBIC_INCH: Exact = times(INCH, times(INCH, INCH));
/// 1 US gal = 231 in³.
pub(super) const US_GALLON: Exact = times(CUBIC_INCH, ratio(231, 1));
/// 1 UK gal = 4.546 09 L.
pub(super) const UK_GALLON: Exact = ratio(454_609, 100_000_000);
