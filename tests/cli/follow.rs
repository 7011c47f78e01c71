//! What a followed procedure leaves behind, over the files of a workspace.
use crate::support::workspace::Workspace;

const MACHINE: &str = "\
catalogue \"The machine\"

parts
    cover  \"Bearing cover\"
    casing \"Pump casing\"
";

/// A procedure that works on the machine of the catalogue.
fn procedure(number: &str, leaves: &str, steps: &str) -> String {
    format!(
        "procedure {number} \"Work on {number}\"
    revision:   A, 2026-11-02
    equipment:  F40 transfer pump
    models:     F40
    source:     manual \"F40 workshop manual, issue 7\"
    time:       30 min
    people:     1
    outcome:    Know the cover.
    requires:   none
    afterwards: none
    leaves:     {leaves}

use \"machine.cotter\"

parts none
tools none
supplies none

{steps}"
    )
}

#[test]
fn what_a_followed_procedure_opens_is_owed_here_and_what_it_closes_is_settled() {
    let open = procedure("FW-OPN-001", "\"cover removed\"", "remove cover from casing\n");
    let shut = procedure("FW-SHT-001", "none", "follow FW-OPN-001\ninstall cover on casing\n");
    let workspace =
        Workspace::new().file("machine.cotter", MACHINE).file("open.cotter", open).file("shut.cotter", shut);
    workspace.write("left.cotter", procedure("FW-LFT-001", "none", "follow FW-OPN-001\ndo \"look round\"\n"));
    let run = workspace.run(&["check", "left.cotter"]);
    assert_eq!(run.code, 1, "{}", run.stdout);
    let told = "error[left-off]: `cover` comes off here and never goes back, where FW-OPN-001 is followed";
    assert!(run.stdout.contains(told), "{}", run.stdout);
    assert!(run.stdout.contains("1 error"), "{}", run.stdout);
    // Through two files: the one that is followed has put it back itself.
    workspace.write("left.cotter", procedure("FW-LFT-001", "none", "follow FW-SHT-001\ndo \"look round\"\n"));
    let run = workspace.run(&["check"]);
    assert_eq!((run.code, run.stdout.as_str()), (0, "4 files: nothing to mend\n"));
    // And takes for granted that it is on.
    let twice = "remove cover from casing\nfollow FW-SHT-001\ndo \"look round\"\n";
    workspace.write("left.cotter", procedure("FW-LFT-001", "none", twice));
    let run = workspace.run(&["check", "left.cotter"]);
    let told = "warning[removed-twice]: `cover` is off already, where FW-SHT-001 is followed";
    assert!(run.stdout.contains(told), "{}", run.stdout);
    assert!(!run.stdout.contains("left-off"), "it is put back there: {}", run.stdout);
}

#[test]
fn the_life_of_a_part_goes_through_what_is_followed() {
    let open = procedure("FW-OPN-001", "\"cover removed\"", "remove cover from casing\n");
    let here = procedure("FW-SHT-001", "none", "follow FW-OPN-001\ninstall cover on casing\n");
    let workspace =
        Workspace::new().file("machine.cotter", MACHINE).file("open.cotter", open).file("here.cotter", here);
    let run = workspace.run(&["trace", "here.cotter", "cover"]);
    assert_eq!(run.code, 0, "{}", run.stderr);
    let at = |words: &str| run.stdout.find(words).unwrap_or_else(|| panic!("{words}: {}", run.stdout));
    assert!(at("follow FW-OPN-001") < at("to be fitted") && at("to be fitted") < at("install cover"));
}

#[test]
fn procedures_that_follow_each_other_come_to_an_end() {
    let one = procedure("FW-ONE-001", "\"cover removed\"", "remove cover from casing\nfollow FW-TWO-001\n");
    let two = procedure("FW-TWO-001", "\"cover removed\"", "follow FW-ONE-001\n");
    let own = procedure("FW-OWN-001", "none", "follow FW-OWN-001\n");
    let workspace = Workspace::new()
        .file("machine.cotter", MACHINE)
        .file("one.cotter", one)
        .file("two.cotter", two)
        .file("own.cotter", own);
    let run = workspace.run(&["check"]);
    assert_eq!(run.code, 1, "{}{}", run.stdout, run.stderr);
    assert_eq!(run.stdout.matches("error[follows-itself]").count(), 3, "{}", run.stdout);
    assert!(run.stdout.contains("`follow FW-TWO-001` leads back to this procedure"), "{}", run.stdout);
    assert!(run.stdout.contains("`follow FW-OWN-001` begins this procedure again"), "{}", run.stdout);
}

