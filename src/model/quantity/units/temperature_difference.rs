//! Rises and falls of temperature; base unit K, no offset: a rise of 18 °F is one of 10 °C.
use super::super::dimension::Dimension::TemperatureDifference;
use super::super::exact::ratio;
use super::super::unit::{Family::Imperial, Family::Metric, Unit};
use super::roots::ONE;

pub static UNITS: &[&Unit] = &[&KELVIN, &CELSIUS_DEGREE, &FAHRENHEIT_DEGREE];

pub static KELVIN: Unit = Unit::new("K", "K", TemperatureDifference, Metric, ONE)
    .spelled(&["kelvin", "kelvins"])
    .beside(&FAHRENHEIT_DEGREE);

/// Written `20 degC diff`, so that it cannot be taken for a point.
pub static CELSIUS_DEGREE: Unit = Unit::new("°C difference", "degC diff", TemperatureDifference, Metric, ONE)
    .spelled(&["degC difference", "°C diff", "deg C diff", "deg C difference"])
    .beside(&FAHRENHEIT_DEGREE);

pub static FAHRENHEIT_DEGREE: Unit =
    Unit::new("°F difference", "degF diff", TemperatureDifference, Imperial, ratio(5, 9))
        .spelled(&["degF difference", "°F diff", "deg F diff", "deg F difference"])
        .beside(&KELVIN);
