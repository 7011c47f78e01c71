//! Actions that steer.
use super::{last, steps};

#[test]
fn steering_actions() {
    for (line, reads) in [
        (
            "hold instructor \"[bearing] sits home\"",
            "Do not go on until the instructor has signed: The drive-end bearing sits home.",
        ),
        ("hold instructor", "Do not go on until the instructor has signed."),
        ("report supervisor \"the track is grooved\"", "Tell the supervisor: The track is grooved."),
        ("wait 10 min", "Wait 10 min."),
        ("wait until \"the hiss stops\"", "Wait until the hiss stops."),
        ("stop \"Send the shaft for repair.\"", "Stop. Send the shaft for repair."),
        ("follow \"Crane rules\"", "Follow “Crane rules”."),
        ("do \"look\" as first\nskip to first", "Go to step 1."),
        (
            "remove cover as a1\nremove gasket as a2\nrepeat a1 to a2 for rear-left, front-right",
            "Repeat steps 1 to 2 for the rear left and the front right.",
        ),
        (
            "remove cover as a1\nrepeat a1 to a1 until \"it is clean\", at most 3 times",
            "Repeat step 1 until it is clean, at most 3 times.",
        ),
    ] {
        assert_eq!(last(line), reads, "{line}");
    }
}

#[test]
fn choices_and_exceptions() {
    let read = steps(
        "choose \"How is it packed?\"\n    option \"Packer\": pack bearing using grease with packer\n    \
         option \"By hand\": pack bearing using grease\nremove cover as a1\nrepeat a1 to a1 for left\n    \
         except a1: remove gasket\n    except left: remove ring",
    );
    assert_eq!(
        read[0],
        [
            "How is it packed?",
            "Packer: pack the drive-end bearing with bearing grease. Use the bearing packer.",
            "By hand: pack the drive-end bearing with bearing grease."
        ]
    );
    assert_eq!(
        read[2][1..],
        ["In place of step 2: remove the cover gasket.", "For the left: remove the retaining ring."]
    );
}

#[test]
fn arithmetic_says_where_readings_come_from() {
    let lines = "measure cover \"depth\" 5 to 6 mm as depth\nmeasure shaft \"height\" 4 to 5 mm as height\n\
                 calculate pack-size = depth - height + 0.05 mm, 0.20 to 0.60 mm";
    assert_eq!(
        last(lines),
        "Work out the pack size: depth (step 1) − height (step 2) + 0.05 mm. It must be 0.20–0.60 mm."
    );
}
