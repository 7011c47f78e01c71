//! A finding about the order of the work shows both steps, and the way between them where it turns off.
use crate::support::shop::Shop;
use cotter::checks;
use cotter::source::{FileId, SourceFile};

/// Each with what is told: the finding's line and sentence, then its further places. Lines count from the first one
/// under the header.
const TOLD: &[(&str, &str)] = &[
    (
        "parts
    ring    \"Retaining ring\"  holds bearing
    bearing \"Bearing\"

remove bearing from \"the shaft\"
remove ring from \"the shaft\"
install bearing, ring on \"the shaft\"
",
        "still-held 5: `bearing` comes off while `ring` still holds it
  6: `ring` comes off only here
  2: `ring` holds it, as declared here
",
    ),
    (
        "parts
    ring    \"Retaining ring\"  holds bearing
    bearing \"Bearing\"

remove ring, bearing from \"the shaft\"
install ring on \"the shaft\"
install bearing on \"the shaft\"
",
        "fitted-over 7: `bearing` goes on after `ring`, which holds it
  6: `ring` went on here
  2: `ring` holds it, as declared here
",
    ),
    // The step that takes it off is for the other model.
    (
        "parts
    cover \"Bearing cover\"
    shaft \"Pump shaft\"

remove cover from shaft
    only: F40
install cover on shaft
",
        "fitted-while-fitted 7: `cover` is on the machine already on F40S
  5: not done on F40S
  2: on from the start, as declared here
",
    ),
    // The step that puts it back hangs on a finding.
    (
        "parts
    cover \"Bearing cover\"
    shaft \"Pump shaft\"

inspect shaft \"grooves\" as look
    if worn: report supervisor \"The shaft is worn.\"
remove cover from shaft
install cover on shaft
    only: look ok
remove cover from shaft
install cover on shaft
",
        "removed-twice 10: `cover` is off already, if look failed (steps 1 → 2 → 4)
  7: it came off here
  6: this way: `look` came out `failed`
  8: not done where `look` came out `failed`
",
    ),
    // The same to the end, long after the finding is asked for.
    (
        "parts
    cover \"Bearing cover\"
    shaft \"Pump shaft\"

inspect shaft \"grooves\" as look
    if worn: report supervisor \"The shaft is worn.\"
remove cover from shaft
install cover on shaft
    only: look ok
clean shaft
",
        "left-off 7: `cover` comes off here and never goes back, if look failed (steps 1 → 2 → end)
  6: this way: `look` came out `failed`
  8: not done where `look` came out `failed`
",
    ),
    // Where the other way has ended, nothing is said of it.
    (
        "parts
    cover \"Bearing cover\"
    shaft \"Pump shaft\"

inspect shaft \"grooves\" as look
    if worn: stop \"Renew the shaft.\"
remove cover from shaft
test shaft \"turn it\"
    only: look ok
    if not ok: stop \"Renew the shaft.\"
remove cover from shaft
install cover on shaft
",
        "removed-twice 11: `cover` is off already
  7: it came off here
",
    ),
    // In an outcome.
    (
        "parts
    nut       \"Castle nut\"  torque not specified, never moved to align
    split-pin \"Split pin\"   single-use, locks nut, starts off
    shaft     \"Pump shaft\"

loosen nut
install new split-pin in nut
inspect shaft \"grooves\" as look
    if worn: tighten nut
tighten nut
",
        "lock-before-torque 9: `nut` is tightened after `split-pin` has locked it, by way of `if worn` (steps 2 → 3)
  7: `split-pin` went in here
lock-before-torque 10: `nut` is tightened after `split-pin` has locked it
  7: `split-pin` went in here
",
    ),
    // By one of two methods.
    (
        "parts
    cover   \"Bearing cover\"  holds gasket
    gasket  \"Cover gasket\"   starts off
    shaft   \"Pump shaft\"

remove cover from shaft
install cover on shaft
choose \"How is the gasket fitted?\"
    option \"From the side\": install gasket on shaft
    option \"From behind\": do \"cut a new one\"
",
        "fitted-over 9: `gasket` goes on after `cover`, which holds it, by way of `option \"From the side\"` (steps 2 → 3)
  7: `cover` went on here
  2: `cover` holds it, as declared here
",
    ),
    (
        "parts
    shaft \"Shaft\"      matched coupling
    coupling \"Coupling\"

mark shaft, coupling as line-up
remove shaft from coupling
install shaft on coupling
",
        "unaligned-fit 7: `shaft` goes back and is not aligned by its mark
  5: the mark is made here
",
    ),
    (
        "parts
    cover   \"Cover\"  holds housing
    housing \"Housing\"
tools
    pin     \"Locking pin\"  temporary

remove cover from housing
put pin in housing
install cover on housing
remove pin from housing
",
        "in-the-way 9: `cover` goes on over `pin`, which is still in place
  8: `pin` went in here
",
    ),
    (
        "parts
    cover   \"Cover\"
    housing \"Housing\"
supplies
    sealant \"Flange sealant\"  needs clean

remove cover from housing
apply sealant to cover
install cover on housing
",
        "surface-not-clean 8: `sealant` goes on `cover`, which was not cleaned since it was last disturbed
  7: last handled here
",
    ),
    (
        "parts
    nut   \"Locking nut\"  reuse-if \"the drag torque is 2 N.m or more\"
    shaft \"Shaft\"

remove nut from shaft
install nut on shaft
",
        "reused-unchecked 6: `nut` goes back without the check that it may
  5: it came off here
",
    ),
    (
        "parts
    cone  \"Bearing cone\"  set-with cup
    cup   \"Bearing cup\"
    shaft \"Shaft\"

remove cone from shaft
install new cone on shaft
wipe cup
",
        "renewed-without-its-set 7: `cone` is new, and `cup` of its set is not
  2: a set, as declared here
",
    ),
    (
        "parts
    seal  \"Flush seal\"  models F40S
    shaft \"Shaft\"

wipe seal, shaft
",
        "wrong-model-part 5: `seal` is not there on F40
  2: declared here, with the models that have it
",
    ),
    (
        "parts
    breaker \"Breaker\"  live 24 V DC

remove breaker from \"the panel\"
install breaker in \"the panel\"
test breaker \"switch it\" as try
    if not ok: stop \"Renew it.\"
",
        "energy-not-isolated 4: `breaker` is worked on before its energy is cut off
  2: its energy is declared here
",
    ),
];

#[test]
fn both_steps_are_shown_and_the_way_between_them() {
    for (text, wanted) in TOLD {
        assert_eq!(told(text), *wanted, "{text}");
    }
}

fn told(text: &str) -> String {
    let header = checks::example("").lines().count();
    let whole = checks::example(text);
    // Blocks that the text leaves out are put before it.
    let before = whole.lines().count() - text.lines().count();
    assert!(before >= header - 3);
    let source = SourceFile::new(FileId(0), "route.cotter", whole);
    let line = |start: u32| source.line_column(start).0 - before;
    let mut told = String::new();
    for finding in Shop::default().compile(&source).findings {
        told.push_str(&format!("{} {}: {}\n", finding.rule, line(finding.span.start), finding.message));
        for label in &finding.labels {
            told.push_str(&format!("  {}: {}\n", line(label.span.start), label.text));
        }
    }
    told
}
