//! What a quantity is an amount of.
use super::unit::Unit;
use super::units;

/// A kind of quantity. Two quantities meet only where theirs are the same: torque and energy never do, nor do a
/// temperature and a difference of temperatures.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Dimension {
    Torque,
    Angle,
    Length,
    Force,
    Mass,
    Pressure,
    Temperature,
    TemperatureDifference,
    Volume,
    Flow,
    Time,
    RotationalSpeed,
    Voltage,
    Current,
    Resistance,
    Power,
    Energy,
    /// A share of something, written in percent.
    Ratio,
}

impl Dimension {
    /// Every dimension, in the order of the handbook.
    pub const ALL: [Dimension; 18] = [
        Dimension::Torque,
        Dimension::Angle,
        Dimension::Length,
        Dimension::Force,
        Dimension::Mass,
        Dimension::Pressure,
        Dimension::Temperature,
        Dimension::TemperatureDifference,
        Dimension::Volume,
        Dimension::Flow,
        Dimension::Time,
        Dimension::RotationalSpeed,
        Dimension::Voltage,
        Dimension::Current,
        Dimension::Resistance,
        Dimension::Power,
        Dimension::Energy,
        Dimension::Ratio,
    ];

    /// The word a message uses: "torque", "temperature difference".
    pub fn name(self) -> &'static str {
        match self {
            Dimension::Torque => "torque",
            Dimension::Angle => "angle",
            Dimension::Length => "length",
            Dimension::Force => "force",
            Dimension::Mass => "mass",
            Dimension::Pressure => "pressure",
            Dimension::Temperature => "temperature",
            Dimension::TemperatureDifference => "temperature difference",
            Dimension::Volume => "volume",
            Dimension::Flow => "flow",
            Dimension::Time => "time",
            Dimension::RotationalSpeed => "rotational speed",
            Dimension::Voltage => "voltage",
            Dimension::Current => "current",
            Dimension::Resistance => "resistance",
            Dimension::Power => "power",
            Dimension::Energy => "energy",
            Dimension::Ratio => "ratio",
        }
    }

    /// The dimension of that name; words may be joined by hyphens, as in a settings file.
    pub fn named(name: &str) -> Option<Dimension> {
        let blanks = |byte: u8| if byte == b'-' { b' ' } else { byte };
        let written = name.trim().bytes().map(blanks);
        Dimension::ALL.into_iter().find(|dimension| written.clone().eq(dimension.name().bytes()))
    }

    /// Its units, the most used first.
    pub fn units(self) -> &'static [&'static Unit] {
        match self {
            Dimension::Torque => units::torque::UNITS,
            Dimension::Angle => units::angle::UNITS,
            Dimension::Length => units::length::UNITS,
            Dimension::Force => units::force::UNITS,
            Dimension::Mass => units::mass::UNITS,
            Dimension::Pressure => units::pressure::UNITS,
            Dimension::Temperature => units::temperature::UNITS,
            Dimension::TemperatureDifference => units::temperature_difference::UNITS,
            Dimension::Volume => units::volume::UNITS,
            Dimension::Flow => units::flow::UNITS,
            Dimension::Time => units::time::UNITS,
            Dimension::RotationalSpeed => units::rotational_speed::UNITS,
            Dimension::Voltage => units::voltage::UNITS,
            Dimension::Current => units::current::UNITS,
            Dimension::Resistance => units::resistance::UNITS,
            Dimension::Power => units::power::UNITS,
            Dimension::Energy => units::energy::UNITS,
            Dimension::Ratio => units::ratio::UNITS,
        }
    }
}

impl std::fmt::Display for Dimension {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.write_str(self.name())
    }
}
