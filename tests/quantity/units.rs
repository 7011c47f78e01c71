//! The closed table: every spelling finds one unit, and a slip is told what it may have meant.
use std::collections::HashMap;

use cotter::model::quantity::{Beside, Dimension, Unit};

/// Printed symbol and the ways the trade writes it.
const SPELLINGS: &[(&str, &[&str])] = &[
    ("N·m", &["N.m", "N·m", "Nm", "N-m", "N m", "N*m", "N⋅m"]),
    (
        "lbf·ft",
        &[
            "ft-lb",
            "lb-ft",
            "ft.lb",
            "ft. lb.",
            "lbf.ft",
            "lbf·ft",
            "ft-lbf",
            "foot-pounds",
            "FT-LB",
            "ft.-lb",
        ],
    ),
    ("lbf·in", &["in-lb", "lb-in", "lbf.in", "in.-lb.", "inch-pounds", "IN-LB", "in·lbf"]),
    ("kgf·m", &["kgf.m", "kg-m", "m.kgf"]),
    ("kgf·cm", &["kgf.cm", "kgf·cm", "kg-cm"]),
    ("ozf·in", &["ozf.in", "oz-in", "ozf·in"]),
    ("mm", &["mm"]),
    ("in", &["in", "in.", "\"", "inch", "inches", "″"]),
    ("µm", &["um", "µm", "μm", "micron"]),
    ("thou", &["thou", "mil", "mils"]),
    ("kgf/cm²", &["kgf/cm2", "kgf/cm²", "kg/cm2"]),
    ("MPa", &["MPa", "N/mm2", "N/mm²"]),
    ("psi", &["psi", "PSI"]),
    ("inHg", &["inHg", "in.Hg", "in Hg", "in. Hg"]),
    ("°C", &["degC", "°C", "deg C", "º C"]),
    ("°F", &["degF", "°F", "℉"]),
    ("K", &["K"]),
    ("°F difference", &["degF diff", "°F difference"]),
    ("°", &["deg", "°", "degrees"]),
    ("turn", &["turn", "turns"]),
    ("US gal", &["US gal", "gal", "gallons"]),
    ("US fl oz", &["fl oz", "US fl oz", "fl. oz."]),
    ("cm³", &["cm3", "cm³", "cc"]),
    ("mL", &["mL", "ml"]),
    ("US gal/min", &["gpm", "GPM", "US gal/min"]),
    ("rpm", &["rpm", "RPM", "1/min", "r/min"]),
    ("V AC", &["V AC", "VAC", "V a.c."]),
    ("V DC", &["V DC", "VDC"]),
    ("Ω", &["ohm", "ohms", "Ω", "\u{2126}"]),
    ("MΩ", &["Mohm", "MΩ"]),
    ("kW·h", &["kWh", "kW.h", "kW·h"]),
    ("%", &["%", "percent"]),
];

#[test]
fn spellings_of_the_trade() {
    for &(symbol, spellings) in SPELLINGS {
        for &spelling in spellings {
            assert_eq!(Unit::find(spelling).map(|unit| unit.symbol), Some(symbol), "{spelling}");
        }
    }
}

#[test]
fn letters_are_not_folded_and_words_not_guessed() {
    for text in
        ["mPa", "nm", "NM", "C", "F", "ton", "ft lb", "lb in", "", "m m", "furlong", &"m".repeat(5000)]
    {
        assert_eq!(Unit::find(text).map(|unit| unit.symbol), None, "{text}");
    }
}

#[test]
fn no_two_units_share_a_spelling() {
    let mut seen: HashMap<&str, &str> = HashMap::new();
    for unit in Dimension::ALL.iter().flat_map(|dimension| dimension.units()) {
        let mut names = vec![unit.symbol, unit.source];
        names.extend(unit.spellings);
        names.sort_unstable();
        names.dedup();
        assert_eq!(
            names.len(),
            unit.spellings.len() + 1 + usize::from(unit.symbol != unit.source),
            "{names:?}"
        );
        for name in names {
            assert_eq!(seen.insert(name, unit.symbol), None, "{name}");
            assert_eq!(Unit::find(name).map(|found| found.symbol), Some(unit.symbol), "{name}");
        }
    }
}

#[test]
fn every_row_is_of_its_dimension_and_its_counterpart_too() {
    for dimension in Dimension::ALL {
        assert_eq!(Dimension::named(dimension.name()), Some(dimension));
        assert_eq!(Dimension::named(&dimension.name().replace(' ', "-")), Some(dimension));
        assert!(!Unit::likely_for(dimension).is_empty());
        for unit in dimension.units() {
            assert_eq!(unit.dimension, dimension, "{}", unit.symbol);
            let others = match unit.beside {
                Beside::Nothing => vec![],
                Beside::Always(other) => vec![other],
                Beside::BySize { small, large, .. } => vec![small, large],
            };
            assert!(others.iter().all(|other| other.comparable(unit) && other != unit), "{}", unit.symbol);
        }
    }
}

#[test]
fn a_slip_is_told_what_it_meant() {
    for (written, first) in [
        ("nm", "N.m"),
        ("NM", "N.m"),
        ("ft/lb", "lbf.ft"),
        ("ftlbs", "lbf.ft"),
        ("milimetre", "mm"),
        ("Psi", "psi"),
        ("bra", "bar"),
        ("C", "degC"),
        ("degc", "degC"),
        ("ohmz", "ohm"),
        ("litters", "L"),
    ] {
        assert_eq!(Unit::suggest(written).first(), Some(&first), "{written}: {:?}", Unit::suggest(written));
    }
    assert!(Unit::suggest("wombats").is_empty());
    assert!(Unit::suggest(&"n".repeat(100_000)).is_empty());
}

#[test]
fn the_longest_unit_at_the_start_of_a_text() {
    for (text, symbol, length) in [
        ("N.m crosswise", "N·m", 3),
        ("N.m, crosswise", "N·m", 3),
        ("US gal of oil", "US gal", 6),
        ("degC diff", "°C difference", 9),
        ("degC differs", "°C", 4),
        ("lb in place", "lb", 2),
        ("mm.", "mm", 2),
        ("°C", "°C", 3),
        ("%)", "%", 1),
        ("V AC;", "V AC", 4),
    ] {
        let found = Unit::starting(text).map(|(unit, length)| (unit.symbol, length));
        assert_eq!(found, Some((symbol, length)), "{text}");
    }
    for text in ["", "mmm", "inside", " mm", "N.x", "minute-hand x"] {
        assert_eq!(Unit::starting(text), None, "{text}");
    }
}
