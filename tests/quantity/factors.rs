//! The unit table against NIST SP 811 (2008), Appendix B.8 and B.9.
use super::{converted, to_figures, unit, value};
use cotter::model::quantity::Exact;

/// One of the first is that many of the second, to as many figures as printed. Torque, psi, inHg and gallon rows
/// read in quotations of B.8; the others from memory of it.
const PRINTED: &[(&str, &str, &str)] = &[
    // torque
    ("lbf.ft", "N.m", "1.355818"),
    ("lbf.in", "N.m", "0.1129848"),
    ("ozf.in", "N.m", "0.007061552"),
    ("kgf.m", "N.m", "9.80665"),
    ("kgf.cm", "N.m", "0.0980665"),
    // length
    ("in", "mm", "25.4"),
    ("in", "cm", "2.54"),
    ("ft", "m", "0.3048"),
    ("yd", "m", "0.9144"),
    ("mil", "mm", "0.0254"),
    ("uin", "um", "0.0254"),
    // force
    ("lbf", "N", "4.448222"),
    ("kgf", "N", "9.80665"),
    ("ozf", "N", "0.2780139"),
    // mass
    ("lb", "kg", "0.4535924"),
    ("oz", "g", "28.34952"),
    ("t", "kg", "1000"),
    // pressure
    ("psi", "Pa", "6894.757"),
    ("psi", "kPa", "6.894757"),
    ("ksi", "MPa", "6.894757"),
    ("bar", "kPa", "100"),
    ("mbar", "Pa", "100"),
    ("kgf/cm2", "kPa", "98.0665"),
    ("inHg", "kPa", "3.386389"),
    ("mmHg", "Pa", "133.3224"),
    ("atm", "kPa", "101.325"),
    // volume
    ("US gal", "L", "3.785412"),
    ("US qt", "L", "0.9463529"),
    ("US pt", "L", "0.4731765"),
    ("fl oz", "mL", "29.57353"),
    ("in3", "cm3", "16.38706"),
    ("UK gal", "L", "4.54609"),
    // flow
    ("gpm", "L/min", "3.785412"),
    ("cfm", "L/min", "28.31685"),
    ("m3/h", "L/min", "16.66667"),
    // power and energy
    ("hp", "W", "745.6999"),
    ("PS", "W", "735.4988"),
    ("kW.h", "kJ", "3600"),
    // time and angle
    ("min", "s", "60"),
    ("h", "s", "3600"),
    ("day", "s", "86400"),
    ("rev", "deg", "360"),
    ("rev", "rad", "6.283185"),
    ("deg", "rad", "0.01745329"),
    ("arcmin", "deg", "0.01666667"),
    // a difference of temperature
    ("degF diff", "K", "0.5555556"),
];

#[test]
fn printed_factors() {
    for &(from, to, printed) in PRINTED {
        let figures = super::number(printed).significant_figures().expect("printed factors are decimals");
        let symbol = unit(to).symbol;
        let got = to_figures(&value("1", from), to, figures);
        assert!(
            got == format!("{printed} {symbol}") || got == format!("{printed}{symbol}"),
            "1 {from} is {got}"
        );
    }
    assert!(PRINTED.len() >= 40);
}

/// Base units in one, exactly: computed from 1 in = 0.0254 m, 1 lb = 0.453 592 37 kg, g = 9.806 65 m/s².
const EXACT: &[(&str, i128, i128)] = &[
    ("lbf.ft", 13_558_179_483_314_004, 10_000_000_000_000_000),
    ("lbf.in", 1_129_848_290_276_167, 10_000_000_000_000_000),
    ("ozf.in", 706_155_181_422_604_375, 100_000_000_000_000_000_000),
    ("lbf", 44_482_216_152_605, 10_000_000_000_000),
    ("ozf", 27_801_385_095_378_125, 100_000_000_000_000_000),
    ("oz", 28_349_523_125, 1_000_000_000_000),
    ("US gal", 3_785_411_784, 1_000_000_000_000),
    ("fl oz", 295_735_295_625, 10_000_000_000_000_000),
    ("in3", 16_387_064, 1_000_000_000_000),
];

#[test]
fn exact_factors() {
    for &(name, numerator, denominator) in EXACT {
        assert_eq!(unit(name).factor, Exact::new(numerator, denominator), "{name}");
    }
    // Not a terminating decimal: the quotient is kept, not 6894.757.
    let square_inch = Exact::new(64_516, 100_000_000);
    assert_eq!(unit("psi").factor, Exact::new(44_482_216_152_605, 10_000_000_000_000) / square_inch);
}

/// SP 811 B.9: t/°C = (t/°F − 32)/1.8. A difference of temperature has no 32.
#[test]
fn temperatures() {
    for (fahrenheit, celsius) in [("212", "100 °C"), ("32", "0 °C"), ("-40", "−40 °C"), ("18", "−7.8 °C")]
    {
        assert_eq!(converted(&value(fahrenheit, "degF"), "degC"), celsius);
    }
    assert_eq!(converted(&value("90", "degC"), "degF"), "194 °F");
    assert_eq!(converted(&value("18", "degF diff"), "K"), "10 K");
}
