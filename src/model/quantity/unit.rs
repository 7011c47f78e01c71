//! One unit of measurement: a row of the closed table.
use super::dimension::Dimension;
use super::exact::{self, Exact};

/// The system a unit is at home in.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Family {
    Metric,
    Imperial,
    /// Used in both: degrees, volts, percent.
    Neutral,
}

/// Which voltage or current is meant; an amount of one never stands for an amount of the other.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Waveform {
    Alternating,
    Direct,
}

/// The unit printed beside an author's where no setting says another.
#[derive(Debug, Clone, Copy)]
pub enum Beside {
    Nothing,
    Always(&'static Unit),
    /// `small` where the largest limit is below `below` (in the dimension's base unit), else `large`.
    BySize {
        below: Exact,
        small: &'static Unit,
        large: &'static Unit,
    },
}

/// A row of the closed table in [`units`](super::units).
#[derive(Clone, Copy)]
pub struct Unit {
    /// As printed: "N·m".
    pub symbol: &'static str,
    /// As the formatter writes it in a source, with plain letters where the trade has them: "N.m".
    pub source: &'static str,
    /// Further spellings, with `.` for every joining mark; see [`Unit::find`].
    pub spellings: &'static [&'static str],
    pub dimension: Dimension,
    pub family: Family,
    /// Base units in one of this unit, exact.
    pub factor: Exact,
    /// The base value of zero of this unit; not zero for points of temperature only.
    pub offset: Exact,
    pub beside: Beside,
    /// Voltages and currents said to be AC or DC.
    pub waveform: Option<Waveform>,
    /// The symbol after a number that is not one, where it differs.
    pub plural: Option<&'static str>,
}

impl Unit {
    pub(super) const fn new(
        symbol: &'static str,
        source: &'static str,
        dimension: Dimension,
        family: Family,
        factor: Exact,
    ) -> Unit {
        Unit {
            symbol,
            source,
            spellings: &[],
            dimension,
            family,
            factor,
            offset: exact::ratio(0, 1),
            beside: Beside::Nothing,
            waveform: None,
            plural: None,
        }
    }

    pub(super) const fn spelled(mut self, spellings: &'static [&'static str]) -> Unit {
        self.spellings = spellings;
        self
    }

    pub(super) const fn beside(mut self, other: &'static Unit) -> Unit {
        self.beside = Beside::Always(other);
        self
    }

    pub(super) const fn by_size(mut self, below: Exact, small: &'static Unit, large: &'static Unit) -> Unit {
        self.beside = Beside::BySize { below, small, large };
        self
    }

    pub(super) const fn zero_at(mut self, offset: Exact) -> Unit {
        self.offset = offset;
        self
    }

    pub(super) const fn of(mut self, waveform: Waveform) -> Unit {
        self.waveform = Some(waveform);
        self
    }

    pub(super) const fn plural(mut self, plural: &'static str) -> Unit {
        self.plural = Some(plural);
        self
    }

    /// The units a bare number of that dimension most likely lacks, most used first.
    pub fn likely_for(dimension: Dimension) -> &'static [&'static Unit] {
        let units = dimension.units();
        units.get(..units.len().min(3)).unwrap_or(units)
    }

    /// Whether amounts of the two can be compared: same dimension, and not AC against DC.
    pub fn comparable(&self, other: &Unit) -> bool {
        let waves_differ =
            self.waveform.is_some() && other.waveform.is_some() && self.waveform != other.waveform;
        self.dimension == other.dimension && !waves_differ
    }

    /// Whether zero of this unit is a mark on a scale and not "nothing", as 0 °C is.
    pub fn is_point(&self) -> bool {
        self.dimension == Dimension::Temperature
    }

    /// Whether it measures temperature, by points or by differences.
    pub(super) fn is_degree(&self) -> bool {
        matches!(self.dimension, Dimension::Temperature | Dimension::TemperatureDifference)
    }
}

/// Rows are told apart by their symbol.
impl PartialEq for Unit {
    fn eq(&self, other: &Unit) -> bool {
        self.symbol == other.symbol
    }
}

impl Eq for Unit {}

/// The symbol only: rows name each other, so printing all of one would never end.
impl std::fmt::Debug for Unit {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        write!(f, "Unit({})", self.symbol)
    }
}
