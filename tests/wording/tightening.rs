//! Torque lists: one line where they are simple, numbered passes where they are not.
use super::{document, last};
use cotter::model::settings::Units;
use cotter::sheets::wording::{Cx, Run, action};

#[test]
fn simple_ones_are_one_line() {
    for (line, reads) in [
        (
            "tighten screws with wrench-s",
            "Tighten the 4 cover screws to 8–10 N·m, crosswise, with torque wrench S.",
        ),
        ("tighten nut to 20 N.m", "Tighten the castle nut to 20 N·m."),
        ("tighten nut 20 N.m then 90 deg", "Tighten the castle nut to 20 N·m, then turn 90° further."),
        ("tighten nut 20 N.m plus drag", "Tighten the castle nut to 20 N·m plus the drag torque."),
        ("tighten nut 20 N.m oiled", "Tighten the castle nut to 20 N·m, threads oiled."),
        ("tighten nut finger tight", "Tighten the castle nut finger tight."),
        ("tighten nut snug", "Tighten the castle nut until snug."),
        ("tighten nut not specified", "Tighten the castle nut. No torque is specified."),
        ("tighten bolts 20 N.m order 1 2", "Tighten the 2 rod bolts to 20 N·m, in the order 1–2."),
        (
            "tighten nut new 60 N.m, reused 55 N.m",
            "Tighten the castle nut to 60 N·m if new, 55 N·m if reused.",
        ),
        (
            "tighten nut 40 N.m align slot by tightening not above 60 N.m",
            "Tighten the castle nut to 40 N·m. If the slot does not line up, tighten further until it does, but not above 60 N·m.",
        ),
        (
            "tighten nut 40 N.m never moved to align",
            "Tighten the castle nut to 40 N·m. Do not turn further to line up.",
        ),
        (
            "tighten screws must not turn below 7 N.m with wrench-s",
            "Check the 4 cover screws with torque wrench S. They must not turn below 7 N·m.",
        ),
        (
            "tighten nut must not turn below 30 N.m \"Try the nut.\"",
            "Try the nut. It must not turn below 30 N·m.",
        ),
        ("loosen screws by 1/2 turn crosswise", "Loosen the 4 cover screws by 1/2 turn, crosswise."),
    ] {
        assert_eq!(last(line), reads, "{line}");
    }
}

#[test]
fn passes_are_numbered() {
    for (line, reads) in [
        (
            "tighten screws in 50 % 100 % with wrench-s",
            "Tighten the 4 cover screws in 2 stages, crosswise, with torque wrench S: \
             1. Tighten to 4–5 N·m, 50 %. 2. Tighten to 8–10 N·m.",
        ),
        (
            "tighten nut by hub-seat",
            "Tighten the castle nut in 4 stages: 1. Tighten to 50 lbf·ft while turning the hub. \
             2. Loosen to finger tight. 3. Tighten finger tight while turning the hub. 4. Back off 1/8–1/6 turn.",
        ),
        (
            "tighten nut in 50 % 100 % new 60 N.m, reused 50 N.m",
            "Tighten the castle nut in 2 stages: 1. Tighten to 30 N·m if new, 25 N·m if reused, 50 %. \
             2. Tighten to 60 N·m if new, 50 N·m if reused.",
        ),
        (
            "tighten nut by hub-seat align slot by loosening",
            "Tighten the castle nut in 5 stages: 1. Tighten to 50 lbf·ft while turning the hub. \
             2. Loosen to finger tight. 3. Tighten finger tight while turning the hub. 4. Back off 1/8–1/6 turn. \
             5. If the slot does not line up, loosen until it does.",
        ),
        (
            "tighten bolts by in-passes except stage 2 9 N.m on second-bolt",
            "Tighten the 2 rod bolts in 2 stages, crosswise: 1. Tighten to 4–5 N·m, 50 %. \
             2. Tighten to 8–10 N·m, but the second bolt to 9 N·m.",
        ),
    ] {
        assert_eq!(last(line), reads, "{line}");
    }
}

/// A list of shares takes the whole from the part.
#[test]
fn shares_are_of_the_parts_torque() {
    let sentence = last("tighten screws by by-shares with wrench-s");
    assert_eq!(sentence, last("tighten screws in 50 % 100 % with wrench-s"));
    assert!(sentence.contains("8–10 N·m"), "{sentence}");
}

/// The author's unit stays first; the house's second unit follows in brackets.
#[test]
fn both_units_stand_side_by_side() {
    let document = document("tighten screws with wrench-s");
    let units = Units::default();
    let cx = Cx::new(&document, &units);
    let step = document.procedure().and_then(|it| it.step(1)).expect("one step");
    assert_eq!(
        action(&step.actions[0], &cx).plain(),
        "Tighten the 4 cover screws to 8–10 N·m (71–88 lbf·in), crosswise, with torque wrench S."
    );
}

#[test]
fn values_and_names_are_runs_of_their_own() {
    let document = document("tighten screws with wrench-s");
    let units = Units { single: true, ..Units::default() };
    let cx = Cx::new(&document, &units);
    let step = document.procedure().and_then(|it| it.step(1)).expect("one step");
    let sentence = action(&step.actions[0], &cx);
    let of = |wanted: fn(Run) -> bool| -> Vec<&str> {
        sentence.runs().filter(|&(run, _)| wanted(run)).map(|(_, text)| text).collect()
    };
    assert_eq!(of(|run| run == Run::Value), ["8–10 N·m"]);
    let names = of(|run| matches!(run, Run::Name(_)));
    assert_eq!(names, ["cover screws", "torque wrench S"]);
}
