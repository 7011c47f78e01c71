//! What a torque does to a fastener: preload by `T = K·d·F` over the friction its thread may have, and whether
//! that can be meant.
//!
//! Torsion while the wrench turns is left out, which is to the torque's favour.
use super::friction::{Friction, Surface, friction};
use super::strength::{STRONGEST, Strength};
use super::thread::Thread;
use crate::model::quantity::{Quantity, Unit, as_float, units};

/// Past this share of the proof load, at the usual friction, no published torque was found to go (the highest, of
/// AC 43.13-1B table 7-1, is 1.24): another unit is looked for.
const SLIP_ABOVE: f64 = 1.5;
/// Under this share, even at the least friction, another unit is looked for.
const SLIP_BELOW: f64 = 0.10;
/// Under this share, even at the least friction, a joint works loose. Published torques, those for thin shear nuts
/// among them, stay above it. Common practice, no source.
const LOW: f64 = 0.20;
/// Shares, at the usual friction, that a torque in its right unit has.
const FITS: std::ops::RangeInclusive<f64> = 0.19..=1.25;
/// The same where no class is stated and the strongest stands for it.
const FITS_STRONGEST: std::ops::RangeInclusive<f64> = 0.08..=1.0;

/// A fastener as far as a torque goes.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Fastener {
    pub thread: Thread,
    /// `None`: not stated.
    pub strength: Option<Strength>,
    /// `None`: not stated.
    pub surface: Option<Surface>,
}

/// Of a range of torques: the least at the roughest thread, the usual, the greatest at the smoothest. In N, or as
/// shares of a load.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Spread {
    pub least: f64,
    pub usual: f64,
    pub most: f64,
}

impl Spread {
    fn over(self, load: f64) -> Spread {
        Spread { least: self.least / load, usual: self.usual / load, most: self.most / load }
    }
}

/// A torque held against a fastener.
#[derive(Debug, Clone, PartialEq)]
pub struct Judgement {
    pub fastener: Fastener,
    /// N.
    pub preload: Spread,
    /// Shares of the proof load, where the class is known.
    pub shares: Option<Spread>,
    pub verdict: Verdict,
}

#[derive(Debug, Clone, PartialEq)]
pub enum Verdict {
    Holds,
    /// Past the proof load at the usual friction, but not for certain past yield.
    High,
    /// Past yield even at the least torque and the greatest friction.
    Yields,
    /// Clamps next to nothing even at the greatest torque and the least friction.
    Low,
    /// Fits only in one of these units.
    OtherUnit(Vec<&'static Unit>),
    /// The class is not known, and no class stands against it.
    Unknown,
}

impl Verdict {
    /// Whether the torque cannot be used as it is.
    pub fn is_bad(&self) -> bool {
        matches!(self, Verdict::Yields | Verdict::Low | Verdict::OtherUnit(_))
    }
}

impl Fastener {
    /// N.
    pub fn proof_load(&self) -> Option<f64> {
        self.strength.map(|it| it.proof * self.thread.stress_area())
    }
    /// N.
    pub fn yield_load(&self) -> Option<f64> {
        self.strength.map(|it| it.limit * self.thread.stress_area())
    }
    pub fn friction(&self) -> &'static Friction {
        friction(self.surface)
    }

    /// The preload, in N, of a torque in N·m at that nut factor.
    pub fn preload_at(&self, k: f64, torque: f64) -> f64 {
        torque / (k * self.thread.diameter / 1000.0)
    }

    /// The preload, in N, of a torque from `least` to `most`, in N·m.
    pub fn preload(&self, least: f64, most: f64) -> Spread {
        let k = self.friction();
        Spread {
            least: self.preload_at(k.high, least),
            usual: self.preload_at(k.usual, f64::midpoint(least, most)),
            most: self.preload_at(k.low, most),
        }
    }

    /// Holds a torque against the fastener. `None` where the quantity sets no limit.
    ///
    /// `goes_on`: an angle or a stretch follows, so that the torque alone need not clamp.
    pub fn judge(&self, torque: &Quantity, goes_on: bool) -> Option<Judgement> {
        let (least, most) = limits(torque)?;
        let preload = self.preload(least, most);
        let shares = self.proof_load().map(|load| preload.over(load));
        let verdict = self.verdict(torque, preload, goes_on);
        Some(Judgement { fastener: *self, preload, shares, verdict })
    }

