//! Voltage; base unit V, with AC and DC kept apart where the author says which.
use super::super::dimension::Dimension::Voltage;
use super::super::exact::{Exact, ratio};
use super::super::unit::{Family::Neutral, Unit, Waveform::Alternating, Waveform::Direct};
use super::roots::ONE;

pub static UNITS: &[&Unit] = &[
    &VOLT_DIRECT,
    &VOLT_ALTERNATING,
    &VOLT,
    &MILLIVOLT,
    &KILOVOLT,
    &MILLIVOLT_DIRECT,
    &MILLIVOLT_ALTERNATING,
    &KILOVOLT_DIRECT,
    &KILOVOLT_ALTERNATING,
];

const THOUSANDTH: Exact = ratio(1, 1000);
const THOUSAND: Exact = ratio(1000, 1);

pub static VOLT: Unit = Unit::new("V", "V", Voltage, Neutral, ONE).spelled(&["volt", "volts"]);

pub static VOLT_DIRECT: Unit = Unit::new("V DC", "V DC", Voltage, Neutral, ONE)
    .spelled(&["VDC", "Vdc", "V dc", "V d.c", "volts DC"])
    .of(Direct);

pub static VOLT_ALTERNATING: Unit = Unit::new("V AC", "V AC", Voltage, Neutral, ONE)
    .spelled(&["VAC", "Vac", "V ac", "V a.c", "volts AC"])
    .of(Alternating);

pub static MILLIVOLT: Unit =
    Unit::new("mV", "mV", Voltage, Neutral, THOUSANDTH).spelled(&["millivolt", "millivolts"]);

pub static MILLIVOLT_DIRECT: Unit =
    Unit::new("mV DC", "mV DC", Voltage, Neutral, THOUSANDTH).spelled(&["mVDC", "mV dc"]).of(Direct);

pub static MILLIVOLT_ALTERNATING: Unit =
    Unit::new("mV AC", "mV AC", Voltage, Neutral, THOUSANDTH).spelled(&["mVAC", "mV ac"]).of(Alternating);

pub static KILOVOLT: Unit =
    Unit::new("kV", "kV", Voltage, Neutral, THOUSAND).spelled(&["kilovolt", "kilovolts"]);

pub static KILOVOLT_DIRECT: Unit =
    Unit::new("kV DC", "kV DC", Voltage, Neutral, THOUSAND).spelled(&["kVDC", "kV dc"]).of(Direct);

pub static KILOVOLT_ALTERNATING: Unit =
    Unit::new("kV AC", "kV AC", Voltage, Neutral, THOUSAND).spelled(&["kVAC", "kV ac"]).of(Alternating);
