//! Points of temperature; base unit K. A rise or fall is a [temperature difference](super::temperature_difference).
use super::super::dimension::Dimension::Temperature;
use super::super::exact::{ratio, times};
use super::super::unit::{Family::Imperial, Family::Metric, Unit};
use super::roots::ONE;

pub static UNITS: &[&Unit] = &[&CELSIUS, &FAHRENHEIT];

/// Kelvins in one degree Fahrenheit.
const FAHRENHEIT_DEGREE: crate::model::quantity::Exact = ratio(5, 9);

pub static CELSIUS: Unit = Unit::new("°C", "degC", Temperature, Metric, ONE)
    .spelled(&["deg C", "° C", "℃", "degree C", "degrees C", "celsius", "Celsius"])
    .zero_at(ratio(27_315, 100))
    .beside(&FAHRENHEIT);

pub static FAHRENHEIT: Unit = Unit::new("°F", "degF", Temperature, Imperial, FAHRENHEIT_DEGREE)
    .spelled(&["deg F", "° F", "℉", "degree F", "degrees F", "fahrenheit", "Fahrenheit"])
    .zero_at(times(ratio(45_967, 100), FAHRENHEIT_DEGREE))
    .beside(&CELSIUS);
