//! Typed quantities: an exact value, the author's digits, one closed table of units, conversion that never widens a limit.
//!
//! No grammar here: the caller hands over the slices that hold a number and a unit.
mod agreement;
mod conversion;
mod dimension;
pub(in crate::model) mod exact;
mod lookup;
mod number;
mod preferences;
mod print;
mod rounding;
mod unit;
pub mod units;
mod value;

pub use agreement::{Agreement, Landmark};
pub use conversion::ConversionError;
pub use dimension::Dimension;
pub use exact::{Exact, as_float};
pub use number::{Number, NumberError};
pub use preferences::{PreferenceError, UnitPreferences};
pub use print::Figures;
pub use unit::{Beside, Family, Unit, Waveform};
pub use value::{Form, Quantity, QuantityError};
