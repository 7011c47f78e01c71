//! Length; base unit m.
use super::super::dimension::Dimension::Length;
use super::super::exact::{over, ratio, times};
use super::super::unit::{Family::Imperial, Family::Metric, Unit};
use super::roots::{FOOT, INCH, ONE};

pub static UNITS: &[&Unit] =
    &[&MILLIMETRE, &INCH_UNIT, &METRE, &FOOT_UNIT, &CENTIMETRE, &MICROMETRE, &THOU, &MICROINCH, &YARD];

pub static MILLIMETRE: Unit = Unit::new("mm", "mm", Length, Metric, ratio(1, 1000))
    .spelled(&["MM", "millimetre", "millimetres", "millimeter", "millimeters"])
    .beside(&INCH_UNIT);

pub static INCH_UNIT: Unit = Unit::new("in", "in", Length, Imperial, INCH)
    .spelled(&["\"", "inch", "inches", "IN", "INCH"])
    .beside(&MILLIMETRE);

pub static METRE: Unit = Unit::new("m", "m", Length, Metric, ONE)
    .spelled(&["metre", "metres", "meter", "meters"])
    .beside(&FOOT_UNIT);

pub static FOOT_UNIT: Unit =
    Unit::new("ft", "ft", Length, Imperial, FOOT).spelled(&["foot", "feet", "FT"]).beside(&METRE);

pub static CENTIMETRE: Unit = Unit::new("cm", "cm", Length, Metric, ratio(1, 100))
    .spelled(&["centimetre", "centimetres", "centimeter", "centimeters"])
    .beside(&INCH_UNIT);

pub static MICROMETRE: Unit = Unit::new("µm", "um", Length, Metric, ratio(1, 1_000_000))
    .spelled(&["micron", "microns"])
    .beside(&INCH_UNIT);

/// A thousandth of an inch; `mil` is the same and no part of a millimetre.
pub static THOU: Unit = Unit::new("thou", "thou", Length, Imperial, over(INCH, ratio(1000, 1)))
    .spelled(&["mil", "mils"])
    .beside(&MILLIMETRE);

pub static MICROINCH: Unit = Unit::new("µin", "uin", Length, Imperial, over(INCH, ratio(1_000_000, 1)))
    .spelled(&["microinch"])
    .beside(&MICROMETRE);

pub static YARD: Unit = Unit::new("yd", "yd", Length, Imperial, times(FOOT, ratio(3, 1)))
    .spelled(&["yard", "yards"])
    .beside(&METRE);
