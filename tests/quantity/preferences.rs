//! Which unit is printed beside the author's.
use super::{range, value};
use cotter::model::quantity::{PreferenceError, Quantity, UnitPreferences};

fn second(quantity: &Quantity, house: &UnitPreferences) -> Option<&'static str> {
    quantity.counterpart(house).map(|unit| unit.symbol)
}

#[test]
fn by_default_the_other_system() {
    let house = UnitPreferences::default();
    for (quantity, expected) in [
        (range("8", "10", "N.m"), Some("lbf·in")),
        (range("10", "14", "N.m"), Some("lbf·ft")),
        (value("40", "lb-ft"), Some("N·m")),
        (value("1 7/16", "in"), Some("mm")),
        (value("2", "bar"), Some("psi")),
        (value("30", "psi"), Some("bar")),
        (value("90", "degC"), Some("°F")),
        (value("0.5", "L"), Some("US fl oz")),
        (value("5", "L"), Some("US gal")),
        (value("31", "kg"), Some("lb")),
        (value("5.5", "kW"), Some("hp")),
        (value("90", "deg"), None),
        (value("1500", "rpm"), None),
    ] {
        assert_eq!(second(&quantity, &house), expected, "{quantity}");
    }
}

#[test]
fn a_setting_decides_for_its_dimension() {
    let text = "torque = \"lbf.ft\"\nlength = \"none\"\ntemperature-difference = \"degF diff\"\n";
    let house: UnitPreferences = toml::from_str(text).expect("good settings");
    assert_eq!(second(&range("8", "10", "N.m"), &house), Some("lbf·ft"));
    assert_eq!(second(&range("8", "10", "lbf.ft"), &house), None);
    assert_eq!(second(&range("8", "10", "mm"), &house), None);
    assert_eq!(second(&value("2", "bar"), &house), Some("psi"));
    let again: UnitPreferences =
        toml::from_str(&toml::to_string(&house).expect("plain strings")).expect("as written");
    assert_eq!(again, house);
}

#[test]
fn a_bad_setting_is_an_error_and_changes_nothing() {
    let mut house = UnitPreferences::default();
    assert!(matches!(house.set("torqe", "N.m"), Err(PreferenceError::UnknownDimension { .. })));
    let unknown = house.set("torque", "nm").expect_err("nm is no unit");
    assert_eq!(unknown.to_string(), "`nm` is not a unit; did you mean N.m?");
    assert!(matches!(house.set("length", "psi"), Err(PreferenceError::OtherDimension { .. })));
    assert_eq!(house, UnitPreferences::default());
    let error = toml::from_str::<UnitPreferences>("length = \"psi\"").expect_err("psi is no length");
    assert!(error.to_string().contains("psi is a unit of pressure, not of length"), "{error}");
}

#[test]
fn two_units_by_the_author_are_enough() {
    let both = range("8", "13", "lb-ft").with_also(range("11", "18", "N.m"));
    assert_eq!(second(&both, &UnitPreferences::default()), None);
}
