//! On which side of its limits a typed value lies. The table is also held against the page's script, by the browser tests.
use cotter::record::{Bounds, Side};

fn bounds(low: &str, high: &str, unit: &str) -> Bounds {
    Bounds { unit: unit.to_owned(), low: low.to_owned(), high: high.to_owned(), shown: String::new() }
}

#[test]
fn every_line_of_the_table_holds() {
    let mut seen = 0;
    for line in include_str!("limits.tsv").lines().filter(|line| !line.starts_with('#')) {
        let [low, high, unit, typed, typed_in, side] = line.split('\t').collect::<Vec<_>>()[..] else {
            panic!("six columns: {line}");
        };
        let wanted = match side {
            "below" => Some(Side::Below),
            "within" => Some(Side::Within),
            "above" => Some(Side::Above),
            "none" => None,
            other => panic!("{other}"),
        };
        assert_eq!(bounds(low, high, unit).side(typed, typed_in), wanted, "{line}");
        seen += 1;
    }
    assert_eq!(seen, 36);
}

#[test]
fn points_of_temperature_have_another_zero() {
    // 45 °C = 113 °F (NIST Special Publication 811, B.8: t/°F = 1.8 t/°C + 32).
    let warm = bounds("", "45", "°C");
    assert_eq!(warm.side("113", "°F"), Some(Side::Within));
    assert_eq!(warm.side("113.1", "°F"), Some(Side::Above));
}

#[test]
fn what_is_empty_or_of_another_kind_lies_nowhere() {
    let seat = bounds("30.002", "30.015", "mm");
    for (typed, unit) in [("", "mm"), (" ", "mm"), ("30.01", "N·m"), ("30.01", "cubit"), ("30.01", "")] {
        assert_eq!(seat.side(typed, unit), None, "{typed:?} {unit}");
    }
    assert_eq!(bounds("x", "", "mm").side("30", "mm"), None);
    // Limits that no page writes: whatever a file holds, nothing ends the program.
    let hostile = bounds("999999999999.999999999", "999999999999.999999999", "lbf·in");
    for typed in ["1", "-999999999.999999", "999999999.999999", "0.000001"] {
        let _ = hostile.side(typed, "N·m");
        let _ = hostile.side(typed, "kgf·m");
    }
}
