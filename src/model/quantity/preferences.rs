//! Which unit is printed beside the author's: a house setting for each dimension, else the unit table's own choice.
use std::collections::BTreeMap;

use serde::{Deserialize, Serialize};

use super::dimension::Dimension;
use super::unit::{Beside, Unit};
use super::value::{Form, Quantity};

/// The second unit a shop wants for each dimension. In settings: `torque = "lbf.ft"`, or `"none"` for no second unit.
#[derive(Debug, Clone, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(try_from = "BTreeMap<String, String>", into = "BTreeMap<String, String>")]
pub struct UnitPreferences {
    second: BTreeMap<Dimension, Option<&'static Unit>>,
}

/// Why a setting cannot be used.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum PreferenceError {
    UnknownDimension {
        written: String,
    },
    UnknownUnit {
        written: String,
        suggestions: Vec<&'static str>,
    },
    /// `length = "psi"`
    OtherDimension {
        wanted: Dimension,
        unit: &'static Unit,
    },
}

impl std::fmt::Display for PreferenceError {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        match self {
            PreferenceError::UnknownDimension { written } => {
                let names: Vec<&str> = Dimension::ALL.iter().map(|dimension| dimension.name()).collect();
                write!(f, "`{written}` is not a kind of quantity; there are {}", names.join(", "))
            }
            PreferenceError::UnknownUnit { written, suggestions } if suggestions.is_empty() => {
                write!(f, "`{written}` is not a unit")
            }
            PreferenceError::UnknownUnit { written, suggestions } => {
                write!(f, "`{written}` is not a unit; did you mean {}?", suggestions.join(" or "))
            }
            PreferenceError::OtherDimension { wanted, unit } => {
                write!(f, "{} is a unit of {}, not of {wanted}", unit.symbol, unit.dimension)
            }
        }
    }
}

impl std::error::Error for PreferenceError {}

impl UnitPreferences {
    /// Sets the second unit of a dimension from its name and a unit's spelling, or `none`.
    ///
    /// # Errors
    /// Where either is unknown or the unit measures something else; nothing is changed then.
    pub fn set(&mut self, dimension: &str, unit: &str) -> Result<(), PreferenceError> {
        let wanted = Dimension::named(dimension)
            .ok_or_else(|| PreferenceError::UnknownDimension { written: dimension.to_owned() })?;
        let chosen = if unit.trim() == "none" { None } else { Some(unit_of(wanted, unit)?) };
        self.second.insert(wanted, chosen);
        Ok(())
    }
}

fn unit_of(wanted: Dimension, written: &str) -> Result<&'static Unit, PreferenceError> {
    let unit = Unit::find(written).ok_or_else(|| PreferenceError::UnknownUnit {
        written: written.to_owned(),
        suggestions: Unit::suggest(written),
    })?;
    if unit.dimension == wanted { Ok(unit) } else { Err(PreferenceError::OtherDimension { wanted, unit }) }
}

impl TryFrom<BTreeMap<String, String>> for UnitPreferences {
    type Error = PreferenceError;

    fn try_from(settings: BTreeMap<String, String>) -> Result<UnitPreferences, PreferenceError> {
        let mut preferences = UnitPreferences::default();
        for (dimension, unit) in &settings {
            preferences.set(dimension, unit)?;
        }
        Ok(preferences)
    }
}

impl From<UnitPreferences> for BTreeMap<String, String> {
    fn from(preferences: UnitPreferences) -> BTreeMap<String, String> {
        let source = |unit: Option<&'static Unit>| unit.map_or("none", |unit| unit.source).to_owned();
        preferences
            .second
            .into_iter()
            .map(|(dimension, unit)| (dimension.name().replace(' ', "-"), source(unit)))
            .collect()
    }
}

impl Quantity {
    /// The unit to convert to for printing beside the author's; `None` where the author wrote both or `none`, the
    /// setting says so, the setting is the author's own unit, or the unit has no counterpart.
    pub fn counterpart(&self, preferences: &UnitPreferences) -> Option<&'static Unit> {
        if self.also().is_some() || *self.form() == Form::None {
            return None;
        }
        let chosen = match preferences.second.get(&self.dimension()) {
            Some(setting) => *setting,
            None => by_default(self),
        };
        chosen.filter(|&unit| unit != self.unit() && unit.comparable(self.unit()))
    }
}

fn by_default(quantity: &Quantity) -> Option<&'static Unit> {
    match quantity.unit().beside {
        Beside::Nothing => None,
        Beside::Always(unit) => Some(unit),
        Beside::BySize { below, small, large } => Some(if quantity.size() < below { small } else { large }),
    }
}
