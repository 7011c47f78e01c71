//! Measuring, inspecting, checking, and what follows from what is found.
use super::{last, steps};

#[test]
fn readings_join_their_objects() {
    for (line, reads) in [
        (
            "measure shaft \"diameter\" min 30 mm with micrometer",
            "Measure the diameter of the pump shaft with the micrometer. Limit: min 30 mm.",
        ),
        (
            "measure shaft \"run-out beside the seal\" max 0.05 mm",
            "Measure the run-out of the pump shaft beside the seal. Limit: max 0.05 mm.",
        ),
        (
            "measure hub \"end play, pushed and pulled\" max 0.1 mm with indicator",
            "Measure the end play of the hub, pushed and pulled, with the dial indicator. Limit: max 0.1 mm.",
        ),
        (
            "measure each hinge-pins \"length of the worn side\" 20 to 21 mm with micrometer",
            "Measure the length of the worn side on each hinge pin with the micrometer. Limits: 20–21 mm.",
        ),
        (
            "measure shaft \"end play\" none with indicator",
            "Measure the end play of the pump shaft with the dial indicator. None is allowed.",
        ),
        ("inspect shaft \"for cracks\"", "Inspect the pump shaft for cracks."),
        ("inspect shaft \"splines, ring groove\"", "Inspect the pump shaft: splines, ring groove."),
        ("check \"the hose is dry\"", "Make sure that the hose is dry."),
        ("check hose \"no oil at the ends\"", "Check the drain hose: no oil at the ends."),
        ("test tester \"on a known live socket\"", "Test the voltage tester on a known live socket."),
    ] {
        assert_eq!(last(line), reads, "{line}");
    }
}

#[test]
fn outcomes_and_conditions() {
    let read = steps(
        "measure shaft \"diameter\" 30.0 to 30.1 mm as seat\n    if below: stop \"Send the shaft for repair.\"\n    \
         if above: do \"stone it down\"; repeat from seat, at most 2 times\n    if impossible: report supervisor\n\
         inspect cover \"cracks\" as look\n    if cracked, blue: renew cover\n    otherwise: skip to seat\n\
         remove gasket\n    only: look failed\nremove ring\n    only: F40S\nremove plug\n    only: seat below",
    );
    assert_eq!(
        read[0][1..],
        [
            "If below the limit: stop. Send the shaft for repair.",
            "If above the limit: stone it down. Repeat from step 1, at most 2 times.",
            "If this cannot be done: tell the supervisor."
        ]
    );
    assert_eq!(read[1][1..], ["If cracked or blue: renew the bearing cover.", "Otherwise: go to step 1."]);
    assert_eq!(read[2], ["Only if step 2 failed.", "Remove the cover gasket."]);
    assert_eq!(read[3], ["F40S only.", "Remove the retaining ring."]);
    assert_eq!(read[4][0], "Only if the reading of step 1 was below the limit.");
}
