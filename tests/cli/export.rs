//! `cotter export`.
use super::clean;
use crate::support::workspace::Workspace;

#[test]
fn a_procedure_is_printed_in_the_standard_that_was_asked_for() {
    let workspace = Workspace::new().file("a.cotter", clean("FW-TST-001"));
    for (format, root) in [("dita", "<task id=\"c-FW-TST-001\""), ("s1000d", "<dmodule ")] {
        let run = workspace.run(&["export", "a.cotter", "--format", format]);
        assert_eq!(run.code, 0, "{}", run.stderr);
        assert!(run.stdout.starts_with("<?xml ") && run.stdout.contains(root), "{}", run.stdout);
    }
}

#[test]
fn nothing_is_made_of_a_faulty_procedure_or_of_a_catalogue() {
    let workspace = Workspace::new()
        .file("a.cotter", clean("FW-TST-001").replace("models:", "modells:"))
        .file("c.cotter", "catalogue \"Tools\"\n");
    let run = workspace.run(&["export", "a.cotter", "--format", "dita"]);
    assert_eq!((run.code, run.stdout.as_str()), (1, ""));
    assert!(run.stderr.contains("it has errors"), "{}", run.stderr);
    let run = workspace.run(&["export", "c.cotter", "--format", "dita"]);
    assert_eq!((run.code, run.stdout.as_str()), (2, ""));
    assert!(run.stderr.contains("only a procedure has sheets"), "{}", run.stderr);
}
