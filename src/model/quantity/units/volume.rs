//! Volume; base unit m³.
use super::super::dimension::Dimension::Volume;
use super::super::exact::{over, ratio};
use super::super::unit::{Family::Imperial, Family::Metric, Unit};
use super::roots::{CUBIC_INCH, LITRE, ONE, UK_GALLON, US_GALLON};

pub static UNITS: &[&Unit] = &[
    &LITRE_UNIT,
    &MILLILITRE,
    &US_GALLON_UNIT,
    &US_QUART,
    &US_FLUID_OUNCE,
    &CUBIC_CENTIMETRE,
    &US_PINT,
    &CUBIC_INCH_UNIT,
    &CUBIC_METRE,
    &UK_GALLON_UNIT,
    &UK_PINT,
];

/// Below a litre a fluid ounce says more than a part of a gallon.
pub static LITRE_UNIT: Unit = Unit::new("L", "L", Volume, Metric, LITRE)
    .spelled(&["l", "litre", "litres", "liter", "liters"])
    .by_size(LITRE, &US_FLUID_OUNCE, &US_GALLON_UNIT);

pub static MILLILITRE: Unit = Unit::new("mL", "mL", Volume, Metric, over(LITRE, ratio(1000, 1)))
    .spelled(&["ml", "millilitre", "millilitres", "milliliter", "milliliters"])
    .beside(&US_FLUID_OUNCE);

/// A bare gallon, quart or pint is the US one.
pub static US_GALLON_UNIT: Unit = Unit::new("US gal", "US gal", Volume, Imperial, US_GALLON)
    .spelled(&["gal", "gallon", "gallons", "US gallon", "US gallons"])
    .beside(&LITRE_UNIT);

pub static US_QUART: Unit = Unit::new("US qt", "US qt", Volume, Imperial, over(US_GALLON, ratio(4, 1)))
    .spelled(&["qt", "qts", "quart", "quarts"])
    .beside(&LITRE_UNIT);

pub static US_FLUID_OUNCE: Unit =
    Unit::new("US fl oz", "fl oz", Volume, Imperial, over(US_GALLON, ratio(128, 1)))
        .spelled(&["fl.oz", "fluid ounce", "fluid ounces"])
        .beside(&MILLILITRE);

pub static CUBIC_CENTIMETRE: Unit = Unit::new("cm³", "cm3", Volume, Metric, over(LITRE, ratio(1000, 1)))
    .spelled(&["cc", "ccm"])
    .beside(&CUBIC_INCH_UNIT);

pub static US_PINT: Unit = Unit::new("US pt", "US pt", Volume, Imperial, over(US_GALLON, ratio(8, 1)))
    .spelled(&["pt", "pint", "pints"])
    .beside(&LITRE_UNIT);

pub static CUBIC_INCH_UNIT: Unit = Unit::new("in³", "in3", Volume, Imperial, CUBIC_INCH)
    .spelled(&["cu.in", "cu in"])
    .beside(&CUBIC_CENTIMETRE);

pub static CUBIC_METRE: Unit = Unit::new("m³", "m3", Volume, Metric, ONE).beside(&US_GALLON_UNIT);

pub static UK_GALLON_UNIT: Unit = Unit::new("UK gal", "UK gal", Volume, Imperial, UK_GALLON)
    .spelled(&["imp gal", "imp.gal", "UK gallon", "UK gallons"])
    .beside(&LITRE_UNIT);

pub static UK_PINT: Unit = Unit::new("UK pt", "UK pt", Volume, Imperial, over(UK_GALLON, ratio(8, 1)))
    .spelled(&["UK pint", "UK pints"])
    .beside(&LITRE_UNIT);
