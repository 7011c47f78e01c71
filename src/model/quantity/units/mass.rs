//! Mass; base unit kg.
use super::super::dimension::Dimension::Mass;
use super::super::exact::ratio;
use super::super::unit::{Family::Imperial, Family::Metric, Unit};
use super::roots::{ONE, OUNCE, POUND};

pub static UNITS: &[&Unit] = &[&KILOGRAM, &POUND_UNIT, &GRAM, &OUNCE_UNIT, &TONNE, &MILLIGRAM];

pub static KILOGRAM: Unit =
    Unit::new("kg", "kg", Mass, Metric, ONE).spelled(&["kilogram", "kilograms", "KG"]).beside(&POUND_UNIT);

pub static POUND_UNIT: Unit = Unit::new("lb", "lb", Mass, Imperial, POUND)
    .spelled(&["lbs", "pound", "pounds", "LB", "LBS"])
    .beside(&KILOGRAM);

pub static GRAM: Unit =
    Unit::new("g", "g", Mass, Metric, ratio(1, 1000)).spelled(&["gram", "grams"]).beside(&OUNCE_UNIT);

pub static OUNCE_UNIT: Unit =
    Unit::new("oz", "oz", Mass, Imperial, OUNCE).spelled(&["ounce", "ounces", "OZ"]).beside(&GRAM);

/// The metric tonne, 1000 kg; a bare "ton" may be any of three and is not read.
pub static TONNE: Unit =
    Unit::new("t", "t", Mass, Metric, ratio(1000, 1)).spelled(&["tonne", "tonnes"]).beside(&POUND_UNIT);

pub static MILLIGRAM: Unit =
    Unit::new("mg", "mg", Mass, Metric, ratio(1, 1_000_000)).spelled(&["milligram", "milligrams"]);
