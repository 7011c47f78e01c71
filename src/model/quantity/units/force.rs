//! Force; base unit N. `lb` and `kg` alone are masses, so a force says lbf or kgf.
use super::super::dimension::Dimension::Force;
use super::super::exact::ratio;
use super::super::unit::{Family::Imperial, Family::Metric, Unit};
use super::roots::{GRAVITY, ONE, OUNCE_FORCE, POUND_FORCE};

pub static UNITS: &[&Unit] = &[&NEWTON, &POUND_FORCE_UNIT, &KILONEWTON, &KILOGRAM_FORCE, &OUNCE_FORCE_UNIT];

pub static NEWTON: Unit =
    Unit::new("N", "N", Force, Metric, ONE).spelled(&["newton", "newtons"]).beside(&POUND_FORCE_UNIT);

pub static POUND_FORCE_UNIT: Unit = Unit::new("lbf", "lbf", Force, Imperial, POUND_FORCE)
    .spelled(&["pound.force", "pounds.force", "LBF"])
    .beside(&NEWTON);

pub static KILONEWTON: Unit = Unit::new("kN", "kN", Force, Metric, ratio(1000, 1))
    .spelled(&["kilonewton", "kilonewtons"])
    .beside(&POUND_FORCE_UNIT);

pub static KILOGRAM_FORCE: Unit =
    Unit::new("kgf", "kgf", Force, Metric, GRAVITY).spelled(&["kp"]).beside(&NEWTON);

pub static OUNCE_FORCE_UNIT: Unit = Unit::new("ozf", "ozf", Force, Imperial, OUNCE_FORCE).beside(&NEWTON);
