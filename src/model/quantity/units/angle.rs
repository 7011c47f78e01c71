//! Plane angle; base unit the degree.
use super::super::dimension::Dimension::Angle;
use super::super::exact::{over, ratio};
use super::super::unit::{Family::Neutral, Unit};
use super::roots::ONE;

pub static UNITS: &[&Unit] = &[&DEGREE, &TURN, &REVOLUTION, &RADIAN, &ARC_MINUTE];

/// Written `90°` or `90 deg`; as fasteners are turned, a fraction of a turn is as common.
pub static DEGREE: Unit = Unit::new("°", "deg", Angle, Neutral, ONE).spelled(&["degree", "degrees", "DEG"]);

pub static TURN: Unit = Unit::new("turn", "turn", Angle, Neutral, ratio(360, 1))
    .spelled(&["turns", "TURN", "TURNS"])
    .plural("turns");

pub static REVOLUTION: Unit =
    Unit::new("rev", "rev", Angle, Neutral, ratio(360, 1)).spelled(&["revs", "revolution", "revolutions"]);

/// The one factor that no fraction holds: 245 850 922 / 78 256 779 is π to 17 figures.
pub static RADIAN: Unit =
    Unit::new("rad", "rad", Angle, Neutral, over(ratio(180, 1), ratio(245_850_922, 78_256_779)))
        .spelled(&["radian", "radians"]);

pub static ARC_MINUTE: Unit =
    Unit::new("arcmin", "arcmin", Angle, Neutral, ratio(1, 60)).spelled(&["′", "arc minute", "arc minutes"]);
