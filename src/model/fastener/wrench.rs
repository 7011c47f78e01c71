//! What a torque wrench shows, and what it is set to with an adapter on it.
use crate::model::declarations::Tool;
use crate::model::quantity::{Dimension, Exact, Quantity, exact};

/// The torques the tool can show; `None` where it is no torque wrench.
pub fn scale(tool: &Tool) -> Option<&Quantity> {
    tool.range.as_ref().filter(|range| range.dimension() == Dimension::Torque)
}

/// The share of the torque at the fastener that the wrench shows: L / (L + E·cos α), where L is the wrench's
/// lever, E the adapter's offset, and α the angle between them: 0° straight on, 90° no correction, 180° turned
/// back (TM 1-1500-204-23-9 par. 8; the angle: TM 9-254 fig. 46). Without an angle it is straight on.
///
/// `None` where nothing of the lever is left, or the numbers grow too large.
pub fn set_share(length: &Quantity, offset: &Quantity, angle: Option<&Quantity>) -> Option<Exact> {
    let length = length.upper()?;
    let reach = exact::mul(offset.upper()?, angle.map_or(Some(Exact::from_integer(1)), cosine)?)?;
    let lever = exact::add(length, reach)?;
    (*lever.numer() > 0).then(|| exact::div(length, lever)).flatten()
}

/// What the wrench is set to, so that the fastener gets `wanted`: limits rounded inwards.
pub fn set_value(
    wanted: &Quantity,
    length: &Quantity,
    offset: &Quantity,
    angle: Option<&Quantity>,
) -> Option<Quantity> {
    wanted.scaled(set_share(length, offset, angle)?).ok()
}

/// To six places: far finer than a wrench is held to its angle.
fn cosine(angle: &Quantity) -> Option<Exact> {
    const PARTS: i128 = 1_000_000;
    let turn = angle.upper()?;
    let degrees = exact::as_float(turn);
    Some(exact::fraction((degrees.to_radians().cos() * PARTS as f64).round() as i128, PARTS))
}
