//! Flow of a volume; base unit m³/s.
use super::super::dimension::Dimension::Flow;
use super::super::exact::{over, ratio, times};
use super::super::unit::{Family::Imperial, Family::Metric, Unit};
use super::roots::{FOOT, LITRE, UK_GALLON, US_GALLON};

pub static UNITS: &[&Unit] = &[
    &LITRE_PER_MINUTE,
    &US_GALLON_PER_MINUTE,
    &MILLILITRE_PER_MINUTE,
    &CUBIC_METRE_PER_HOUR,
    &CUBIC_FOOT_PER_MINUTE,
    &UK_GALLON_PER_MINUTE,
];

pub static LITRE_PER_MINUTE: Unit = Unit::new("L/min", "L/min", Flow, Metric, over(LITRE, ratio(60, 1)))
    .spelled(&["l/min", "lpm", "LPM"])
    .beside(&US_GALLON_PER_MINUTE);

pub static US_GALLON_PER_MINUTE: Unit =
    Unit::new("US gal/min", "gpm", Flow, Imperial, over(US_GALLON, ratio(60, 1)))
        .spelled(&["GPM", "gal/min", "US gpm"])
        .beside(&LITRE_PER_MINUTE);

pub static MILLILITRE_PER_MINUTE: Unit =
    Unit::new("mL/min", "mL/min", Flow, Metric, over(LITRE, ratio(60_000, 1)))
        .spelled(&["ml/min", "cc/min", "cm3/min"])
        .beside(&US_GALLON_PER_MINUTE);

pub static CUBIC_METRE_PER_HOUR: Unit =
    Unit::new("m³/h", "m3/h", Flow, Metric, ratio(1, 3600)).spelled(&["m3/hr"]).beside(&US_GALLON_PER_MINUTE);

pub static CUBIC_FOOT_PER_MINUTE: Unit =
    Unit::new("ft³/min", "cfm", Flow, Imperial, over(times(FOOT, times(FOOT, FOOT)), ratio(60, 1)))
        .spelled(&["CFM", "ft3/min"])
        .beside(&LITRE_PER_MINUTE);

pub static UK_GALLON_PER_MINUTE: Unit =
    Unit::new("UK gal/min", "UK gal/min", Flow, Imperial, over(UK_GALLON, ratio(60, 1)))
        .spelled(&["UK gpm"])
        .beside(&LITRE_PER_MINUTE);
