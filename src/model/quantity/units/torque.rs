//! Torque; base unit N·m. Never energy, though J is N·m by name.
use super::super::dimension::Dimension::Torque;
use super::super::exact::{over, ratio, times};
use super::super::unit::{Family::Imperial, Family::Metric, Unit};
use super::roots::{FOOT, GRAVITY, INCH, ONE, OUNCE_FORCE, POUND_FORCE};

pub static UNITS: &[&Unit] = &[
    &NEWTON_METRE,
    &POUND_FORCE_FOOT,
    &POUND_FORCE_INCH,
    &KILOGRAM_FORCE_METRE,
    &KILOGRAM_FORCE_CENTIMETRE,
    &OUNCE_FORCE_INCH,
    &KILONEWTON_METRE,
    &NEWTON_CENTIMETRE,
];

/// lbf·in beside torques below 14 N·m, about 10 lbf·ft: common practice, no source.
pub static NEWTON_METRE: Unit = Unit::new("N·m", "N.m", Torque, Metric, ONE)
    .spelled(&["Nm", "N m", "newton metre", "newton metres", "newton meter", "newton meters"])
    .by_size(ratio(14, 1), &POUND_FORCE_INCH, &POUND_FORCE_FOOT);

pub static POUND_FORCE_FOOT: Unit = Unit::new("lbf·ft", "lbf.ft", Torque, Imperial, times(POUND_FORCE, FOOT))
    .spelled(&[
        "ft.lb",
        "ft.lbs",
        "lb.ft",
        "lbs.ft",
        "ft.lbf",
        "lbft",
        "ftlb",
        "FT.LB",
        "LB.FT",
        "FT.LBS",
        "foot.pound",
        "foot.pounds",
        "foot pounds",
        "pound.foot",
        "pound.feet",
        "pound feet",
    ])
    .beside(&NEWTON_METRE);

pub static POUND_FORCE_INCH: Unit = Unit::new("lbf·in", "lbf.in", Torque, Imperial, times(POUND_FORCE, INCH))
    .spelled(&[
        "in.lb",
        "in.lbs",
        "lb.in",
        "lbs.in",
        "in.lbf",
        "lbin",
        "inlb",
        "IN.LB",
        "LB.IN",
        "IN.LBS",
        "inch.pound",
        "inch.pounds",
        "inch pounds",
        "pound.inch",
        "pound.inches",
        "pound inches",
    ])
    .beside(&NEWTON_METRE);

pub static KILOGRAM_FORCE_METRE: Unit = Unit::new("kgf·m", "kgf.m", Torque, Metric, GRAVITY)
    .spelled(&["kg.m", "m.kgf", "m.kg", "mkg", "kgm"])
    .beside(&NEWTON_METRE);

pub static KILOGRAM_FORCE_CENTIMETRE: Unit =
    Unit::new("kgf·cm", "kgf.cm", Torque, Metric, over(GRAVITY, ratio(100, 1)))
        .spelled(&["kg.cm", "cm.kgf", "cm.kg"])
        .beside(&NEWTON_METRE);

pub static OUNCE_FORCE_INCH: Unit = Unit::new("ozf·in", "ozf.in", Torque, Imperial, times(OUNCE_FORCE, INCH))
    .spelled(&["oz.in", "in.oz", "in.ozf", "ounce.inch", "ounce.inches"])
    .beside(&NEWTON_METRE);

pub static KILONEWTON_METRE: Unit =
    Unit::new("kN·m", "kN.m", Torque, Metric, ratio(1000, 1)).spelled(&["kNm"]).beside(&POUND_FORCE_FOOT);

pub static NEWTON_CENTIMETRE: Unit =
    Unit::new("N·cm", "N.cm", Torque, Metric, ratio(1, 100)).spelled(&["Ncm"]).beside(&POUND_FORCE_INCH);