#[test]
fn a_circle_is_told_of_where_it_is_closed_and_by_its_way() {
    let of = |number: &str, steps: &str| procedure(number, "none", steps);
    let workspace = Workspace::new()
        .file("machine.cotter", MACHINE)
        .file("one.cotter", of("FW-ONE-001", "do \"look round\"\nfollow FW-TWO-001\n"))
        .file("two.cotter", of("FW-TWO-001", "follow FW-SUB-001\nfollow FW-SUM-001\n"))
        .file("sum.cotter", of("FW-SUM-001", "follow FW-ONE-001\n"))
        .file("sub.cotter", of("FW-SUB-001", "do \"look round\"\n"))
        .file("aside.cotter", of("FW-ASD-001", "follow FW-ONE-001\n"));
    let run = workspace.run(&["check"]);
    assert_eq!(run.stdout.matches("error[follows-itself]").count(), 3, "{}", run.stdout);
    let told = "`follow FW-TWO-001` leads back to this procedure, over FW-SUM-001";
    assert!(run.stdout.contains(told), "{}", run.stdout);
    // Known of again from the last run, and gone with the call that is taken out.
    assert_eq!(workspace.run(&["check"]).stdout, run.stdout);
    workspace.write("sum.cotter", of("FW-SUM-001", "do \"look round\"\n"));
    let mended = workspace.run(&["check"]);
    assert!(!mended.stdout.contains("follows-itself"), "{}", mended.stdout);
}

#[test]
fn a_faulty_procedure_brings_nothing() {
    let open = procedure("FW-OPN-001", "\"cover removed\"", "remove cover from casing\nremove lid\n");
    let left = procedure("FW-LFT-001", "none", "follow FW-OPN-001\n");
    let workspace =
        Workspace::new().file("machine.cotter", MACHINE).file("open.cotter", open).file("left.cotter", left);
    let run = workspace.run(&["check", "left.cotter"]);
    assert_eq!((run.code, run.stdout.as_str()), (0, "1 file: nothing to mend\n"));
}

#[test]
fn a_circle_brings_nothing_to_those_around_it_either() {
    let one = procedure("FW-ONE-001", "\"cover removed\"", "remove cover from casing\nfollow FW-TWO-001\n");
    let two = procedure("FW-TWO-001", "\"cover removed\"", "follow FW-ONE-001\n");
    let left = procedure("FW-LFT-001", "none", "follow FW-ONE-001\ndo \"look round\"\n");
    let workspace = Workspace::new()
        .file("machine.cotter", MACHINE)
        .file("one.cotter", one)
        .file("two.cotter", two)
        .file("left.cotter", left);
    let run = workspace.run(&["check", "left.cotter"]);
    assert_eq!((run.code, run.stdout.as_str()), (0, "1 file: nothing to mend\n"));
}

/// What `check` says of circles among procedures that only follow each other: lines of file, called number and way.
fn circles(procedures: &[(&str, &str)]) -> Vec<String> {
    let mut workspace = Workspace::new().file("machine.cotter", MACHINE);
    for (number, steps) in procedures {
        workspace = workspace.file(&format!("{number}.cotter"), procedure(number, "none", steps));
    }
    let run = workspace.run(&["check"]);
    let told = run.stdout.lines().filter(|line| line.contains("error[follows-itself]"));
    let file = |line: &str| line.split(".cotter").next().unwrap().to_owned();
    let rest =
        |line: &str| line.split_once("`follow ").unwrap().1.replace("` leads back to this procedure", "");
    told.map(|line| format!("{}: {}", file(line), rest(line))).collect()
}

#[test]
fn what_only_reads_like_a_call_closes_no_circle() {
    for aside in [
        "do \"look round\"\n# follow A-1\n",
        "do \"go on as those who follow A-1 do\"\n",
        "do \"look round\"\n    because: Others follow A-1 here.\n",
    ] {
        assert_eq!(circles(&[("A-1", "follow B-1\n"), ("B-1", aside)]), [""; 0], "{aside}");
    }
}

