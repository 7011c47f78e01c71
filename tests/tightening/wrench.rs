//! Torque wrenches: published settings with an adapter, what a scale covers, and the choice among several.
use super::steps::document;
use cotter::model::fastener::wrench::{Fit, best, fit, scale, set_value};
use cotter::model::quantity::{Exact, Form, Number, Quantity, Unit, as_float};
use cotter::source::{FileId, Span};

fn quantity(number: &str, unit: &str) -> Quantity {
    let number = Number::parse(number).expect("a number");
    let unit = Unit::find(unit).expect("a unit");
    Quantity::new(Form::Exact(number), unit, Span::new(FileId(0), 0, 0)).expect("a quantity")
}

/// Wanted, lever, offset, angle: what the wrench is set to, within the figures printed.
#[test]
fn adapters_are_reckoned_as_published() {
    for (wanted, unit, lever, offset, angle, printed, figure, source) in [
        ("300", "lbf.in", "10", "4", "0", 214.0, 0.5, "TM 1-1500-204-23-9 par. 8"),
        ("100", "lbf.in", "12", "6", "0", 66.7, 0.05, "NAVEDTRA 14315 fig. 3-45"),
        ("70", "lbf.in", "12", "2", "0", 60.0, 0.05, "TM 9-254 fig. 45, set 60 for 70"),
        ("40", "lbf.ft", "12", "4", "0", 30.0, 0.05, "TM 9-2350-261-20-1 p. 2-29"),
        ("135", "lbf.in", "10", "1.5", "0", 117.0, 0.5, "a helicopter maker's manual, lengthened"),
        ("135", "lbf.in", "10", "1.5", "180", 159.0, 0.5, "a helicopter maker's manual, shortened"),
        ("40", "lbf.ft", "12", "4", "90", 40.0, 0.0, "no correction at a right angle: TM 9-254 fig. 46"),
        ("70", "lbf.in", "12", "4", "60", 60.0, 0.05, "12 + 4 cos 60° = 14: by TM 9-254 fig. 46"),
    ] {
        let wanted = quantity(wanted, unit);
        let set = set_value(
            &wanted,
            &quantity(lever, "in"),
            &quantity(offset, "in"),
            Some(&quantity(angle, "deg")),
        )
        .expect("a setting");
        let set = as_float(set.upper().expect("one value")) / as_float(wanted.unit().factor);
        assert!((set - printed).abs() <= figure + 1e-9, "{set} for {printed}: {source}");
    }
}

#[test]
fn a_lever_of_nothing_sets_nothing() {
    let turned_back = quantity("180", "deg");
    let set = |offset| {
        set_value(&quantity("40", "N.m"), &quantity("40", "mm"), &quantity(offset, "mm"), Some(&turned_back))
    };
    assert!(set("39").is_some());
    assert_eq!(set("40"), None);
    assert_eq!(set("50"), None);
}

const DRAWER: &str = "
    w-30  \"Wrench of 30 lbf.in\"   range 5 to 30 lbf.in
    w-150 \"Wrench of 150 lbf.in\"  range 25 to 150 lbf.in
    w-600 \"Wrench of 600 lbf.in\"  range 100 to 600 lbf.in
    f-150 \"Wrench of 150 lbf.ft\"  range 30 to 150 lbf.ft
    f-250 \"Wrench of 250 lbf.ft\"  range 50 to 250 lbf.ft
    f-1000 \"Wrench of 1000 lbf.ft\"  range 200 to 1000 lbf.ft
";

/// TM 55-2840-251-23 table E-1: for 25 to 140 lbf·in the wrench of 150, for 140 to 550 that of 600; for 30 to 140
/// lbf·ft that of 150, for 140 to 240 that of 250, for 240 to 1000 that of 1000. The torques are from inside those rows.
#[test]
fn the_wrench_is_chosen_as_published() {
    let document = document(DRAWER, "");
    let tools = &document.declarations.tools;
    for (torque, unit, chosen) in [
        ("80", "lbf.in", "w-150"),
        ("100", "lbf.in", "w-150"),
        ("300", "lbf.in", "w-600"),
        ("450", "lbf.in", "w-600"),
        ("80", "lbf.ft", "f-150"),
        ("100", "lbf.ft", "f-150"),
        ("170", "lbf.ft", "f-250"),
        ("600", "lbf.ft", "f-1000"),
    ] {
        let found = best(tools.iter(), &[quantity(torque, unit)], |_| Some(Exact::from_integer(1)));
        assert_eq!(found.map(|tool| tool.thing.name.as_str()), Some(chosen), "{torque} {unit}");
    }
    let one = |_: &_| Some(Exact::from_integer(1));
    assert!(best(tools.iter(), &[quantity("2000", "lbf.ft")], one).is_none());
}

/// ISO 6789-1: true from a fifth of the full scale on (from memory).
#[test]
fn a_scale_covers_from_a_fifth_of_its_end() {
    let document = document("    m \"Wrench M\" range 5 to 50 N.m\n", "");
    let scale = scale(&document.declarations.tools[0]).expect("a torque wrench");
    for (torque, expected) in [
        ("4.9", Fit::Below),
        ("5", Fit::Low),
        ("9.9", Fit::Low),
        ("10", Fit::Good),
        ("50", Fit::Good),
        ("50.1", Fit::Above),
    ] {
        assert_eq!(fit(scale, &quantity(torque, "N.m"), Exact::from_integer(1)), expected, "{torque}");
    }
    // 54 N·m at the fastener are 48 on the wrench where 40 mm are added to 320.
    assert_eq!(fit(scale, &quantity("54", "N.m"), Exact::new(8, 9)), Fit::Good);
}