    fn verdict(&self, torque: &Quantity, preload: Spread, goes_on: bool) -> Verdict {
        let strength = self.strength.unwrap_or(STRONGEST);
        let area = self.thread.stress_area();
        let shares = preload.over(strength.proof * area);
        let yields = preload.least > strength.limit * area;
        let low = self.strength.is_some() && !goes_on;
        if yields || shares.usual > SLIP_ABOVE || (low && shares.most < SLIP_BELOW) {
            let units = self.other_units(torque, shares.usual);
            if !units.is_empty() {
                return Verdict::OtherUnit(units);
            }
        }
        match self.strength {
            _ if yields => Verdict::Yields,
            None => Verdict::Unknown,
            Some(_) if low && shares.most < LOW => Verdict::Low,
            Some(_) if shares.usual > 1.0 => Verdict::High,
            Some(_) => Verdict::Holds,
        }
    }

    /// Units in which the same figures would fit. Who gives the torque in two that agree has made no slip of the unit.
    fn other_units(&self, torque: &Quantity, share: f64) -> Vec<&'static Unit> {
        if torque.also().is_some() {
            return Vec::new();
        }
        let fits = if self.strength.is_some() { FITS } else { FITS_STRONGEST };
        let written = as_float(torque.unit().factor);
        let in_unit = |unit: &Unit| share * as_float(unit.factor) / written;
        LIKELY.into_iter().filter(|unit| *unit != torque.unit() && fits.contains(&in_unit(unit))).collect()
    }
}

/// What a torque is commonly stated in.
static LIKELY: [&Unit; 4] = [
    &units::torque::NEWTON_METRE,
    &units::torque::POUND_FORCE_FOOT,
    &units::torque::POUND_FORCE_INCH,
    &units::torque::KILOGRAM_FORCE_METRE,
];

/// Least and greatest, in N·m; a lone limit is both.
pub fn limits(torque: &Quantity) -> Option<(f64, f64)> {
    let (lower, upper) = (torque.lower().map(as_float), torque.upper().map(as_float));
    Some((lower.or(upper)?, upper.or(lower)?))
}

/// Of steel, N/mm².
const YOUNGS_MODULUS: f64 = 205_000.0;
/// What of a turn stretches the fastener, and does not press the joint together: a stiff joint takes little (common
/// practice, no source).
const STRETCHES: f64 = 0.75;
/// Where no length is known, in diameters: a long one, so that a turn stretches it little.
const LONG: f64 = 10.0;

impl Fastener {
    /// About the force, in N, after a turn through `degrees` on top of `preload`, as long as the fastener springs;
    /// `length` in mm.
    pub fn turned(&self, preload: f64, degrees: f64, length: Option<f64>) -> f64 {
        let length = length.filter(|it| *it > 0.0).unwrap_or(LONG * self.thread.diameter);
        let stretch = STRETCHES * self.thread.pitch * degrees / 360.0;
        preload + stretch / length * YOUNGS_MODULUS * self.thread.stress_area()
    }

    /// The torque, in N·m, that takes it to three quarters of its proof load at the usual friction: what handbooks
    /// make their tables with.
    pub fn customary(&self) -> Option<f64> {
        let load = 0.75 * self.proof_load()?;
        Some(self.friction().usual * self.thread.diameter / 1000.0 * load)
    }
}

/// A force as a message says it: "12.9 kN", "850 N".
pub fn force(newtons: f64) -> String {
    if newtons < 1000.0 { format!("{newtons:.0} N") } else { format!("{} kN", figures(newtons / 1000.0)) }
}

/// To three figures, without more than they are worth: "0.85", "12.9", "146".
pub fn figures(value: f64) -> String {
    match value.abs() {
        size if size >= 99.95 => format!("{value:.0}"),
        size if size >= 9.995 => format!("{value:.1}"),
        _ => format!("{value:.2}"),
    }
}

/// A share of something as a message says it: "75 % of the proof load", "6.2 times the proof load".
pub fn share_of(share: f64, whole: &str) -> String {
    if share < 1.995 {
        format!("{:.0} % of {whole}", share * 100.0)
    } else {
        format!("{:.*} times {whole}", usize::from(share < 9.95), share)
    }
}
