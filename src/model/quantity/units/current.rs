//! Electric current; base unit A, with AC and DC kept apart where the author says which.
use super::super::dimension::Dimension::Current;
use super::super::exact::ratio;
use super::super::unit::{Family::Neutral, Unit, Waveform::Alternating, Waveform::Direct};
use super::roots::ONE;

pub static UNITS: &[&Unit] = &[&AMPERE, &MILLIAMPERE, &AMPERE_DIRECT, &AMPERE_ALTERNATING, &MICROAMPERE];

pub static AMPERE: Unit =
    Unit::new("A", "A", Current, Neutral, ONE).spelled(&["amp", "amps", "ampere", "amperes"]);

pub static MILLIAMPERE: Unit =
    Unit::new("mA", "mA", Current, Neutral, ratio(1, 1000)).spelled(&["milliamp", "milliamps"]);

pub static AMPERE_DIRECT: Unit =
    Unit::new("A DC", "A DC", Current, Neutral, ONE).spelled(&["ADC", "A dc"]).of(Direct);

pub static AMPERE_ALTERNATING: Unit =
    Unit::new("A AC", "A AC", Current, Neutral, ONE).spelled(&["AAC", "A ac"]).of(Alternating);

pub static MICROAMPERE: Unit = Unit::new("µA", "uA", Current, Neutral, ratio(1, 1_000_000));
