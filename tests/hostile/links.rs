//! Links: in circles, to nothing, and out of the workspace.
use super::{calm, clean, files};
use crate::support::workspace::Workspace;
use std::os::unix::fs::symlink;

const SECRET: &str = "procedure  FW-SEC-001 \"The secret\"\n\nthe combination is 4711\n";

#[test]
fn circles_end_and_links_to_nothing_are_told_of() {
    let workspace = Workspace::new().file("a.cotter", clean("FW-TST-001")).file("deep/note.txt", "");
    for (target, link) in [
        (".", "here"),
        ("..", "deep/up"),
        ("self.cotter", "self.cotter"),
        ("there.cotter", "back.cotter"),
        ("back.cotter", "there.cotter"),
        ("nowhere.cotter", "gone.cotter"),
    ] {
        symlink(target, workspace.path(link)).unwrap();
    }
    for command in [&["check"][..], &["build"], &["fmt", "--check"]] {
        let run = workspace.run(command);
        calm(&run);
        assert_eq!(run.code, 2);
        for name in ["self", "there", "back"] {
            assert!(run.stderr.contains(&format!("{name}.cotter: cannot be read: ")), "{}", run.stderr);
        }
        assert!(run.stderr.contains("gone.cotter: there is no such file or folder"), "{}", run.stderr);
    }
    assert!(workspace.path("out/FW-TST-001/bench.html").is_file(), "the others are built");
    assert_eq!(files(&workspace, "out").len(), 7);
}

#[test]
fn what_lies_behind_a_link_out_of_the_workspace_is_neither_shown_nor_written() {
    let elsewhere = Workspace::new().file("secret.cotter", SECRET).file("more/tools.cotter", SECRET);
    let use_it = clean("FW-TST-002").replacen("\n\n", "\n\nuse \"link/more/tools.cotter\"\n\n", 1);
    let workspace = Workspace::new()
        .file("cotter.toml", "")
        .file("a.cotter", clean("FW-TST-001"))
        .file("b.cotter", use_it);
    symlink(elsewhere.path("secret.cotter"), workspace.path("secret.cotter")).unwrap();
    symlink(elsewhere.path("."), workspace.path("link")).unwrap();
    let through = ["secret.cotter", "link/secret.cotter", "link"];
    let commands = [&["check"][..], &["check", "--fix"], &["build"], &["fmt"], &["draft-rebuild", "--write"]];
    for command in commands {
        for asked in through {
            let run = workspace.run(&[command, &[asked]].concat());
            assert_eq!(run.code, 2, "{command:?} {asked}");
            let told = run.stderr.contains("is a link that leads out of the workspace");
            assert!(told || run.stderr.contains("name one file, not a folder"), "{}", run.stderr);
            let said = format!("{}{}", run.stdout, run.stderr);
            assert!(!said.contains("4711") && !said.contains("The secret"), "{command:?}: {said}");
        }
    }
    let run = workspace.run(&["build"]);
    let said = format!("{}{}", run.stdout, run.stderr);
    assert!(said.contains("`link/more/tools.cotter` cannot be used"), "{said}");
    assert!(!said.contains("4711"), "{said}");
    assert_eq!(
        (elsewhere.read("secret.cotter"), elsewhere.read("more/tools.cotter")),
        (SECRET.into(), SECRET.into())
    );
    assert_eq!(elsewhere.files(".").len(), 2, "nothing was written there");
    // In its own folder it is a file as any other.
    assert_eq!(elsewhere.run(&["fmt", "secret.cotter"]).code, 0);
    assert_ne!(elsewhere.read("secret.cotter"), SECRET);
}

#[test]
fn a_link_within_the_workspace_stays_one_when_its_file_is_written() {
    let workspace = Workspace::new().file("kept/a.cotter", "procedure  FW-TST-001 \"A trial\"\n");
    symlink("kept/a.cotter", workspace.path("b.cotter")).unwrap();
    let run = workspace.run(&["fmt", "b.cotter"]);
    assert_eq!((run.code, run.stderr.as_str()), (0, ""));
    assert!(workspace.path("b.cotter").is_symlink());
    assert_eq!(workspace.read("kept/a.cotter"), "procedure FW-TST-001 \"A trial\"\n");
}
