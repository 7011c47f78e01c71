//! What a torque wrench shows, what it is set to with an adapter on it, and which one suits a torque.
use crate::model::declarations::Tool;
use crate::model::quantity::{Dimension, Exact, Quantity, as_float, exact};

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
    share(length.upper()?, reach(offset.upper()?, angle)?)
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

/// [`set_share`] of a wrench with all the adapters on it; 1 without one. `None` too where its lever is not known.
pub fn share_with<'a>(
    wrench: &Tool,
    adapters: impl Iterator<Item = &'a Tool>,
    angle: Option<&Quantity>,
) -> Option<Exact> {
    let mut offset = Exact::from_integer(0);
    for adapter in adapters.filter_map(|tool| tool.adapter.as_ref()) {
        offset = exact::add(offset, adapter.upper()?)?;
    }
    let reach = reach(offset, angle)?;
    if *reach.numer() == 0 {
        return Some(Exact::from_integer(1));
    }
    share(wrench.length.as_ref()?.upper()?, reach)
}

/// How much longer an adapter makes the lever.
fn reach(offset: Exact, angle: Option<&Quantity>) -> Option<Exact> {
    angle.map_or(Some(offset), |angle| exact::mul(offset, cosine(angle)?))
}

fn share(length: Exact, reach: Exact) -> Option<Exact> {
    let lever = exact::add(length, reach)?;
    (*lever.numer() > 0).then(|| exact::div(length, lever)).flatten()
}

/// To six places: far finer than a wrench is held to its angle.
fn cosine(angle: &Quantity) -> Option<Exact> {
    const PARTS: i128 = 1_000_000;
    let degrees = as_float(angle.upper()?);
    Some(exact::fraction((degrees.to_radians().cos() * PARTS as f64).round() as i128, PARTS))
}

/// What is aimed at, in base units: the middle of two limits, else the one there is.
pub fn aim(wanted: &Quantity) -> Option<Exact> {
    match (wanted.lower(), wanted.upper()) {
        (Some(low), Some(high)) if low != high => exact::div(exact::add(low, high)?, Exact::from_integer(2)),
        (low, high) => low.or(high),
    }
}

/// How a torque lies on the scale of a wrench.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Fit {
    Good,
    /// On the scale, but under a fifth of its end, where a wrench need not be true (ISO 6789-1).
    Low,
    Below,
    Above,
}

/// Where the middle of what is wanted lies once the wrench shows only `share` of it.
pub fn fit(scale: &Quantity, wanted: &Quantity, share: Exact) -> Fit {
    let aim = aim(wanted).and_then(|aim| exact::mul(aim, share));
    let (Some(aim), Some(end)) = (aim, scale.upper()) else { return Fit::Good };
    let below = |a: Exact, b: Exact| !exact::at_most(b, a);
    match scale.lower() {
        _ if below(end, aim) => Fit::Above,
        Some(start) if below(aim, start) => Fit::Below,
        _ if aim
            .numer()
            .checked_mul(5)
            .is_some_and(|five| below(Exact::new_raw(five, *aim.denom()), end)) =>
        {
            Fit::Low
        }
        _ => Fit::Good,
    }
}

/// The wrench that suits all of `wanted` best: none of them low on its scale, marked in the unit they are written in,
/// the last of them in the middle half of the scale, where a wrench is truest (TB 43-0218 table 3-1), and then the
/// smallest. `share` says what each would show of a torque. `None` where none covers them all.
pub fn best<'a>(
    tools: impl Iterator<Item = &'a Tool>,
    wanted: &[Quantity],
    share: impl Fn(&Tool) -> Option<Exact>,
) -> Option<&'a Tool> {
    let last = wanted.last()?;
    let merit = |tool: &Tool| {
        let (scale, share) = (scale(tool)?, share(tool)?);
        let worst = wanted.iter().map(|value| fit(scale, value, share)).max()?;
        let aim = as_float(exact::mul(aim(last)?, share)?);
        let (start, end) = (scale.lower().map_or(0.0, as_float), as_float(scale.upper()?));
        let off_middle = ((start + end) / 2.0 - aim).abs() > (end - start) / 4.0;
        (worst <= Fit::Low).then_some((worst, scale.unit() != last.unit(), off_middle, end))
    };
    let merits = tools.filter_map(|tool| Some((merit(tool)?, tool)));
    let best =
        merits.min_by(|(a, _), (b, _)| (a.0, a.1, a.2).cmp(&(b.0, b.1, b.2)).then(a.3.total_cmp(&b.3)));
    best.map(|(_, tool)| tool)
}
