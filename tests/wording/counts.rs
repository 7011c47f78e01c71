//! How many, which, new or not, and what they are called in a sentence.
use super::last;

#[test]
fn counts_and_articles() {
    for (line, reads) in [
        ("remove screws", "Remove the 4 cover screws."),
        ("remove the cover", "Remove the bearing cover."),
        ("remove 3 of screws", "Remove 3 of the 4 cover screws."),
        ("remove 4 of screws", "Remove the 4 cover screws."),
        ("remove each hinge-pins", "Remove each hinge pin."),
        ("install new gasket", "Fit the new cover gasket."),
        ("install new screws", "Fit the 4 new cover screws."),
        ("install 2 of new screws", "Fit 2 of the 4 new cover screws."),
        ("remove first-bolt", "Remove the first bolt."),
        ("remove bolts", "Remove the 2 rod bolts."),
        ("clean cover using solvent", "Clean the bearing cover with degreasing solvent."),
        ("apply grease to ring", "Apply bearing grease to the retaining ring."),
        ("attach hose to cover using ties", "Attach the drain hose to the bearing cover with cable ties."),
        ("remove gasket with ring-pliers", "Remove the cover gasket with the ring pliers."),
        ("tighten nut to 9 N.m with wrench-s", "Tighten the castle nut to 9 N·m with torque wrench S."),
        ("remove cover, gasket", "Remove the bearing cover and the cover gasket."),
    ] {
        assert_eq!(last(line), reads, "{line}");
    }
}

#[test]
fn like_nouns_are_told_apart() {
    assert_eq!(
        last("disconnect lead-plus, lead-minus"),
        "Disconnect the exciter lead (plus) and the exciter lead (minus)."
    );
}

#[test]
fn places_and_extras() {
    for (line, reads) in [
        ("remove cover from \"the base\"", "Remove the bearing cover from the base."),
        ("heat bearing to 110 degC", "Heat the drive-end bearing to 110 °C."),
        (
            "press bearing onto shaft until seated",
            "Press the drive-end bearing onto the pump shaft until it is seated.",
        ),
        (
            "press bearing, ring onto shaft until seated",
            "Press the drive-end bearing and the retaining ring onto the pump shaft until they are seated.",
        ),
        ("turn shaft 10 times", "Turn the pump shaft 10 times."),
        ("turn shaft 1 times", "Turn the pump shaft once."),
        ("turn shaft at most 2 times", "Turn the pump shaft at most 2 times."),
        ("turn shaft by 2 turns while turning hub", "Turn the pump shaft by 2 turns while turning the hub."),
        ("run motor for 10 min", "Run the pump motor for 10 min."),
        (
            "install ring on shaft facing \"the sharp edge outward\" until seated",
            "Fit the retaining ring on the pump shaft, the sharp edge outward, until it is seated.",
        ),
        (
            "clean screws using solvent, cloths with brush",
            "Clean the 4 cover screws with degreasing solvent, lint-free cloth and the nylon brush.",
        ),
        (
            "mark coupling, shaft \"a line\" as line\nalign coupling, shaft at line",
            "Align the coupling half and the pump shaft at the marks of step 1.",
        ),
        ("do \"wipe the hub with a cloth\" on hub using cloths", "Wipe the hub with a cloth."),
        ("do \"wipe it clean\" on hub using cloths", "Wipe it clean on the hub with lint-free cloth."),
    ] {
        assert_eq!(last(line), reads, "{line}");
    }
}

#[test]
fn own_sentences_stand_alone() {
    let line = "remove cover, gasket \"Take the cover off with [gasket] stuck to it\"";
    assert_eq!(last(line), "Take the cover off with the cover gasket stuck to it.");
    let value = "tighten screws \"Bring each screw home\"";
    assert_eq!(last(value), "Bring each screw home. Tighten to 8–10 N·m, crosswise.");
}

#[test]
fn an_empty_text_hides_nothing() {
    assert_eq!(last("remove cover \"\""), "Remove the bearing cover.");
    assert_eq!(last("tighten screws \" \""), "Tighten the 4 cover screws to 8–10 N·m, crosswise.");
}

#[test]
fn references_in_free_text() {
    for (line, reads) in [
        ("do \"hold [cover]\"", "Hold the bearing cover."),
        ("do \"hold the [cover]\"", "Hold the bearing cover."),
        ("do \"loosen each of [screws]\"", "Loosen each of the 4 cover screws."),
        ("do \"wait. [cover] comes off\"", "Wait. The bearing cover comes off."),
        ("do \"[cover] comes off\"", "The bearing cover comes off."),
        ("do \"look again\" as again\ndo \"go on as in [again]\"", "Go on as in step 1."),
        (
            "do \"dry it at 80 degC and 1.5 bar, 20 lb-ft, 90 deg\"",
            "Dry it at 80 °C and 1.5 bar, 20 lbf·ft, 90°.",
        ),
        ("do \"take 5 in the hand\"", "Take 5 in the hand."),
        ("do \"turn [second-bolt]\"", "Turn the second bolt."),
    ] {
        assert_eq!(last(line), reads, "{line}");
    }
}
