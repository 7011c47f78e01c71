//! How quantities are printed.
use super::{at_least, at_most, new_worn, quantity, range, tolerance, value};
use cotter::model::quantity::{Form, UnitPreferences};

#[test]
fn in_the_authors_unit() {
    for (quantity, expected) in [
        (value("8", "N.m"), "8 N·m"),
        (range("8", "10", "N-m"), "8–10 N·m"),
        (range("-5", "10", "degC"), "−5 to 10 °C"),
        (tolerance("9", "1", "1", "Nm"), "9 ± 1 N·m"),
        (tolerance("500", "1", "0", "N.m"), "500 +1/−0 N·m"),
        (at_most("0.50", "mm"), "max 0.50 mm"),
        (at_least("22", "mm"), "min 22 mm"),
        (value("1 7/16", "in"), "1 7/16 in"),
        (quantity(Form::None, "mm"), "none"),
        (new_worn("2.0", "1.6", "mm"), "new 2.0 mm, worn 1.6 mm"),
        (value("90", "deg"), "90°"),
        (value("30", "%"), "30 %"),
        (range("1/4", "1/2", "turns"), "1/4–1/2 turn"),
        (value("2", "turn"), "2 turns"),
        (value("1", "day"), "1 day"),
        (range("1", "3", "days"), "1–3 days"),
        (value("230", "VAC"), "230 V AC"),
    ] {
        assert_eq!(quantity.print(), expected);
    }
}

#[test]
fn with_the_second_unit_beside_it() {
    let house = UnitPreferences::default();
    assert_eq!(range("8", "10", "N.m").print_both(&house), "8–10 N·m (71–88 lbf·in)");
    assert_eq!(value("90", "deg").print_both(&house), "90°");
    let both = range("8", "13", "lb-ft").with_also(range("11", "18", "N.m"));
    assert_eq!(both.print_both(&house), "8–13 lbf·ft (11–18 N·m)");
    assert_eq!(quantity(Form::None, "mm").print_both(&house), "none");
    // 45 °C is 113 °F exactly; 22 mm is 0.8661… in, a lower limit rounded up (1 in = 25.4 mm, NIST SP 811 App. B).
    assert_eq!(at_most("45", "degC").print_both(&house), "max 45 °C (113 °F)");
    assert_eq!(at_least("22", "mm").print_both(&house), "min 22 mm (0.87 in)");
    assert_eq!(
        new_worn("2.0", "1.6", "mm").print_both(&house),
        "new 2.0 mm, worn 1.6 mm (new 0.079 in, worn 0.063 in)"
    );
    assert_eq!(value("12", "V DC").print_both(&house), "12 V DC");
}
