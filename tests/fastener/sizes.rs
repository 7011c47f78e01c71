//! Threads and their tensile stress areas.
use super::{SQUARE_INCH, assert_near, size};
use cotter::model::fastener::thread::{Why, thread};

/// ISO 898-1, coarse threads; mm² (two published copies of the table).
const COARSE: &[(&str, f64)] = &[
    ("M3", 5.03),
    ("M3.5", 6.78),
    ("M4", 8.78),
    ("M5", 14.2),
    ("M6", 20.1),
    ("M7", 28.9),
    ("M8", 36.6),
    ("M10", 58.0),
    ("M12", 84.3),
    ("M14", 115.0),
    ("M16", 157.0),
    ("M18", 192.0),
    ("M20", 245.0),
    ("M22", 303.0),
    ("M24", 353.0),
];

/// ISO 898-1, fine threads; mm² (from memory; M12x1.25 to M18x1.5 read in a published table).
const FINE: &[(&str, f64)] = &[
    ("M8x1", 39.2),
    ("M10x1", 64.5),
    ("M10x1.25", 61.2),
    ("M12x1.25", 92.1),
    ("M12x1.5", 88.1),
    ("M14x1.5", 125.0),
    ("M16x1.5", 167.0),
    ("M18x1.5", 216.0),
    ("M20x1.5", 272.0),
    ("M22x1.5", 333.0),
    ("M24x2", 384.0),
];

/// ASME B1.1; in² (three published copies of the table).
const INCH: &[(&str, f64)] = &[
    ("#4-40 UNC", 0.00604),
    ("#6-32 UNC", 0.00909),
    ("#8-32 UNC", 0.0140),
    ("#10-24 UNC", 0.0175),
    ("1/4-20 UNC", 0.0318),
    ("5/16-18 UNC", 0.0524),
    ("3/8-16 UNC", 0.0775),
    ("7/16-14 UNC", 0.1063),
    ("1/2-13 UNC", 0.1419),
    ("9/16-12 UNC", 0.182),
    ("5/8-11 UNC", 0.226),
    ("3/4-10 UNC", 0.334),
    ("7/8-9 UNC", 0.462),
    ("1-8 UNC", 0.606),
    ("#4-48 UNF", 0.00661),
    ("#6-40 UNF", 0.01015),
    ("#8-36 UNF", 0.01474),
    ("#10-32 UNF", 0.0200),
    ("1/4-28 UNF", 0.0364),
    ("5/16-24 UNF", 0.0580),
    ("3/8-24 UNF", 0.0878),
    ("7/16-20 UNF", 0.1187),
    ("1/2-20 UNF", 0.1599),
    ("9/16-18 UNF", 0.203),
    ("5/8-18 UNF", 0.256),
    ("3/4-16 UNF", 0.373),
    ("7/8-14 UNF", 0.509),
    ("1-12 UNF", 0.663),
];

#[test]
fn stress_areas_are_those_of_the_standards() {
    // Half of the third figure of the table.
    for (written, area) in COARSE.iter().chain(FINE) {
        assert_near(size(written).stress_area(), *area, 0.005, written);
    }
    for (written, area) in INCH {
        assert_near(size(written).stress_area() / SQUARE_INCH, *area, 0.003, written);
    }
}

#[test]
fn a_designation_may_leave_out_what_it_implies() {
    assert_eq!(size("M10"), size("M10x1.5"));
    assert_eq!(size("M24 x 2"), size("M24×2"));
    assert_eq!(size("3/8-24"), size("3/8-24 UNF"));
    assert_eq!(size("1-14 UNF"), size("1-14 UNS"));
    assert!((size("#10-24").inches() - 0.190).abs() < 1e-9);
    assert!((size("1 1/8-8 UN").inches() - 1.125).abs() < 1e-9);
    assert!(thread("#10-24", Some("unc")).is_ok());
}

#[test]
fn every_size_from_the_smallest_to_the_largest_is_there() {
    let metric =
        [1.6, 2.0, 2.5, 3.0, 4.0, 5.0, 6.0, 8.0, 10.0, 12.0, 16.0, 20.0, 24.0, 30.0, 36.0, 42.0, 48.0];
    let areas: Vec<f64> =
        metric.iter().chain(&[56.0, 64.0]).map(|d| size(&format!("M{d}")).stress_area()).collect();
    assert!(areas.is_sorted(), "{areas:?}");
    for unified in ["#0-80 UNF", "#1-64 UNC", "#12-28 UNF", "1 1/2-6 UNC", "1 1/2-12 UNF", "1 1/2-8 UN"] {
        size(unified);
    }
}

#[test]
fn what_is_in_no_table_is_refused_with_the_nearest() {
    let refused =
        |designation, series| thread(designation, series).map_err(|none| (none.why, none.near)).unwrap_err();
    let near = |names: &[&str]| names.iter().map(|name| (*name).to_owned()).collect::<Vec<_>>();
    assert_eq!(refused("M10x1.4", None), (Why::Pitch, near(&["M10", "M10x1.25", "M10x1"])));
    assert_eq!(refused("M13", None), (Why::Size, near(&["M12", "M14"])));
    assert_eq!(refused("3/8-24", Some("UNC")), (Why::Series, near(&["3/8-24 UNF", "3/8-16 UNC"])));
    assert_eq!(refused("#9-24", None), (Why::Size, near(&["#8-32 UNC", "#10-24 UNC"])));
    assert_eq!(refused("1/4-22", None), (Why::Pitch, near(&["1/4-20 UNC", "1/4-28 UNF"])));
}
