//! Fasteners against published tables and worked examples, each with its source.
use cotter::model::declarations::StrengthSystem;
use cotter::model::fastener::friction::Surface;
use cotter::model::fastener::preload::Fastener;
use cotter::model::fastener::strength::strength;
use cotter::model::fastener::thread::{Thread, thread};

mod sizes;
mod slips;
mod strengths;
mod tables;
mod worked;

/// NIST SP 811 (2008), appendix B.8.
const LBF: f64 = 4.448_222;
const LBF_FT: f64 = 1.355_818;
const SQUARE_INCH: f64 = 645.16;

/// `3/8-16 UNC`, `M10x1.25`.
fn size(written: &str) -> Thread {
    let (designation, series) = match written.rsplit_once(' ') {
        Some((designation, series)) if series.starts_with('U') => (designation, Some(series)),
        _ => (written, None),
    };
    thread(designation, series).unwrap_or_else(|none| panic!("{written}: {none:?}"))
}

/// A fastener of `class 8.8` or `grade 5`.
fn fastener(written: &str, class: &str, surface: Surface) -> Fastener {
    let thread = size(written);
    let (word, value) = class.split_once(' ').unwrap();
    let system = if word == "class" { StrengthSystem::Class } else { StrengthSystem::Grade };
    let strength = strength(system, value, &thread).unwrap_or_else(|none| panic!("{class}: {none:?}"));
    Fastener { thread, strength: Some(strength), surface: Some(surface) }
}

fn assert_near(seen: f64, published: f64, share: f64, what: &str) {
    let off = seen / published - 1.0;
    assert!(off.abs() <= share, "{what}: {seen} for the published {published}, {:.1} % off", off * 100.0);
}
