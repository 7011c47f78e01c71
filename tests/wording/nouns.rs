//! What declared things are called. Plain English; no source.
use cotter::model::noun::Noun;

#[test]
fn plurals() {
    for (text, singular, plural) in [
        ("Cover screw, M6 x 20", "cover screw", "cover screws"),
        ("Coupling half", "coupling half", "coupling halves"),
        ("Bush", "bush", "bushes"),
        ("Boss", "boss", "bosses"),
        ("Gearbox", "gearbox", "gearboxes"),
        ("Assembly", "assembly", "assemblies"),
        ("Key", "key", "keys"),
        ("Valve", "valve", "valves"),
        ("Valve knife", "valve knife", "valve knives"),
        ("Adjusting foot", "adjusting foot", "adjusting feet"),
        ("Lens", "lens", "lenses"),
        ("Ring pliers", "ring pliers", "ring pliers"),
        ("Safety goggles", "safety goggles", "safety goggles"),
        ("O-ring", "O-ring", "O-rings"),
        ("V-belt", "V-belt", "V-belts"),
        ("Bolt M8", "bolt M8", "bolts M8"),
        ("Clamp for hose", "clamp for hose", "clamps for hose"),
        ("Pin of the lever", "pin of the lever", "pins of the lever"),
        ("Chassis", "chassis", "chassis"),
        ("", "", ""),
        (",", "", ""),
    ] {
        let noun = Noun::from_text(text, None);
        assert_eq!((noun.singular.as_str(), noun.plural.as_str()), (singular, plural), "{text}");
    }
}

#[test]
fn an_authors_plural_wins() {
    let noun = Noun::from_text("Die, 5 mm", Some("dice"));
    assert_eq!((noun.plural.as_str(), noun.counted), ("dice", true));
}

#[test]
fn names_of_their_own() {
    for text in ["Torque wrench S", "Torque wrench XL", "Gauge 3", "Hoist 12"] {
        assert!(Noun::from_text(text, None).proper, "{text}");
    }
    for text in ["Bolt M8", "Wheel LH", "Motor DC", "Torque wrench", "S", "Cooling fan ECU", "Pump F40"] {
        assert!(!Noun::from_text(text, None).proper, "{text}");
    }
}

#[test]
fn pairs_are_many() {
    assert!(Noun::from_text("Ring pliers", None).always_plural);
    assert!(!Noun::from_text("Boss", None).always_plural);
    assert!(!Noun::from_text("Spanner set", Some("spanner set")).always_plural);
}
