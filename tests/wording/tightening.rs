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
        (
            "tighten nut 20 N.m align slot by loosening",
            "Tighten the castle nut to 20 N·m. If the slot does not line up, loosen until it does.",
        ),
        (
            "tighten nut 20 N.m align slot either way, not above 25 N.m",
            "Tighten the castle nut to 20 N·m. \
             If the slot does not line up, tighten or loosen until it does, but not above 25 N·m.",
        ),
        ("tighten nut hand tight", "Tighten the castle nut hand tight."),
        ("tighten nut 20 N.m dry", "Tighten the castle nut to 20 N·m, threads dry."),
        (
            "tighten bolts 20 N.m clockwise",
            "Tighten the 2 rod bolts to 20 N·m, clockwise, one after the other.",
        ),
        ("tighten bolts 20 N.m from centre", "Tighten the 2 rod bolts to 20 N·m, from the centre outwards."),
        (
            "loosen bolts by 1/2 turn from ends",
            "Loosen the 2 rod bolts by 1/2 turn, from the ends to the centre.",
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
    assert_eq!(of(|run| run == Run::Torque), ["8–10 N·m"]);
    let names = of(|run| matches!(run, Run::Name(_)));
    assert_eq!(names, ["cover screws", "torque wrench S"]);
}

/// 36 N·m at the fastener are 32.4 on the wrench: 360 / (360 + 40).
#[test]
fn an_adapter_changes_what_the_wrench_is_set_to() {
    for (line, reads) in [
        (
            "tighten nut 40 N.m with wrench-k, crow-foot",
            "Tighten the castle nut to 40 N·m with torque wrench K and the crow-foot adapter. \
             Hold the crow-foot adapter straight on, in line with torque wrench K. Set the wrench to 36 N·m.",
        ),
        (
            "tighten nut 40 N.m with wrench-k, crow-foot at 90 deg",
            "Tighten the castle nut to 40 N·m with torque wrench K and the crow-foot adapter. \
             Hold the crow-foot adapter at 90° to torque wrench K.",
        ),
        (
            "tighten nut 32 N.m with wrench-k, crow-foot at 180 deg",
            "Tighten the castle nut to 32 N·m with torque wrench K and the crow-foot adapter. \
             Hold the crow-foot adapter turned back along torque wrench K. Set the wrench to 36 N·m.",
        ),
        (
            "tighten nut new 40 N.m, reused 20 N.m with wrench-k, crow-foot",
            "Tighten the castle nut to 40 N·m if new, 20 N·m if reused with torque wrench K and the crow-foot adapter. \
             Hold the crow-foot adapter straight on, in line with torque wrench K. \
             Set the wrench to 36 N·m if new, 18 N·m if reused.",
        ),
        (
            "tighten nut 40 N.m in 50 % 100 % with wrench-k, crow-foot",
            "Tighten the castle nut in 2 stages with torque wrench K and the crow-foot adapter. \
             Hold the crow-foot adapter straight on, in line with torque wrench K: \
             1. Tighten to 20 N·m, 50 %, the wrench set to 18 N·m. 2. Tighten to 40 N·m, the wrench set to 36 N·m.",
        ),
        (
            "tighten nut must not turn below 20 N.m with wrench-k, crow-foot",
            "Check the castle nut with torque wrench K and the crow-foot adapter. \
             Hold the crow-foot adapter straight on, in line with torque wrench K. \
             Set the wrench to 18 N·m. It must not turn below 20 N·m.",
        ),
    ] {
        assert_eq!(last(line), reads, "{line}");
    }
}

/// Every kind of pass that a list may hold.
#[test]
fn stages_say_each_what_is_done() {
    let stages = [
        ("20 N.m", "Tighten to 20 N·m."),
        ("50 lb-ft while turning hub", "Tighten to 50 lbf·ft while turning the hub."),
        ("loosen to finger tight", "Loosen to finger tight."),
        ("loosen to 5 N.m", "Loosen to 5 N·m."),
        ("back off 1/4 to 1/2 turn", "Back off 1/4–1/2 turn."),
        ("snug", "Tighten until snug."),
        ("hand tight", "Tighten hand tight."),
        ("90 deg", "Turn 90° further."),
        ("0.20 to 0.25 mm", "Tighten until the stretch is 0.20–0.25 mm."),
        ("35 N.m crosswise", "Tighten to 35 N·m, crosswise."),
        ("35 N.m order 2 1", "Tighten to 35 N·m, in the order 2–1."),
    ];
    let lines: String = stages.iter().map(|(stage, _)| format!("\n    stage: {stage}")).collect();
    let sentence = last(&format!("tighten bolts{lines}"));
    for (number, (stage, reads)) in (1..).zip(stages) {
        assert!(sentence.contains(&format!("{number}. {reads}")), "{stage}: {sentence}");
    }
}

/// Stretch as the end: read before and after, and worked out between.
#[test]
fn stretch_is_measured_and_worked_out() {
    let lines = "measure bolts \"free length\" 60 to 61 mm as free-length\n\
                 tighten bolts 20 N.m with wrench-m\n\
                 measure bolts \"tight length\" 60 to 61 mm as tight-length\n\
                 calculate stretch = tight-length - free-length, 0.20 to 0.25 mm";
    assert_eq!(
        last(lines),
        "Work out the stretch: tight length (step 3) − free length (step 1). It must be 0.20–0.25 mm."
    );
}

#[test]
fn each_part_of_a_line_gets_its_own_torque() {
    assert_eq!(
        last("tighten screws, tie-nut with wrench-s"),
        "Tighten the 4 cover screws and the tie nut each to its own torque with torque wrench S: \
         1. The 4 cover screws to 8–10 N·m, crosswise. 2. The tie nut to 6–8 N·m."
    );
    assert_eq!(
        last("tighten screws, tie-nut 7 N.m with wrench-s"),
        "Tighten the 4 cover screws and the tie nut to 7 N·m, crosswise, with torque wrench S."
    );
}