#[test]
fn every_call_of_every_circle_is_told_of() {
    // Two circles over one procedure.
    let both = [("A-1", "follow B-1\nfollow C-1\n"), ("B-1", "follow A-1\n"), ("C-1", "follow A-1\n")];
    assert_eq!(circles(&both), ["A-1: B-1", "A-1: C-1", "B-1: A-1", "C-1: A-1"]);
    // The first call leads into another's circle, which is not on the way back.
    let beside = [
        ("A-1", "follow B-1\nfollow C-1\n"),
        ("B-1", "follow D-1\n"),
        ("C-1", "follow A-1\n"),
        ("D-1", "do \"look round\"\n    if not ok: follow B-1\n"),
    ];
    assert_eq!(circles(&beside), ["A-1: C-1", "B-1: D-1", "C-1: A-1", "D-1: B-1"]);
    // Longer than anybody would follow.
    let numbers: Vec<String> = (0..80).map(|it| format!("L-{it:02}")).collect();
    let steps: Vec<String> = (0..80).map(|it| format!("follow {}\n", numbers[(it + 1) % 80])).collect();
    let long: Vec<(&str, &str)> =
        numbers.iter().map(String::as_str).zip(steps.iter().map(String::as_str)).collect();
    assert_eq!(circles(&long).len(), 80);
}

/// Takes the cover off.
fn opens() -> String {
    procedure("FW-OPN-001", "\"cover removed\"", "remove cover from casing\n")
}

#[test]
fn comments_above_and_in_the_header_hide_no_call() {
    let here = procedure("FW-SHT-001", "none", "install cover on casing\n")
        .replace("requires:   none", "requires:   FW-OPN-001 \"cover removed\"");
    let twice = here.replace("install cover", "remove cover from casing; install cover");
    for commented in
        [format!("# of the shop\n{twice}"), twice.replace("    people:", "# by the book: 1\n    people:")]
    {
        let workspace = Workspace::new()
            .file("machine.cotter", MACHINE)
            .file("open.cotter", opens())
            .file("twice.cotter", commented);
        let run = workspace.run(&["check", "twice.cotter"]);
        assert!(run.stdout.contains("[removed-twice]"), "{}", run.stdout);
    }
}

#[test]
fn any_blanks_may_stand_before_the_number_that_is_followed() {
    for blanks in ["  ", "\t"] {
        let steps = format!("follow{blanks}FW-OPN-001\ndo \"look round\"\n");
        let workspace = Workspace::new()
            .file("machine.cotter", MACHINE)
            .file("open.cotter", opens())
            .file("left.cotter", procedure("FW-LFT-001", "none", &steps));
        let run = workspace.run(&["check", "left.cotter"]);
        assert!(run.stdout.contains("error[left-off]"), "{blanks:?}: {}", run.stdout);
    }
}

#[test]
fn what_is_followed_in_an_outcome_is_walked() {
    let steps = "inspect casing \"cracks\"\n    if cracked: follow FW-OPN-001\n";
    let workspace = Workspace::new()
        .file("machine.cotter", MACHINE)
        .file("open.cotter", opens())
        .file("left.cotter", procedure("FW-LFT-001", "none", steps));
    let run = workspace.run(&["check", "left.cotter"]);
    assert!(run.stdout.contains("[branch-ends-open]"), "{}", run.stdout);
}

#[test]
fn each_model_takes_what_the_followed_procedure_does_on_it() {
    let both = |text: String| text.replace("models:     F40\n", "models:     F40, F40S\n");
    let open = both(procedure(
        "FW-OPN-001",
        "\"cover removed\"",
        "inspect cover \"cracks\"\n    if cracked: stop \"Order a cover.\"\nremove cover from casing\n    only: F40S\n",
    ));
    let left = both(procedure("FW-LFT-001", "none", "follow FW-OPN-001\ndo \"look round\"\n"));
    let workspace =
        Workspace::new().file("machine.cotter", MACHINE).file("open.cotter", open).file("left.cotter", left);
    let run = workspace.run(&["check", "left.cotter"]);
    assert!(run.stdout.contains("where FW-OPN-001 is followed on F40S"), "{}", run.stdout);
}
